// The number types a pass can run on: one set of numbers, several side by side, or an unbounded
// range.
#pragma once

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>

namespace likelihet::inference {

/// `width` doubles side by side, one for each of so many sets of numbers; every operation is lane
/// by lane. Passes use a width of 8, which fills a cache line, and bring their own loops for tables
/// of them (loops.hpp). `width` is a power of two.
template <std::size_t width>
struct alignas(width * sizeof(double)) Lanes {
  std::array<double, width> lane{};

  Lanes() = default;
  /// Every lane alike.
  explicit Lanes(double value) { lane.fill(value); }
  Lanes& operator*=(const Lanes& other) {
    for (std::size_t i = 0; i < width; ++i) lane[i] *= other.lane[i];
    return *this;
  }
  Lanes& operator+=(const Lanes& other) {
    for (std::size_t i = 0; i < width; ++i) lane[i] += other.lane[i];
    return *this;
  }
  friend Lanes operator*(Lanes a, const Lanes& b) { return a *= b; }
};

/// A non-negative number m x 2^e with a 64-bit exponent: no product of tables underflows. Slow, and
/// used only where a pass in doubles met numbers too small to trust. Precision is that of a double,
/// 53 bits; only the range is wider.
struct Extended {
  /// In [1/2, 1), or 0 for zero.
  double mantissa = 0;
  std::int64_t exponent = 0;

  Extended() = default;
  /// `value` is finite and not negative; exact.
  explicit Extended(double value) : mantissa(value) { renormalise(); }
  Extended& operator*=(const Extended& other) {
    mantissa *= other.mantissa;
    exponent += other.exponent;
    renormalise();
    return *this;
  }
  Extended& operator+=(const Extended& other) {
    if (other.mantissa == 0) return *this;
    if (mantissa == 0) return *this = other;
    const std::int64_t gap = other.exponent - exponent;
    if (gap > 0) {
      mantissa = other.mantissa + (gap > 2000 ? 0 : std::ldexp(mantissa, -static_cast<int>(gap)));
      exponent = other.exponent;
    } else if (gap >= -2000) {
      mantissa += std::ldexp(other.mantissa, static_cast<int>(gap));
    }
    renormalise();
    return *this;
  }
  friend Extended operator*(Extended a, const Extended& b) { return a *= b; }

 private:
  void renormalise() {
    if (mantissa == 0) {
      exponent = 0;
      return;
    }
    int shift = 0;
    mantissa = std::frexp(mantissa, &shift);
    exponent += shift;
  }
};

/// a / b, and 0 where b is 0: the belief of a cell that cannot be (Jensen, Lauritzen and Olesen
/// 1990, Computational Statistics Quarterly 4:269, define 0/0 = 0 for junction trees).
inline double divide(double a, double b) {
  return b > 0 ? a / b : 0.0;
}
template <std::size_t width>
Lanes<width> divide(const Lanes<width>& a, const Lanes<width>& b) {
  Lanes<width> out;
  for (std::size_t i = 0; i < width; ++i) out.lane[i] = divide(a.lane[i], b.lane[i]);
  return out;
}
inline Extended divide(const Extended& a, const Extended& b) {
  if (b.mantissa == 0) return {};
  Extended out(a.mantissa / b.mantissa);
  if (out.mantissa != 0) out.exponent += a.exponent - b.exponent;
  return out;
}

/// A running power of two taken out of tables, and what went wrong on the way. The way out of
/// underflow in long products: take a common factor out and keep account of it (Rabiner 1989,
/// Proceedings of the IEEE 77:257, section V.A, for chains). A power of two changes exponents
/// alone, so nothing is rounded (Goldberg 1991, ACM Computing Surveys 23:5).
template <class Number>
struct Scale;

/// 2^e, exact; 0 or infinity where a double cannot hold it. std::ldexp is much slower.
inline double power_of_two(int e) {
  if (e < -1022 || e > 1023) return std::ldexp(1.0, e);
  return std::bit_cast<double>(static_cast<std::uint64_t>(e + 1023) << 52U);
}

/// Below this a table's largest entry is no longer trusted: cells beside it may have been lost. A
/// power of two. Doubles reach down to 2^-1074, so a neighbour may still be 2^-474 of the largest.
inline constexpr int least_exponent = -600;

template <>
struct Scale<double> {
  std::int64_t exponent = 0;
  bool lost = false;  ///< an entry may have underflowed, or every entry is 0

