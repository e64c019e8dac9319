// The tables that are believed, not known: marker rows and origin frequencies.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/colony/model.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::odds {

/// One full set of uncertain numbers. `rows[m][0]` are the rows of marker m, `rows[m][1 + c]` those
/// of its context c (empty where it is ignored); `origins[o][l]` the allele frequencies of locus l.
/// Probabilities; each row and each frequency vector sums to 1.
struct Tables {
  std::vector<std::vector<std::vector<std::vector<double>>>> rows;
  std::vector<std::vector<std::vector<double>>> origins;
  std::vector<double> scorers;  ///< P(the level read is the level there), by scorer
  /// How strongly each marker of a group follows the animal's strength of expression
  /// (strength.hpp), by group and by marker within it; 0 or more, 0 being independence.
  std::vector<std::vector<double>> loadings;
};

/// No positive entry of a draw falls below this: out of reach of any record, yet several of them
/// multiply without underflow.
inline constexpr double least_drawn = 1e-25;

/// Each row at its `expect`, each origin at its frequencies; markers that come together at loadings
/// of 0, since belief gives none. The centre of the beliefs: what odds without intervals are
/// computed at.
Tables believed(const colony::Model& model);

/// One draw from Dirichlet(shapes): gamma variates, in logarithms, so that tiny shapes end in a
/// corner and not at 0/0 (Devroye 1986, Non-Uniform Random Variate Generation, chapters IX.3 and
/// XI.4). Entries of shape 0 stay 0; one at least is above 0. No other falls below `least_drawn`.
std::vector<double> dirichlet(const std::vector<double>& shapes, inference::RandomBits& random);

/// One draw from the beliefs: each row from Dirichlet(worth x expect), each origin's frequencies
/// from Dirichlet(worth x frequency), independently (gamma variates: Devroye 1986, Non-Uniform
/// Random Variate Generation, chapter XI.4), at loadings of 0. A level believed impossible stays
/// so; no positive entry falls below `least_drawn`. `worth` counts like that many animals (or
/// alleles) seen before: a larger one draws nearer to `expect`. A row with one possible level and
/// an origin of worth 0 are not drawn.
Tables drawn(const colony::Model& model, inference::RandomBits& random);

}  // namespace likelihet::odds
