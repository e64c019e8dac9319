// What the loops do, for any number type. Included by the few files that compile them.
//
// Files that are compiled for newer processors share a program with files that are not, and of two
// equal inline functions a linker keeps either one. So nothing here may leave such a file but its
// table of pointers: a Kind stands in an unnamed namespace, which gives every instance internal
// linkage, and no function of the standard library or of Lanes is called.
#pragma once

#include <likelihet/inference/loops.hpp>

namespace likelihet::inference {

/// The loops over numbers that consist of `pieces` pieces, each handled as one. A Kind has
///   Number            what tables hold
///   Piece             a Number, or as many doubles of one as the processor handles at a time
///   fill(double)      a Piece of this number in every place
///   quotient(a, b)    divide() for pieces
///   in_range(a)       whether a piece lies between 2^-64 and 2^64 everywhere
///   larger(a, b)      place by place
template <class Kind>
class LoopBodies {
 public:
  static constexpr Loops<typename Kind::Number> table() {
    return {multiply, in_range, sum_out, spread, gather, divide_into, share, mix};
  }

 private:
  using Number = typename Kind::Number;
  using Piece = typename Kind::Piece;
  static constexpr std::size_t pieces = sizeof(Number) / sizeof(Piece);

  static Piece* open(Number* table) { return reinterpret_cast<Piece*>(table); }
  static const Piece* open(const Number* table) { return reinterpret_cast<const Piece*>(table); }

  static void multiply(Number* to, Shape shape, const Factor<Number>* factors, std::size_t count,
                       bool fresh) {
    if (fresh) {
      multiply_count<true>(open(to), shape, factors, count);
    } else {
      multiply_count<false>(open(to), shape, factors, count);
    }
  }

  template <bool fresh>
  static void multiply_count(Piece* to, Shape shape, const Factor<Number>* factors,
                             std::size_t count) {
    static_assert(factors_between_checks == 4);
    if (count == 1) multiply_all<fresh, 1>(to, shape, factors);
    if (count == 2) multiply_all<fresh, 2>(to, shape, factors);
    if (count == 3) multiply_all<fresh, 3>(to, shape, factors);
    if (count == 4) multiply_all<fresh, 4>(to, shape, factors);
  }

  // The running product stays in a register; the steps that do not apply fall away.
  template <bool fresh, std::size_t count>
  static void multiply_all(Piece* to, Shape shape, const Factor<Number>* factors) {
    for (std::size_t o = 0; o < shape.outer; ++o) {
      const auto start = [&](std::size_t i) { return open(factors[i].from + factors[i].outer[o]); };
      const Piece* first = start(0);
      const Piece* second = count > 1 ? start(1) : nullptr;
      const Piece* third = count > 2 ? start(2) : nullptr;
      const Piece* fourth = count > 3 ? start(3) : nullptr;
      const std::uint32_t* at_first = factors[0].inner;
      const std::uint32_t* at_second = count > 1 ? factors[1].inner : nullptr;
      const std::uint32_t* at_third = count > 2 ? factors[2].inner : nullptr;
      const std::uint32_t* at_fourth = count > 3 ? factors[3].inner : nullptr;
      for (std::size_t k = 0; k < shape.inner; ++k) {
        for (std::size_t i = 0; i < pieces; ++i) {
          Piece product = first[at_first[k] * pieces + i];
          if constexpr (!fresh) product = to[i] * product;
          if constexpr (count > 1) product *= second[at_second[k] * pieces + i];
          if constexpr (count > 2) product *= third[at_third[k] * pieces + i];
          if constexpr (count > 3) product *= fourth[at_fourth[k] * pieces + i];
          to[i] = product;
        }
        to += pieces;
      }
    }
  }

  static bool in_range(const Number* table, std::size_t n) {
    const Piece* cell = open(table);
    for (std::size_t i = 0; i < pieces; ++i) {
      // Two at a time, so that neither waits for the other.
      Piece even = Kind::fill(0.0);
      Piece odd = even;
      std::size_t k = 0;
      for (; k + 1 < n; k += 2) {
        even = Kind::larger(even, cell[k * pieces + i]);
        odd = Kind::larger(odd, cell[(k + 1) * pieces + i]);
      }
      if (k < n) even = Kind::larger(even, cell[k * pieces + i]);
      if (!Kind::in_range(Kind::larger(even, odd))) return false;
    }
    return true;
  }

