// The network below the tree: barren variables, tied together by what the tree believes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/inference/network.hpp>
#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// Once messages have gone down a junction tree, its belief is a directed model: that of the root's
/// clique, then P(variable | separator) of each bucket under it (Lauritzen and Spiegelhalter 1988,
/// JRSS B 50:157, their set chains). In that model, too, buckets with nothing asked below them are
/// barren. So the barren variables of the main network need, beside their own factors, only the
/// buckets between those they hang on, of which the highest gives its belief and each other its
/// conditional table. These are copied here, whatever their number, and the joint posterior of this
/// network is exact. Variables have the states that the main plan left them, by position.
struct Lower {
  Network network;
  std::optional<Plan> plan;  ///< of `network`, always there once made
  /// By main variable: the barren one's number here. By main factor: the barren one's. Else `none`.
  std::vector<std::uint32_t> variable, factor;

  /// A table here that a bucket of the tree fills after each run.
  struct Tie {
    std::uint32_t bucket = 0;
    std::size_t offset = 0;  ///< of its first number among the values of `network`
    std::size_t size = 0;    ///< in numbers
    /// Where each cell of the clique is added up in the table; empty: the table is P(variable |
    /// separator), cell by cell of the clique.
    std::vector<std::uint32_t> cell;
  };
  std::vector<Tie> ties;

  /// A silent family of the main plan, and the one here whose belief is its.
  struct Asked {
    std::uint32_t family = 0;
    std::uint32_t here = 0;
  };
  std::vector<Asked> asked;

  static constexpr std::uint32_t none = UINT32_MAX;
};

/// The lower network of a plan with barren variables, whose buckets are ready; null where it would
/// take more than `memory_bytes`, as for Plan::make(). Barren variables that hang on the same part
/// of the tree share their copies of it, unless that would make large tables: then each group of
/// connected barren variables has copies of its own.
std::shared_ptr<const Lower> make_lower(const Plan& tree, std::size_t memory_bytes);

/// Positions of a table over `scope` whose states are all left by the plan, ascending.
std::vector<std::uint32_t> cells_left(const Plan& plan, std::span<const Variable> scope);

}  // namespace likelihet::inference
