// What a marker's levels do to the odds.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/learning/learn.hpp>

namespace likelihet::learning {

/// The factor that reading a level for sure puts on the odds of a row's genotypes against those of
/// the last row, which holds for all others: P(level | row) / P(level | last row), the likelihood
/// ratio (Good 1950), raised to the marker's weight. Positions in the model; `table` is 0 for the
/// marker's own rows and 1 + c for context c.
struct LevelFactor {
  std::size_t marker = 0;
  std::size_t table = 0;
  std::size_t row = 0;  ///< not the last
  std::size_t level = 0;
  double believed = 1;
  double median = 1;  ///< over the draws
  double low = 1;     ///< central 95 %
  double high = 1;
};

/// Of every row but the last of every table, in the model's order. Without draws median and ends
/// are the believed factor.
std::vector<LevelFactor> level_factors(const colony::Model& model,
                                       const std::vector<odds::Tables>& draws);

/// What belief alone says, in the form of what is learned: means are expectations, ends those of
/// the Beta distribution that a Dirichlet has for one entry (Boost.Math's inverse incomplete beta);
/// nothing was drawn, and no animals stand behind it.
Learned belief_alone(const colony::Model& model);

}  // namespace likelihet::learning
