// Probabilities over genotypes as JSON objects.
#pragma once

#include <vector>

#include <nlohmann/json.hpp>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::cli {

/// Genotype key -> probability, in state order; those below 1e-15 are left out. So the numbers of
/// an object may sum to a little less than 1. Not rounded.
nlohmann::ordered_json genotypes_json(const genetics::Locus& locus,
                                      const std::vector<double>& probabilities);

}  // namespace likelihet::cli
