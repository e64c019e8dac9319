// A seeded source of choices that are the same on every platform.
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace likelihet::properties {

/// "A" and 7 make "A7".
inline std::string numbered(std::string prefix, std::size_t number) {
  return prefix.append(std::to_string(number));
}

/// std::mt19937_64 with distributions of its own: those of the standard library differ by vendor.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  /// 0 .. sides - 1.
  std::size_t roll(std::size_t sides) { return static_cast<std::size_t>(engine_() % sides); }
  std::size_t between(std::size_t low, std::size_t high) { return low + roll(high - low + 1); }
  bool chance(double p) { return unit() < p; }
  /// In [0, 1).
  double unit() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }

  template <class T>
  const T& pick(const std::vector<T>& from) {
    return from[roll(from.size())];
  }
  template <class T>
  void shuffle(std::vector<T>& items) {
    for (std::size_t i = items.size(); i > 1; --i) std::swap(items[i - 1], items[roll(i)]);
  }
  /// So many probabilities that sum to 1; some are exactly 0 with chance `zero`.
  std::vector<double> simplex(std::size_t size, double zero) {
    std::vector<double> parts(size);
    double total = 0;
    for (double& part : parts) {
      part = chance(zero) ? 0.0 : 0.05 + unit();
      total += part;
    }
    if (total == 0) total = parts[roll(size)] = 1;
    for (double& part : parts) part /= total;
    return parts;
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace likelihet::properties
