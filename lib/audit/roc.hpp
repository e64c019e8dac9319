// Whether those that are so were given more than those that aren't.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

// Of all here: an outcome of 1/2 or more counts as so. The direction is fixed: more was given to
// those that are so. It is never turned round to come out above 1/2. Ties count half. Throws
// std::invalid_argument for a probability or an outcome outside [0, 1].

struct Auc {
  double value = 0;  ///< in [0, 1]; 1/2 tells nothing, below it the wrong way round
  /// DeLong's. 0 where it can't be told (AUC 0 or 1, all tied, or just one of a kind: that kind's
  /// part is left out); the interval then does not rest on it.
  double standard_error = 0;
  /// Level 0.95: value and normal width, cut to [0, 1]. Where the variance is 0, or there is one
  /// case of a kind, the score interval of Newcombe (2006, Statistics in Medicine 25:559, method
  /// 5): those t with |value - t| <= z S(t), S^2 = t (1 - t) (1 + (N - 1) ((1 - t) / (2 - t) + t /
  /// (1 + t))) / (m n), N = (m + n) / 2, m and n the numbers of the two kinds. It has width at AUC
  /// 1 and with one case of each kind.
  Interval interval;
};

/// P(given to one that is so > given to one that isn't) + P(equal) / 2, the variance of DeLong,
/// DeLong and Clarke-Pearson (1988, Biometrics 44:837) in O(n log n) (Sun and Xu 2014, IEEE Signal
/// Processing Letters 21:1389). None unless there are both kinds.
std::optional<Auc> auc(std::span<const Case> cases);

struct AucDifference {
  double value = 0;  ///< first less second
  double standard_error = 0;
  Interval interval;  ///< level 0.95, cut to [-1, 1]
  /// Difference / standard error, and its two-sided p. 0 and 1 where the lists order alike; none
  /// where the variance is 0 though they differ.
  std::optional<double> z;
  std::optional<double> p;
};

/// Two forecasts of the same cases, in one order, so that they are correlated (DeLong, DeLong and
/// Clarke-Pearson 1988). None unless there are two or more of both kinds. Throws
/// std::invalid_argument also where lengths or kinds of outcome differ.
std::optional<AucDifference> auc_difference(std::span<const Case> first,
                                            std::span<const Case> second);

struct WithinAuc {
  double value = 0;
  double pairs = 0;          ///< compared: one so and one not, of one cluster
  std::size_t clusters = 0;  ///< that have such a pair
};

/// The AUC over pairs within one cluster only: what is told apart among siblings, when the cluster
/// is a clutch. Each pair counts the same. None without a pair.
std::optional<WithinAuc> auc_within(std::span<const Case> cases);

struct RocPoint {
  std::optional<double> threshold;  ///< positive at or above it; none: no one is
  double false_positive = 0;        ///< share of those not so that are positive
  double true_positive = 0;         ///< share of those so
};

/// From (0, 0) to (1, 1), one more than there are different forecasts, thresholds falling: the
/// trapezoids under it are the AUC. Empty unless there are both kinds.
std::vector<RocPoint> roc_points(std::span<const Case> cases);

}  // namespace likelihet::audit
