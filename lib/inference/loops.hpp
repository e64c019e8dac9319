// The innermost loops of a pass, so that they can be compiled more than once: eight lanes wide for
// the vector instructions of newer processors, and for any processor.
#pragma once

#include <cstddef>
#include <cstdint>

#include <likelihet/inference/numbers.hpp>

namespace likelihet::inference {

/// Which instructions the loops over eight lanes use. Results are the same to the last bit on all,
/// since every lane sees the same operations of IEEE 754 in the same order, none of them fused.
enum class Instructions : std::uint8_t {
  portable,  ///< what the whole library is compiled for
  avx2,      ///< x86-64 with AVX2: four doubles at a time
  avx512,    ///< x86-64 with AVX-512F: eight doubles at a time
};

/// A table that is multiplied into another. Cell i of that one stands at outer[i / inner cells] +
/// inner[i % inner cells] from `from`, as in an IndexMap.
template <class Number>
struct Factor {
  const Number* from = nullptr;
  const std::uint32_t* outer = nullptr;
  const std::uint32_t* inner = nullptr;
};

/// So many factors are multiplied in one go, and after so many a table's size is looked at again.
inline constexpr std::size_t factors_between_checks = 4;

/// Lengths of the two lists of an IndexMap; the table that they cover has `outer` x `inner` cells.
struct Shape {
  std::size_t outer = 1;
  std::size_t inner = 0;
};

/// The belief about a pair of parents: `cells` numbers, and the row of the shares that each goes
/// to.
template <class Number>
struct WeightedBelief {
  const Number* belief = nullptr;
  const std::uint32_t* row = nullptr;
  std::size_t cells = 0;
  double weight = 1;
};

/// Pointers to the loops of one kind of processor. None allocates or throws. Tables that are
/// written do not overlap those that are read, but for `to` itself.
template <class Number>
struct Loops {
  /// to = the product of one to factors_between_checks factors, from left to right; times what
  /// `to` held, at the left, unless `fresh`.
  void (*multiply)(Number* to, Shape shape, const Factor<Number>* factors, std::size_t count,
                   bool fresh);
  /// Whether the largest of `n` cells lies between 2^-64 and 2^64, in each lane: then
  /// Scale::normalise() would do nothing.
  bool (*in_range)(const Number* table, std::size_t n);
  /// message[s] = Σ over k < states of clique[s x states + k], for s < cells. Returns whether the
  /// message is in_range().
  bool (*sum_out)(Number* message, std::size_t cells, const Number* clique, std::size_t states);
  /// clique[s x states + k] *= message[s], the reverse of sum_out.
  void (*spread)(Number* clique, std::size_t cells, std::size_t states, const Number* message);
  /// Adds the cells of a clique up into the `n` cells of `to`, wiped before, where `map` says; the
  /// reverse of multiply. `map.from` is not looked at.
  void (*gather)(Number* to, std::size_t n, const Number* clique, Shape shape,
                 const Factor<Number>& map);
  /// to[s] = divide(above[s], to[s]) for s < n.
  void (*divide_into)(Number* to, const Number* above, std::size_t n);
  /// share[cell x states + x] = divide(conditional[cell x states + x] evidence[x], sums[cell]).
  void (*share)(Number* share, std::size_t cells, std::size_t states, const Number* conditional,
                const Number* evidence, const Number* sums);
  /// out[x] = Σ over branches of weight x Σ over c < cells of belief[c] x shares[row[c] x states +
  /// x], for x < states, divided by its own sum; all 0 where that is 0.
  void (*mix)(Number* out, std::size_t states, const Number* shares,
              const WeightedBelief<Number>* branches, std::size_t count);
};

/// The loops for double and Extended.
template <class Number>
[[nodiscard]] const Loops<Number>& loops();
template <>
[[nodiscard]] const Loops<double>& loops<double>();
template <>
[[nodiscard]] const Loops<Extended>& loops<Extended>();
/// For eight lanes: those of the widest instructions that can_run().
template <>
[[nodiscard]] const Loops<Lanes<8>>& loops<Lanes<8>>();

/// Whether this build has the loops and this processor, with its operating system, runs them.
/// Portable ones always can.
[[nodiscard]] bool can_run(Instructions instructions);
/// The loops of just these instructions. Throws std::invalid_argument unless they can_run().
[[nodiscard]] const Loops<Lanes<8>>& lane_loops(Instructions instructions);

}  // namespace likelihet::inference
