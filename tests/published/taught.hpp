// Worked examples in which the tables themselves are unknown.
#pragma once

#include <string>
#include <vector>

#include "published/worked_colony.hpp"

#include <likelihet/learning/maximum.hpp>

namespace likelihet::published {

/// So little belief that a mode is the maximum-likelihood estimate in every printed digit.
inline constexpr double hardly_any = 1e-7;

/// Adds a marker of "negative" and "positive": P(positive | a/a) and P(positive | others) as
/// started from, with hardly any worth.
void add_test(Json& model, const std::string& id, double sensitivity, double false_positives);

/// Where EM ends from the model's own tables.
struct Likeliest {
  odds::Tables tables;
  double log_likelihood = 0;  ///< ln P(observations | tables), nats
};
Likeliest likeliest_with_height(const colony::Colony& colony);
odds::Tables likeliest(const colony::Colony& colony);

}  // namespace likelihet::published
