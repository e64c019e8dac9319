// Rounding down.
#include "rounding.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace likelihet::publishing {

double rounded_down(double probability, double step) {
  const double p = std::clamp(probability, 0.0, 1.0);
  if (p >= 1 - rounding_error) return 1;
  const double steps = std::floor((p + rounding_error) / step);
  const double parts = std::round(1 / step);
  if (std::abs(parts * step - 1) >= rounding_error) return steps * step;
  // A step that is a whole part of 1: the double nearest to the decimal, and never 1 by rounding.
  return std::min(steps, parts - 1) / parts;
}

Published whole_percent(double probability) {
  constexpr double hundredth = 0.01;
  const double p = rounded_down(probability, hundredth);
  return {p, p, hundredth};
}

std::string in_percent(const Published& published) {
  const auto percents = [](double p) { return std::round(1e6 * p) / 1e4; };
  if (published.low == published.high) {
    if (published.high == 0) return fmt::format("below {:g} %", percents(published.step));
    return fmt::format("{:g} %", percents(published.high));
  }
  return fmt::format("{:g} to {:g} %", percents(published.low), percents(published.high));
}

std::string error_in_percent(double probability) {
  const double tenths = std::ceil(1000 * (probability - rounding_error));
  return fmt::format("{:g} %", std::max(0.0, tenths) / 10);
}

std::string in_so_many(double probability) {
  if (probability >= 1 - rounding_error) return "all";
  if (probability <= rounding_error) return "none";
  const auto hundredths = static_cast<int>(std::lround(100 * rounded_down(probability, 1.0 / 100)));
  if (hundredths == 0) return "fewer than 1 in 100";
  if (hundredths % 10 == 0) return fmt::format("about {} in 10", hundredths / 10);
  return fmt::format("about {} in 100", hundredths);
}

}  // namespace likelihet::publishing
