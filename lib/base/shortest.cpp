// Shortest decimals.
#include <array>
#include <charconv>

#include <likelihet/base/shortest.hpp>

namespace likelihet::base {

std::string shortest(double number) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number).ptr;
  return {digits.data(), end};
}

}  // namespace likelihet::base
