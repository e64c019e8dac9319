// The whole audit of a colony: did the percentages come true, and which markers earned their place.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/audit/claims.hpp>
#include <likelihet/audit/curves.hpp>
#include <likelihet/audit/flow.hpp>
#include <likelihet/audit/forecasts.hpp>
#include <likelihet/audit/marker_audit.hpp>
#include <likelihet/audit/repeats.hpp>
#include <likelihet/audit/score_table.hpp>
#include <likelihet/audit/scorers.hpp>
#include <likelihet/audit/selection.hpp>
#include <likelihet/audit/warnings.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::audit {

struct Settings {
  TruthSettings truth;
  ScoreSettings scores;
  std::vector<Claimed> claims;  ///< published from the book; events of the colony's
};

/// One animal's evidence, step by step, as of the day before its truth was known. At the model's
/// own tables, as odds::why has them.
struct Waterfall {
  Event event;
  odds::Account account;
};

/// A season most of whose scores were made knowing the parents or the chances.
struct UnblindedSeason {
  std::string season;
  std::size_t readings = 0;
  std::size_t unblinded = 0;
};

struct Audit {
  Forecasts forecasts;
  std::vector<ScoreEntry> scores;
  std::vector<Reliability> reliability;
  std::vector<Roc> roc;
  std::vector<Decision> decisions;
  std::vector<Drift> drift;
  std::vector<Band> bands;
  ClaimCheck claims;
  std::vector<Miss> worst;
  std::vector<MarkerAudit> markers;
  std::vector<Repeat> repeats;
  std::vector<ScorerAudit> scorers;
  std::vector<Agreement> agreements;
  std::vector<Selection> selections;
  std::vector<Flow> flows;
  std::vector<Waterfall> waterfalls;      ///< at most five
  std::vector<odds::Surprise> conflicts;  ///< records that hardly fit the rest
  std::vector<UnblindedSeason> unblinded;
  std::vector<Warning> warnings;
};

/// Everything, from a colony alone: the same records in another order give the same numbers.
/// Without outcomes the audit is empty and says so in a warning.
std::variant<Audit, odds::Contradiction, odds::TooLarge> audit(const colony::Colony& colony,
                                                               const Settings& settings);

}  // namespace likelihet::audit
