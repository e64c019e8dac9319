// Many sets of tables through one plan, eight side by side.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include <likelihet/inference/numbers.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::odds {

/// Lanes of one step: as many sets of tables are looked at together.
inline constexpr std::size_t draws_side_by_side = 8;
using DrawLanes = inference::Lanes<draws_side_by_side>;

/// Genotypes whose beliefs are alike in every draw: a variable, or all leaves of one run.
struct DrawTarget {
  bool leaf = false;
  std::uint32_t id = 0;  ///< variable or run
  std::size_t locus = 0;
  auto operator<=>(const DrawTarget&) const = default;
};

/// Every target of a colony, and which is each animal's.
struct DrawTargets {
  std::vector<DrawTarget> list;
  std::vector<std::size_t> of;  ///< by animal x locus: a position in `list`

  DrawTargets(const Prepared& prepared, std::size_t animals, std::size_t loci);
};

/// What a step hands on: draws `first` to `first` + `count` - 1 stand in the first lanes.
struct DrawStep {
  std::size_t first = 0;
  std::size_t count = 0;
  /// ln P(evidence | tables) of each, nats.
  std::array<double, draws_side_by_side> log_evidence{};
};

/// Runs `draws` sets of tables, in order, over the evidence up to `layer`. `next` gives each set;
/// `visit` gets each target's posterior, over its locus's genotypes, lane by lane, and `step` what
/// goes for the whole step, before its targets. A set of tables at which nothing is possible by
/// rounding counts as the believed ones. One by one where eight together would pass `memory_bytes`.
void run_draws(const Prepared& prepared, const colony::Model& model, Layer layer,
               const DrawTargets& targets, std::size_t draws, std::size_t memory_bytes,
               const std::function<const Tables&()>& next,
               const std::function<void(const DrawStep&)>& step,
               const std::function<void(std::size_t target, const DrawStep&,
                                        std::span<const DrawLanes>)>& visit);

}  // namespace likelihet::odds
