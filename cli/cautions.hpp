// The cautions that a model gives its loci.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "terminal.hpp"

#include <likelihet/colony/model.hpp>

namespace likelihet::cli {

/// "Caution, tarnbrook: …" for these loci, each text once, wrapped, each ending its line.
std::string cautions_of(const colony::Model& model, const std::vector<std::size_t>& loci,
                        const Terminal& terminal);

}  // namespace likelihet::cli