  static bool sum_out(Number* message, std::size_t cells, const Number* clique,
                      std::size_t states) {
    Piece* to = open(message);
    const Piece* from = open(clique);
    Piece largest[pieces];
    for (Piece& piece : largest) piece = Kind::fill(0.0);
    for (std::size_t s = 0; s < cells; ++s) {
      for (std::size_t i = 0; i < pieces; ++i) {
        Piece sum = from[i];
        for (std::size_t k = 1; k < states; ++k) sum += from[k * pieces + i];
        to[i] = sum;
        largest[i] = Kind::larger(largest[i], sum);
      }
      from += states * pieces;
      to += pieces;
    }
    bool inside = true;
    for (const Piece& piece : largest) inside = inside && Kind::in_range(piece);
    return inside;
  }

  static void spread(Number* clique, std::size_t cells, std::size_t states, const Number* message) {
    Piece* to = open(clique);
    const Piece* from = open(message);
    for (std::size_t s = 0; s < cells; ++s) {
      for (std::size_t i = 0; i < pieces; ++i) {
        const Piece factor = from[i];
        for (std::size_t k = 0; k < states; ++k) to[k * pieces + i] *= factor;
      }
      from += pieces;
      to += states * pieces;
    }
  }

  static void gather(Number* to, std::size_t n, const Number* clique, Shape shape,
                     const Factor<Number>& map) {
    for (std::size_t i = 0; i < n * pieces; ++i) open(to)[i] = Kind::fill(0.0);
    const Piece* from = open(clique);
    const std::uint32_t* inner = map.inner;
    for (std::size_t o = 0; o < shape.outer; ++o) {
      Piece* block = open(to + map.outer[o]);
      for (std::size_t k = 0; k < shape.inner; ++k) {
        for (std::size_t i = 0; i < pieces; ++i) block[inner[k] * pieces + i] += from[i];
        from += pieces;
      }
    }
  }

  static void divide_into(Number* to, const Number* above, std::size_t n) {
    for (std::size_t i = 0; i < n * pieces; ++i) {
      open(to)[i] = Kind::quotient(open(above)[i], open(to)[i]);
    }
  }

  static void share(Number* share, std::size_t cells, std::size_t states, const Number* conditional,
                    const Number* evidence, const Number* sums) {
    Piece* to = open(share);
    const Piece* from = open(conditional);
    for (std::size_t cell = 0; cell < cells; ++cell) {
      for (std::size_t i = 0; i < states * pieces; ++i) {
        const Piece joint = from[i] * open(evidence)[i];
        to[i] = Kind::quotient(joint, open(sums)[cell * pieces + i % pieces]);
      }
      to += states * pieces;
      from += states * pieces;
    }
  }

  static void mix(Number* out, std::size_t states, const Number* shares,
                  const WeightedBelief<Number>* branches, std::size_t count) {
    if (states == 3) return mix_three(open(out), open(shares), branches, count);
    for (std::size_t i = 0; i < pieces; ++i) {
      Piece whole = Kind::fill(0.0);
      for (std::size_t x = 0; x < states; ++x) {
        Piece sum = Kind::fill(0.0);
        for (std::size_t b = 0; b < count; ++b) {
          const Piece weight = Kind::fill(branches[b].weight);
          for (std::size_t c = 0; c < branches[b].cells; ++c) {
            const std::size_t row = std::size_t{branches[b].row[c]} * states;
            sum += open(shares)[(row + x) * pieces + i] *
                   (open(branches[b].belief)[c * pieces + i] * weight);
          }
        }
        open(out)[x * pieces + i] = sum;
        whole += sum;
      }
      const Piece factor = Kind::quotient(Kind::fill(1.0), whole);
      for (std::size_t x = 0; x < states; ++x) open(out)[x * pieces + i] *= factor;
    }
  }

  // The same with all in registers, for the genotypes of one locus.
  static void mix_three(Piece* out, const Piece* shares, const WeightedBelief<Number>* branches,
                        std::size_t count) {
    for (std::size_t i = 0; i < pieces; ++i) {
      Piece none = Kind::fill(0.0);
      Piece one = none;
      Piece two = none;
      for (std::size_t b = 0; b < count; ++b) {
        const Piece* belief = open(branches[b].belief) + i;
        const std::uint32_t* row = branches[b].row;
        const Piece weight = Kind::fill(branches[b].weight);
        for (std::size_t c = 0; c < branches[b].cells; ++c) {
          const Piece* share = shares + std::size_t{row[c]} * 3 * pieces + i;
          const Piece weighted = belief[c * pieces] * weight;
          none += share[0] * weighted;
          one += share[pieces] * weighted;
          two += share[2 * pieces] * weighted;
        }
      }
      Piece whole = none;
      whole += one;
      whole += two;
      const Piece factor = Kind::quotient(Kind::fill(1.0), whole);
      out[i] = none * factor;
      out[pieces + i] = one * factor;
      out[2 * pieces + i] = two * factor;
    }
  }
};

}  // namespace likelihet::inference
