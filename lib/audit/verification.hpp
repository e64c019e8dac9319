// Sensitivity and specificity where the sign decides who is verified.
#pragma once

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit {

/// `known`: those whose state was established. The others have the sign and nothing else.
struct PartlyVerified {
  TwoByTwo known;
  double unverified_positive = 0;
  double unverified_negative = 0;
};

struct Corrected {
  Estimate sensitivity;
  Estimate specificity;
  double sensitivity_error = 0;  ///< standard error, on the scale of the proportion
  double specificity_error = 0;
};

/// Begg and Greenes (1983, Biometrics 39:207): P(so | sign) of the verified holds for all who have
/// the marker, which is right where verification depends on nothing but the sign. With n1 and n0
/// all who are positive and negative, v1 and v0 = P(so | sign) among the verified: sensitivity n1
/// v1 / (n1 v1 + n0 v0), specificity n0 (1 - v0) / (n0 (1 - v0) + n1 (1 - v1)). Delta-method
/// variances (Zhou 1993, Communications in Statistics 22:3177): of the logit of sensitivity
/// N / (n1 n0) + FP / (TP (TP + FP)) + TN / (FN (FN + TN)), specificity with TP and FP, FN and TN
/// exchanged. The interval of level 0.95 is symmetric on that scale, and so within (0, 1).
/// The known counts go through without_empty_cells(). Throws std::invalid_argument for a count that
/// is negative or not finite.
Corrected begg_greenes(const PartlyVerified& counts);

}  // namespace likelihet::audit
