// Whether what was given 30 % came true in 30 %: on the logit scale, and as one test.
#pragma once

#include <array>
#include <optional>
#include <span>

#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

/// Probabilities below this, or above 1 less this, are taken as it on the logit scale, where 0 and
/// 1 have no place.
inline constexpr double least_on_logit = 1e-6;

// Outcomes between 0 and 1 enter the likelihood by their share: o ln m + (1 - o) ln(1 - m). Throws
// std::invalid_argument for a probability or an outcome outside [0, 1].

/// Calibration in the large: the a of logit P(so) = a + logit p, slope held at 1, by maximum
/// likelihood (Cox 1958, Biometrika 45:562; Steyerberg 2019, Clinical Prediction Models, 2nd ed.,
/// chapter 15). 0 is right on average; above 0 too little was given. In logits. None where all
/// outcomes are 0, or all 1, or there are none. Not the intercept of calibration_slope().
std::optional<double> calibration_intercept(std::span<const Case> cases);

/// logit P(so) = intercept + slope logit p.
struct LogisticFit {
  double intercept = 0;  ///< where p is 50 %, with the slope beside it; 0 if calibrated
  double slope = 1;      ///< below 1 where forecasts are too extreme
  /// Inverse of the information at the maximum, row by row: of the intercept, of both, of both, of
  /// the slope.
  std::array<double, 4> covariance{};
};

/// By maximum likelihood (Cox 1958). None where there is no single finite maximum: all outcomes of
/// one kind, one forecast for all, or a forecast that parts (or only touches) the two kinds
/// (Albert and Anderson 1984, Biometrika 71:1), found before any step is made and so never a
/// slope of some large number. An outcome within 1e-9 of 0 or 1 is of one kind there.
std::optional<LogisticFit> calibration_slope(std::span<const Case> cases);

/// Sum of (o - p)(1 - 2p) over the root of the sum of (1 - 2p)^2 p (1 - p): normal with mean 0 and
/// variance 1 if calibrated (Spiegelhalter 1986, Statistics in Medicine 5:421). None where every
/// forecast is 0, 1/2 or 1: nothing then varies.
std::optional<double> spiegelhalter_z(std::span<const Case> cases);

}  // namespace likelihet::audit
