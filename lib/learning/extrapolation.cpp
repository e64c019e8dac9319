// Squared extrapolation in unbounded coordinates.
#include <algorithm>
#include <cmath>
#include <vector>

#include <likelihet/base/log_odds.hpp>
#include <likelihet/learning/extrapolation.hpp>
#include <likelihet/learning/parameters.hpp>

namespace likelihet::learning {

namespace {

// No coordinate is followed beyond this: e^-50 is nothing.
constexpr double bound = 50;

std::vector<double> coordinates(const std::vector<Parameter>& all, const odds::Tables& tables) {
  auto numbers = flat(tables);
  for (std::size_t p = 0; p < all.size(); ++p) {
    if (!all[p].open) continue;
    double& x = numbers[p];
    x = all[p].kind == Parameter::Kind::scorer ? std::log(x / (1 - x)) : std::log(x);
    x = std::clamp(x, -bound, bound);
  }
  return numbers;
}

// Entries of one row or of one origin's locus stand together and sum to 1.
bool same_simplex(const Parameter& a, const Parameter& b) {
  return a.kind == b.kind && a.of == b.of && a.table == b.table && a.row == b.row;
}

odds::Tables back(const std::vector<Parameter>& all, std::vector<double> numbers,
                  const odds::Tables& like) {
  for (std::size_t p = 0; p < all.size();) {
    if (!all[p].open) {
      ++p;
      continue;
    }
    if (all[p].kind == Parameter::Kind::scorer) {
      numbers[p] = base::logistic(numbers[p]);
      ++p;
      continue;
    }
    if (all[p].kind == Parameter::Kind::loading) {
      numbers[p] = std::exp(numbers[p]);
      ++p;
      continue;
    }
    std::size_t end = p;
    double whole = 0;
    for (; end < all.size() && same_simplex(all[p], all[end]); ++end) {
      if (all[end].open) whole += numbers[end] = std::exp(numbers[end]);
    }
    for (; p < end; ++p) {
      if (all[p].open) numbers[p] /= whole;
    }
  }
  return unflattened(numbers, like);
}

}  // namespace

odds::Tables extrapolated(const colony::Model& model, const odds::Tables& first,
                          const odds::Tables& second, const odds::Tables& third) {
  const auto all = parameters(model);
  const auto a = coordinates(all, first);
  const auto b = coordinates(all, second);
  const auto c = coordinates(all, third);
  double r_squared = 0;
  double v_squared = 0;
  for (std::size_t p = 0; p < all.size(); ++p) {
    const double r = b[p] - a[p];
    const double v = c[p] - 2 * b[p] + a[p];
    r_squared += r * r;
    v_squared += v * v;
  }
  if (!(v_squared > 0)) return third;
  const double length = std::max(1.0, std::sqrt(r_squared / v_squared));
  std::vector<double> to(all.size());
  for (std::size_t p = 0; p < all.size(); ++p) {
    const double r = b[p] - a[p];
    const double v = c[p] - 2 * b[p] + a[p];
    to[p] = std::clamp(a[p] + 2 * length * r + length * length * v, -bound, bound);
    if (!all[p].open) to[p] = c[p];
  }
  return back(all, std::move(to), third);
}

}  // namespace likelihet::learning
