// Everything about a network that its structure and its zeros decide: worked out once, run often.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/inference/barren.hpp>
#include <likelihet/inference/domains.hpp>
#include <likelihet/inference/elimination.hpp>
#include <likelihet/inference/index_map.hpp>
#include <likelihet/inference/leaf_families.hpp>
#include <likelihet/inference/network.hpp>

namespace likelihet::inference {

/// What a bucket multiplies into its table. Each is multiplied cell by cell in the order in which
/// inputs stand, so that equal plans round alike.
struct Input {
  enum class Kind : std::uint8_t { table, family, message };
  Kind kind = Kind::table;
  std::uint32_t source = 0;  ///< factor's table (unused), family, or child bucket
  std::size_t offset = 0;    ///< of its first number: among the values, or in the arena
  IndexMap map;
};

/// One variable's elimination (bucket elimination: Dechter 1999, Artificial Intelligence 113:41).
/// Its clique is its separator and itself, itself fastest; buckets form the junction tree. The tree
/// is rooted: a bucket's message is a table over its separator, for its parent. A bucket without a
/// parent is the root of a connected part, and its message is one number.
struct Bucket {
  /// The one that is summed out here.
  Variable variable = 0;
  std::uint32_t states = 0;  ///< left to the variable
  std::size_t separator_cells = 1;
  std::size_t clique = 0;   ///< arena offset of separator_cells x states numbers
  std::size_t message = 0;  ///< arena offset of separator_cells numbers
  /// Its range in Plan::inputs(): tables, then families, then messages of children.
  std::size_t inputs_begin = 0, inputs_end = 0;
  std::optional<std::uint32_t> parent;  ///< a later bucket
  /// By the order in which they are summed out, the last fastest: the index order of message and
  /// clique.
  std::vector<Variable> separator;
};

/// Where a family's table stands and how its cells map to pairs of full states. A family is a table
/// over (guard, first, second) of the states left to each, guard slowest.
struct FamilyPlace {
  /// dead: its guard cannot be in its state. fixed: one cell. live: an input of a bucket. outside:
  /// it tells nothing and its pair shares no clique, so its belief takes passes of its own. below:
  /// it hangs on a barren variable, so its belief is made below the tree.
  enum class State : std::uint8_t { dead, fixed, live, outside, below };
  State state = State::dead;
  std::size_t offset = 0;  ///< arena offset of the guarded cells, within the whole table
  std::size_t table = 0;   ///< arena offset of the whole table, guard slowest
  /// More than `cells` only where the guard has several states left.
  std::uint32_t table_cells = 0;
  std::uint32_t cells = 0;
  std::uint32_t cell_list = 0;  ///< in Plan::cell_lists: full pair index of each cell
};

/// Which input of which bucket a factor's table is.
struct FactorPlace {
  std::uint32_t bucket = 0;
  std::uint32_t input = 0;
};

/// For a message to people: which variables to look at. Found by counting, before any table is
/// made.
struct TooBig {
  std::vector<Variable> clique;  ///< the largest met, of `cells` cells
  double cells = 0;
  double bytes = 0;      ///< of all tables met so far; the true figure is no less
  std::size_t part = 0;  ///< variables in the connected part
};

struct Lower;

/// A junction tree by buckets, laid out in one arena, with all positions computed. Immutable; the
/// network must outlive it. Good for every set of numbers of the network's layout whose zeros
/// include those it was made with. Made once for all layers of evidence and all draws. May be
/// shared by passes in several threads, since none of them changes it.
class Plan {
 public:
  /// Numbers are the network's own. `memory_bytes` bounds the arenas of one set of doubles. A
  /// network that is impossible() gives a plan without buckets. Working memory beside the arena
  /// (index lists, sums of leaves) is not counted, nor is that of wider numbers.
  static std::variant<Plan, TooBig> make(const Network& network, std::size_t memory_bytes);

  /// No state of everything together has positive probability; nothing may be run through it.
  [[nodiscard]] bool impossible() const { return domains_.impossible; }
  /// States left, ascending. One alone: the variable is fixed and has no bucket.
  [[nodiscard]] const std::vector<std::uint32_t>& domain(Variable v) const {
    return domains_.of[v];
  }
  [[nodiscard]] const LeafFamilies& leaves() const { return leaves_; }
  /// Children stand before their parents, so upwards is forwards; a tree ends with its root, and
  /// between that and the root before stand its buckets alone.
  [[nodiscard]] const std::vector<Bucket>& buckets() const { return buckets_; }
  [[nodiscard]] const std::vector<Input>& inputs() const { return inputs_; }
  [[nodiscard]] const IndexMaps& maps() const { return maps_; }
  /// By family, as LeafFamilies numbers them.
  /// Nothing for a factor none of whose variables has more than one state left, or that is below.
  [[nodiscard]] const std::optional<FactorPlace>& factor(std::size_t f) const {
    return factor_places_[f];
  }
  [[nodiscard]] const std::vector<FamilyPlace>& families() const { return places_; }
  [[nodiscard]] const std::vector<std::uint32_t>& cell_list(std::uint32_t number) const {
    return cell_lists_[number];
  }
  /// Value offsets of factors with no free variable: they multiply the whole.
  [[nodiscard]] const std::vector<std::size_t>& constants() const { return constants_; }
  /// ln of what silent leaves and barren variables multiply the whole by, nats.
  [[nodiscard]] double silent_log() const { return leaves_.silent_log + barren_.log_sum; }
  /// Variables that are not in the tree because they tell nothing. None where what is below would
  /// not fit into memory: then they are in the tree after all.
  [[nodiscard]] const Barren& barren() const { return barren_; }
  /// Where their beliefs are made; null where there are none.
  [[nodiscard]] const Lower* lower() const { return lower_.get(); }
  /// Bucket of a variable with more than one state left that is not barren, or nothing.
  [[nodiscard]] std::optional<std::uint32_t> bucket_of(Variable v) const {
    if (bucket_of_[v] == none) return std::nullopt;
    return bucket_of_[v];
  }
  [[nodiscard]] const Network& network() const { return *network_; }
  /// In numbers, not bytes: cliques, messages and families of the tree.
  [[nodiscard]] std::size_t arena_size() const { return arena_; }
  /// The same with all that is below the tree.
  [[nodiscard]] std::size_t whole_size() const;
  [[nodiscard]] std::size_t largest_message() const { return largest_message_; }
  [[nodiscard]] std::size_t largest_clique() const { return largest_clique_; }

 private:
  friend class PlanMaker;
  static constexpr std::uint32_t none = UINT32_MAX;

  Plan(const Network& network, LeafFamilies leaves, bool peel)
      : network_(&network),
        leaves_(std::move(leaves)),
        domains_(propagate(network, leaves_)),
        barren_(peel ? Barren(network, leaves_) : Barren::none(network)) {}

  const Network* network_;
  LeafFamilies leaves_;
  Domains domains_;
  Barren barren_;
  std::shared_ptr<const Lower> lower_;
  std::vector<Bucket> buckets_;
  std::vector<std::uint32_t> bucket_of_;
  std::vector<Input> inputs_;
  IndexMaps maps_;
  std::vector<FamilyPlace> places_;
  std::vector<std::optional<FactorPlace>> factor_places_;
  std::vector<std::vector<std::uint32_t>> cell_lists_;
  std::vector<std::size_t> constants_;
  std::size_t arena_ = 0;
  std::size_t largest_message_ = 1;
  std::size_t largest_clique_ = 1;
};

}  // namespace likelihet::inference
