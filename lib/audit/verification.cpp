// Begg and Greenes' correction on the logit scale.
#include <cmath>
#include <stdexcept>

#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/verification.hpp>

namespace likelihet::audit {

namespace {

struct OnLogit {
  Estimate estimate;
  double error = 0;
};

OnLogit from_logit(double odds, double variance) {
  const double width = normal_width(0.95) * std::sqrt(variance);
  const auto proportion = [](double of) { return of / (1 + of); };
  const double value = proportion(odds);
  return {{value, {proportion(odds * std::exp(-width)), proportion(odds * std::exp(width))}},
          value * (1 - value) * std::sqrt(variance)};
}

}  // namespace

Corrected begg_greenes(const PartlyVerified& counts) {
  for (double unverified : {counts.unverified_positive, counts.unverified_negative}) {
    if (!(unverified >= 0 && std::isfinite(unverified))) {
      throw std::invalid_argument("the unverified are counts of 0 or more");
    }
  }
  const TwoByTwo known = without_empty_cells(counts.known);
  const double verified_positive = known.true_positive + known.false_positive;
  const double verified_negative = known.false_negative + known.true_negative;
  const double positive = verified_positive + counts.unverified_positive;
  const double negative = verified_negative + counts.unverified_negative;
  const double of_signs = (positive + negative) / (positive * negative);
  const double so_if_positive = known.true_positive / verified_positive;
  const double so_if_negative = known.false_negative / verified_negative;

  const OnLogit sensitivity =
      from_logit(positive * so_if_positive / (negative * so_if_negative),
                 of_signs + known.false_positive / (known.true_positive * verified_positive) +
                     known.true_negative / (known.false_negative * verified_negative));
  const OnLogit specificity =
      from_logit(negative * (known.true_negative / verified_negative) /
                     (positive * (known.false_positive / verified_positive)),
                 of_signs + known.true_positive / (known.false_positive * verified_positive) +
                     known.false_negative / (known.true_negative * verified_negative));
  return {sensitivity.estimate, specificity.estimate, sensitivity.error, specificity.error};
}

}  // namespace likelihet::audit
