// Sums over those that are acted on.
#include <stdexcept>

#include <likelihet/audit/case_checks.hpp>
#include <likelihet/audit/net_benefit.hpp>

namespace likelihet::audit {

namespace {

template <class ActedOn>
double benefit(std::span<const Case> cases, double threshold, ActedOn acted_on) {
  if (!(threshold > 0 && threshold < 1)) {
    throw std::invalid_argument("a threshold lies between 0 and 1");
  }
  check_some(cases);
  double sum = 0;
  for (const Case& one : cases) {
    if (!acted_on(one)) continue;
    sum += one.outcome - (1 - one.outcome) * threshold / (1 - threshold);
  }
  return sum / static_cast<double>(cases.size());
}

}  // namespace

double net_benefit(std::span<const Case> cases, double threshold) {
  return benefit(cases, threshold, [&](const Case& one) { return one.probability >= threshold; });
}

double net_benefit_of_all(std::span<const Case> cases, double threshold) {
  return benefit(cases, threshold, [](const Case&) { return true; });
}

}  // namespace likelihet::audit
