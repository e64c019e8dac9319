// Whether taking markers together predicts better than taking them as independent.
#pragma once

#include <atomic>
#include <cstddef>
#include <optional>

#include <likelihet/odds/layers.hpp>

namespace likelihet::learning {

/// Σ over clutches of log2 P(the clutch's scores | all other evidence, tables learned from that) by
/// markers that come together, less the same by independent markers. The tables are those of the
/// mode.
struct ClutchesLeftOut {
  std::size_t clutches = 0;
  double gain = 0;            ///< bits; above 0: together predicts better
  double standard_error = 0;  ///< bits: √(n x variance over clutches)
};

/// Leaves out each clutch in turn in which some animal was read for two markers of a group, 40 of
/// them at most, evenly over their ids (a log score by cross-validation: Gneiting and Raftery 2007,
/// JASA 102:359, section 8.2). `mode` is where EM ended for the whole. Nothing where fewer than two
/// clutches tell, where memory is short, or where `stop` is set.
std::optional<ClutchesLeftOut> clutches_left_out(const odds::Scenario& whole,
                                                 const odds::Prepared& prepared,
                                                 const odds::Tables& mode, std::size_t memory_bytes,
                                                 const std::atomic<bool>* stop);

}  // namespace likelihet::learning
