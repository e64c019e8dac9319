// Closed forms, and quantiles of beta distributions.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <stdexcept>

#include <boost/math/special_functions/beta.hpp>
#include <boost/math/tools/roots.hpp>

#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/proportion.hpp>

namespace likelihet::audit {

namespace {

void check(double events, double n) {
  if (!(events >= 0 && events <= n && std::isfinite(n))) {
    throw std::invalid_argument("a proportion takes 0 <= events <= n");
  }
}

double within(double p) {
  return std::clamp(p, 0.0, 1.0);
}

// P(X > events) + P(X = events) / 2 of n draws at p, 0 < events < n or one of the two ends.
double upper_half(double events, double n, double p) {
  const double at_least = events > 0 ? boost::math::ibeta(events, n - events + 1, p) : 1.0;
  const double above = events < n ? boost::math::ibeta(events + 1, n - events, p) : 0.0;
  return (at_least + above) / 2;
}

// The p at which upper_half is `tail`; it rises with p.
double where_upper_half(double events, double n, double tail) {
  std::uintmax_t steps = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double p) { return upper_half(events, n, p) - tail; }, 0.0, 1.0,
      boost::math::tools::eps_tolerance<double>(), steps);
  return (bracket.first + bracket.second) / 2;
}

}  // namespace

Interval wilson(double events, double n, double level) {
  check(events, n);
  const double z = normal_width(level);
  if (!(n > 0)) return {0, 1};
  const double p = events / n;
  const double whole = n + z * z;
  const double centre = (events + z * z / 2) / whole;
  const double half = z * std::sqrt(n * p * (1 - p) + z * z / 4) / whole;
  return {events > 0 ? within(centre - half) : 0, events < n ? within(centre + half) : 1};
}

Interval wilson_corrected(double events, double n, double level) {
  check(events, n);
  const double z = normal_width(level);
  if (!(n > 0)) return {0, 1};
  const double p = events / n;
  const double z2 = z * z;
  const double middle = 2 * events + z2;
  // Below about one case the roots may leave the real numbers.
  const double below = std::max(0.0, z2 - 2 - 1 / n + 4 * p * (n - events + 1));
  const double above = std::max(0.0, z2 + 2 - 1 / n + 4 * p * (n - events - 1));
  const double scale = 2 * (n + z2);
  const double low = (middle - 1 - z * std::sqrt(below)) / scale;
  const double high = (middle + 1 + z * std::sqrt(above)) / scale;
  return {events > 0 ? std::clamp(low, 0.0, p) : 0, events < n ? std::clamp(high, p, 1.0) : 1};
}

Interval clopper_pearson(double events, double n, double level) {
  check(events, n);
  normal_width(level);  // refuses a level that is none
  if (!(n > 0)) return {0, 1};
  const double tail = (1 - level) / 2;
  return {events > 0 ? boost::math::ibeta_inv(events, n - events + 1, tail) : 0,
          events < n ? boost::math::ibetac_inv(events + 1, n - events, tail) : 1};
}

Interval mid_p(double events, double n, double level) {
  check(events, n);
  normal_width(level);
  if (!(n > 0)) return {0, 1};
  const double tail = (1 - level) / 2;
  return {events > 0 ? where_upper_half(events, n, tail) : 0,
          events < n ? where_upper_half(events, n, 1 - tail) : 1};
}

Interval jeffreys(double events, double n, double level) {
  check(events, n);
  normal_width(level);
  if (!(n > 0)) return {0, 1};
  const double tail = (1 - level) / 2;
  const double a = events + 0.5;
  const double b = n - events + 0.5;
  return {events > 0 ? boost::math::ibeta_inv(a, b, tail) : 0,
          events < n ? boost::math::ibetac_inv(a, b, tail) : 1};
}

}  // namespace likelihet::audit
