// Tables of markers, scorers and origins, as believed and as learned.
#pragma once

#include <string>

#include "learned_tables.hpp"
#include "terminal.hpp"

#include <likelihet/colony/model.hpp>
#include <likelihet/learning/learn.hpp>

namespace likelihet::cli {

/// The "likelihet-tables" document (docs/documents.md); `learned` is belief_alone() where nothing
/// was.
std::string tables_json(const colony::Model& model, const learning::Learned& learned,
                        TablesUsed used);

/// Marker by marker: what each level does to the odds, belief beside learned, and how many animals
/// stand behind a row; then scorers and origins.
std::string tables_text(const colony::Model& model, const learning::Learned& learned,
                        TablesUsed used, const Terminal& terminal);

/// What 'learn' tells when it is done: how far the chains agree, whether there is more than one
/// mode, where there is too little to go on.
std::string learned_text(const colony::Model& model, const learning::Learned& learned,
                         const Terminal& terminal);

}  // namespace likelihet::cli
