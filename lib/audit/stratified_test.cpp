// Sums within strata.
#include <cmath>
#include <map>

#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/stratified_test.hpp>

namespace likelihet::audit {

namespace {

struct Sums {
  double n = 0;
  double marker = 0, carrier = 0;
  double markers = 0, hets = 0, products = 0;  // of squares and of products
};

}  // namespace

StratifiedTest stratified_test(std::span<const Compared> animals) {
  std::map<std::size_t, Sums> strata;
  for (const Compared& one : animals) {
    Sums& sums = strata[one.stratum];
    sums.n += 1;
    sums.marker += one.marker;
    sums.carrier += one.carrier;
    sums.markers += one.marker * one.marker;
    sums.hets += one.carrier * one.carrier;
    sums.products += one.marker * one.carrier;
  }
  StratifiedTest out;
  double sum = 0;
  double variance = 0;
  for (const auto& [stratum, s] : strata) {
    if (s.n < 2) continue;
    const double markers = s.markers - s.marker * s.marker / s.n;
    const double hets = s.hets - s.carrier * s.carrier / s.n;
    if (markers <= 1e-12 || hets <= 1e-12) continue;
    ++out.informative_strata;
    sum += s.products - s.marker * s.carrier / s.n;
    variance += markers * hets / (s.n - 1);
  }
  if (!(variance > 0)) return out;
  out.z = sum / std::sqrt(variance);
  out.p = two_sided_p(out.z);
  return out;
}

}  // namespace likelihet::audit
