// Eight lanes in pieces of one vector register, by the vector types that g++ and clang++ have for
// every processor. Included by the files that compile loops.
#pragma once

#include <likelihet/inference/loop_bodies.hpp>

namespace likelihet::inference {

/// A Kind for LoopBodies. `bytes` is the width of a register and divides that of eight doubles.
/// `File` is a type in an unnamed namespace of the file that compiles the loops, so that they are
/// that file's own.
template <std::size_t bytes, class File>
struct LaneKind {
  using Number = Lanes<8>;
  using Piece [[gnu::vector_size(bytes), gnu::may_alias]] = double;
  using Mask [[gnu::vector_size(bytes)]] = std::int64_t;  // all ones where a comparison holds
  using Pair [[gnu::vector_size(16)]] = std::int64_t;
  static_assert(alignof(Number) % bytes == 0 && sizeof(Number) % bytes == 0);

  static Piece fill(double value) { return Piece{} + value; }
  static Piece quotient(const Piece& a, const Piece& b) { return b > Piece{} ? a / b : Piece{}; }
  static Piece larger(const Piece& a, const Piece& b) { return b > a ? b : a; }
  static bool in_range(const Piece& a) {
    const Mask inside = static_cast<Mask>(a > fill(0x1p-64)) & static_cast<Mask>(a < fill(0x1p64));
    Pair pairs[bytes / sizeof(Pair)];
    __builtin_memcpy(pairs, &inside, bytes);
    Pair all = pairs[0];
    for (const Pair& pair : pairs) all &= pair;
    return (all[0] & all[1]) != 0;
  }
};

}  // namespace likelihet::inference
