// The scores of an audit: their names, how to read them, and where they stand in the document.
// Private to the layer.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fields.hpp"

namespace likelihet::publishing {

struct ScoreKind {
  std::string_view code;   ///< In the document.
  std::string_view words;  ///< In the report.
  std::string_view best;   ///< What would be best, and which way is better.
  int decimals;
};

/// All scores that a document may have, in the order in which a reader needs them.
const std::vector<ScoreKind>& score_kinds();

/// Which forecasts a score is of.
struct ScoreOf {
  std::string basis;
  std::string scheme;
  std::string outcomes;  ///< "all" or a kind of outcome.
  std::string locus;     ///< Empty: all traits together.
};

/// All entries of one kind of score of these forecasts (net benefit has one a threshold), else
/// none.
std::vector<const json*> find_scores(const json& audit, const ScoreOf& of, std::string_view code);

/// The score as an estimate; without a value its note says why.
Estimate score_estimate(const json& audit, const ScoreOf& of, std::string_view code);

}  // namespace likelihet::publishing