  /// Looks at `n` entries and, where the largest is far from 1, takes one power of two out of them
  /// and out of `m` more; exact. `more` is another table that the same factor is in, such as the
  /// clique behind a message. Leaves what lies between 2^-64 and 2^64 alone, which is nearly
  /// always. A table of zeros is `lost`.
  void normalise(double* table, std::size_t n, double* more = nullptr, std::size_t m = 0) {
    double largest = 0;
    for (std::size_t i = 0; i < n; ++i) largest = table[i] > largest ? table[i] : largest;
    if (largest > 0x1p-64 && largest < 0x1p64) return;
    if (!(largest > 0)) {
      lost = true;
      return;
    }
    const int e = std::ilogb(largest);
    if (e < least_exponent) lost = true;
    const int shift = e < -1000 ? 1000 : -e;
    const double factor = power_of_two(shift);
    for (std::size_t i = 0; i < n; ++i) table[i] *= factor;
    for (std::size_t i = 0; i < m; ++i) more[i] *= factor;
    exponent -= shift;
  }
  /// For a product of two scaled tables.
  void add(const Scale& other) {
    exponent += other.exponent;
    lost = lost || other.lost;
  }
  /// Undoes what normalise() took out. For tables that stand beside unscaled ones. Markers itself
  /// lost where the true size is below 2^least_exponent.
  void put_back(double* table, std::size_t n) {
    if (exponent == 0) return;
    if (exponent < least_exponent) lost = true;
    const auto e = static_cast<int>(exponent < -4000 ? -4000 : exponent);
    for (std::size_t i = 0; i < n; ++i) table[i] = std::ldexp(table[i], e);
  }
  /// What is left of a scale that was put back: whether it lost something.
  [[nodiscard]] Scale doubt() const { return {0, lost}; }
  [[nodiscard]] bool in_doubt() const { return lost; }
};

/// Each lane keeps its own exponent; one lane in doubt puts the whole run in doubt.
template <std::size_t width>
struct Scale<Lanes<width>> {
  std::array<std::int64_t, width> exponent{};
  std::array<bool, width> lost{};

  void normalise(Lanes<width>* table, std::size_t n, Lanes<width>* more = nullptr,
                 std::size_t m = 0) {
    Lanes<width> largest;
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t k = 0; k < width; ++k) {
        largest.lane[k] = table[i].lane[k] > largest.lane[k] ? table[i].lane[k] : largest.lane[k];
      }
    }
    // One comparison for all lanes in the common case.
    bool plain = true;
    for (std::size_t k = 0; k < width; ++k) {
      plain = plain && largest.lane[k] > 0x1p-64 && largest.lane[k] < 0x1p64;
    }
    if (plain) return;
    Lanes<width> factor(1.0);
    for (std::size_t k = 0; k < width; ++k) {
      Scale<double> one;
      double probe = largest.lane[k];
      one.normalise(&probe, 1);
      lost[k] = lost[k] || one.lost;
      exponent[k] += one.exponent;
      factor.lane[k] = power_of_two(static_cast<int>(-one.exponent));
    }
    for (std::size_t i = 0; i < n; ++i) table[i] *= factor;
    for (std::size_t i = 0; i < m; ++i) more[i] *= factor;
  }
  void add(const Scale& other) {
    for (std::size_t k = 0; k < width; ++k) {
      exponent[k] += other.exponent[k];
      lost[k] = lost[k] || other.lost[k];
    }
  }
  void put_back(Lanes<width>* table, std::size_t n) {
    for (std::size_t k = 0; k < width; ++k) {
      Scale<double> one{exponent[k], lost[k]};
      for (std::size_t i = 0; i < n; ++i) one.put_back(&table[i].lane[k], 1);
      lost[k] = one.lost;
    }
  }
  [[nodiscard]] Scale doubt() const {
    Scale out;
    out.lost = lost;
    return out;
  }
  [[nodiscard]] bool in_doubt() const {
    for (bool l : lost) {
      if (l) return true;
    }
    return false;
  }
};

/// Nothing to take out: the numbers carry their exponents themselves. Empty, so that a pass reads
/// the same for every number type.
template <>
struct Scale<Extended> {
  static void normalise(Extended* /*table*/, std::size_t /*n*/, Extended* /*more*/ = nullptr,
                        std::size_t /*m*/ = 0) {}
  static void add(const Scale& /*other*/) {}
  static void put_back(Extended* /*table*/, std::size_t /*n*/) {}
  [[nodiscard]] static Scale doubt() { return {}; }
  [[nodiscard]] static bool in_doubt() { return false; }
};

/// The same number as a double; 0 below a double's range.
inline double as_double(double value) {
  return value;
}
inline double as_double(const Extended& value) {
  const auto e = value.exponent < -2000 ? -2000 : value.exponent;
  return std::ldexp(value.mantissa, static_cast<int>(e));
}

/// ln(value x 2^scale), in nats; -infinity for 0.
inline double log_of(double value, const Scale<double>& scale) {
  constexpr double ln2 = 0.693147180559945309417232121458;
  return std::log(value) + static_cast<double>(scale.exponent) * ln2;
}
inline double log_of(const Extended& value, const Scale<Extended>& /*scale*/) {
  constexpr double ln2 = 0.693147180559945309417232121458;
  if (value.mantissa == 0) return -std::numeric_limits<double>::infinity();
  return std::log(value.mantissa) + static_cast<double>(value.exponent) * ln2;
}

}  // namespace likelihet::inference
