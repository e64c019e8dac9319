// Small random models over every feature of the model document.
#pragma once

#include "properties/dice.hpp"

#include <likelihet/colony/model_description.hpp>

namespace likelihet::properties {

/// 1-3 loci of 2-3 alleles (autosome, X or Z), soft and hard appearance, viability down to lethal,
/// origins, markers over one or two loci with contexts and weights, assays with mix-ups, scorers.
/// The genotype of two first alleles (or of one) can always live, so every founder exists.
colony::ModelDescription random_model(Dice& dice);

}  // namespace likelihet::properties
