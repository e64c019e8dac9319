// The likeliest tables, by expectation and maximisation from several starts.
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <likelihet/learning/expectation.hpp>

namespace likelihet::learning {

/// One climb. `trace[i]` is ln(prior density) + ln P(evidence) before step i + 1, in nats and up to
/// a constant; it never falls but for rounding. Every third step may be a long one.
struct Climb {
  odds::Tables tables;
  std::vector<double> trace;
  bool converged = false;  ///< no entry moved by more than `tolerance` in the last step
};

struct ClimbSettings {
  std::size_t most_steps = 10'000;
  double tolerance = 1e-9;
  bool together = true;  ///< else markers that come together are taken as independent
  const std::atomic<bool>* stop = nullptr;  ///< set from outside: a climb then gives nothing
};

/// EM (Dempster, Laird and Rubin 1977) to the mode of the posterior in the coordinates of
/// mode_of(), with step_strengths() for markers that come together; sped up by squared
/// extrapolation (Varadhan and Roland 2008, Scandinavian Journal of Statistics 35:335). Nothing if
/// the evidence contradicts itself at the start, or where it is stopped.
std::optional<Climb> climb(Expecting& expecting, const colony::Model& model, odds::Tables start,
                           const ClimbSettings& settings = {});

/// Where several climbs ended. Ends closer than 0.01 in every entry are one mode.
struct Mode {
  odds::Tables tables;
  double log_posterior = 0;  ///< up to the same constant for all, nats
  std::size_t starts = 0;    ///< that ended here
};

/// The same tables with loadings of 0.5 at least: 0 is a saddle, which EM would never leave.
odds::Tables off_the_saddle(const colony::Model& model, odds::Tables start);

/// Every mode found from the belief and from `further_starts` draws of it, the highest first. More
/// than one within a few nats of the first says that the evidence does not settle the tables: two
/// classes that swapped places, for one (label switching: Stephens 2000, JRSS B 62:795).
struct Modes {
  std::vector<Mode> found;
  Climb best;
};
std::optional<Modes> modes(Expecting& expecting, const colony::Model& model,
                           std::size_t further_starts, std::uint64_t seed,
                           const ClimbSettings& settings = {});

/// The largest difference of two sets of tables in any entry.
double distance(const odds::Tables& a, const odds::Tables& b);

}  // namespace likelihet::learning
