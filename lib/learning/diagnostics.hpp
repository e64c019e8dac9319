// Whether chains of draws have come to one distribution, and how many independent draws they are
// worth.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace likelihet::learning {

/// Vehtari, Gelman, Simpson, Carpenter and Buerkner (2021, Bayesian Analysis 16:667).
struct Convergence {
  /// Rank-normalised split R-hat, the larger of bulk (equation 4 on z of equation 14) and folded
  /// (section 4.2): 1 where the chains agree; infinite where a chain never moves and another is
  /// elsewhere. Called done at 1.01 or below.
  double r_hat = 1;
  /// Effective sample sizes of the rank-normalised draws and, the smaller, of the two indicators of
  /// the 5 % and 95 % quantiles (section 4.3). In draws; the number of draws itself where none
  /// moves.
  double bulk = 0;
  double tail = 0;
};

/// `chains` are of one length, at least 4; each is split in half. Two or more chains tell more than
/// one. Throws std::invalid_argument for less, or for lengths that differ.
Convergence convergence(std::span<const std::vector<double>> chains);

/// R-hat of chains as they are (equation 4, neither split nor ranked). 1 where nothing varies.
double r_hat(std::span<const std::vector<double>> chains);

/// Effective sample size of chains as they are: Geyer's (1992, Statistical Science 7:473) initial
/// monotone sequence on the combined autocorrelation (equations 10 to 13); at most S log10 S of S
/// draws in all.
double effective_size(std::span<const std::vector<double>> chains);

}  // namespace likelihet::learning
