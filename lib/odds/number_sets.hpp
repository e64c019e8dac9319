// Many sets of numbers through one plan, eight side by side, or one by one where memory is short.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include <likelihet/inference/numbers.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::odds {

/// Lanes of one step: as many sets of numbers are looked at together.
inline constexpr std::size_t draws_side_by_side = 8;
using DrawLanes = inference::Lanes<draws_side_by_side>;

/// Genotypes whose beliefs are alike in every set: a variable, or all leaves of one run.
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

/// What a step hands on: sets `first` to `first` + `count` - 1 stand in the first lanes.
struct DrawStep {
  std::size_t first = 0;
  std::size_t count = 0;
  /// ln P(evidence | numbers) of each, nats; -infinity where nothing is possible.
  std::array<double, draws_side_by_side> log_evidence{};
};

/// What `write` may change of a set of numbers, and what the first set starts from.
struct NumberSets {
  std::vector<double> values;  ///< layout of inference::Network::values()
  /// Positions, as [begin, end). Read where `write_lanes` is empty.
  std::vector<std::pair<std::size_t, std::size_t>> written;
  /// Turns the numbers of the set before into those of the next.
  std::function<void(std::vector<double>&)> write;
  /// Where it is quicker: the next sets, as many as `count`, into as many lanes; empty: by `write`.
  std::function<void(std::size_t count, std::vector<DrawLanes>&)> write_lanes;
  /// What a set at which nothing is possible counts as; nothing: its beliefs are all 0.
  std::optional<inference::Beliefs> instead;
};

using StepVisitor = std::function<void(const DrawStep&)>;
/// Gets a target's posterior over its locus's genotypes, lane by lane.
using TargetVisitor =
    std::function<void(std::size_t target, const DrawStep&, std::span<const DrawLanes>)>;

/// What eight sets of numbers side by side take, bytes.
std::size_t lanes_bytes(const Prepared& prepared);

/// Runs `count` sets, in order; `step` gets what goes for a whole step, before `visit` gets each of
/// `targets`. One by one where eight together would pass `memory_bytes`.
void run_sets(const Prepared& prepared, const colony::Model& model,
              std::span<const DrawTarget> targets, NumberSets sets, std::size_t count,
              std::size_t memory_bytes, const StepVisitor& step, const TargetVisitor& visit);

}  // namespace likelihet::odds
