// Outlooks of pairings and rankings of them, for people and for programs.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "planning_output.hpp"

#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::cli {

/// An outlook and what it was asked for.
struct OutlookShown {
  planning::Pair pair;
  std::size_t offspring = 0;
  std::vector<std::size_t> loci;  ///< to show
  std::optional<colony::Date> as_of;
  TablesUsed tables = TablesUsed::belief;
  planning::Outlook outlook;
};

struct RankingShown {
  planning::Goal goal;
  std::size_t offspring = 0;
  std::size_t limit = 0;  ///< pairs to show
  std::optional<colony::Date> as_of;
  TablesUsed tables = TablesUsed::belief;
  planning::Ranking ranking;
};

/// Locus by locus, then all traits together; cautions last. What cannot be is left out.
std::string outlook_text(const colony::Colony& colony, const OutlookShown& shown,
                         const Terminal& terminal);
std::string ranking_text(const colony::Colony& colony, const RankingShown& shown,
                         const Terminal& terminal);

/// The "likelihet-outlook" and "likelihet-ranking" documents.
std::string outlook_json(const colony::Colony& colony, const OutlookShown& shown);
std::string ranking_json(const colony::Colony& colony, const RankingShown& shown);

}  // namespace likelihet::cli
