// The generator behind every draw.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <random>

#include <boost/random/mersenne_twister.hpp>

namespace likelihet::inference {

/// 64 random bits at a time: the Mersenne twister of Nishimura 2000 (ACM Transactions on Modeling
/// and Computer Simulation 10:348) with the parameters and seeding of std::mt19937_64, so the same
/// sequence, in under half the time that libstdc++ takes for it. Serves the distributions of the
/// standard library, whose own results may differ between two such libraries; uniform() and below()
/// never do.
class RandomBits {
 public:
  using result_type = std::uint64_t;

  explicit RandomBits(std::uint64_t seed) : engine_(seed) {}
  explicit RandomBits(std::seed_seq& words) : engine_(words) {}
  static constexpr result_type min() { return 0; }
  static constexpr result_type max() { return std::numeric_limits<result_type>::max(); }
  result_type operator()() { return engine_(); }
  /// In [0, 1): the 53 upper bits. std::uniform_real_distribution takes several times as long.
  double uniform() { return static_cast<double>(engine_() >> 11U) * 0x1p-53; }
  /// One of 0 to n - 1, n above 0. What the remainder favours is below n / 2^64.
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(engine_() % n); }
  /// Whether both give the same numbers from here on.
  friend bool operator==(const RandomBits& a, const RandomBits& b) {
    return a.engine_ == b.engine_;
  }

 private:
  boost::random::mt19937_64 engine_;
};

}  // namespace likelihet::inference
