// The account document.
#include <cmath>

#include "observation_words.hpp"
#include "why_output.hpp"
#include <nlohmann/json.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

/// JSON has no infinity: proof is written as the word.
ordered_json number_or_infinity(double value) {
  if (std::isinf(value)) return value > 0 ? "infinity" : "-infinity";
  return value;
}

ordered_json step_json(const colony::Colony& colony, const odds::Step& step) {
  auto observations = ordered_json::array();
  auto words = ordered_json::array();
  for (const std::size_t position : step.observations) {
    observations.push_back(colony.observations()[position].id);
    words.push_back(words_of(colony, position, true));
  }
  const auto& first = colony.observations()[step.observations.front()];
  return {{"on", first.on || first.known ? ordered_json(day_in_words(first)) : ordered_json()},
          {"observations", observations},
          {"what", words},
          {"own", step.own},
          {"before", step.before},
          {"after", step.after},
          {"factor", number_or_infinity(step.factor)},
          {"decibans", number_or_infinity(step.decibans)}};
}

ordered_json account_json(const colony::Colony& colony, const Answer& answer) {
  const auto& locus = colony.model().loci()[answer.question.locus];
  auto steps = ordered_json::array();
  for (const auto& step : answer.account.steps) steps.push_back(step_json(colony, step));
  return {{"locus", locus.id()},
          {"allele", locus.alleles()[answer.question.allele]},
          {"start", answer.account.start},
          {"steps", steps},
          {"end", answer.account.end},
          {"own_decibans", number_or_infinity(answer.account.own_decibans)},
          {"relatives_decibans", number_or_infinity(answer.account.relatives_decibans)}};
}

}  // namespace

std::string why_json(const colony::Colony& colony, const std::vector<Answer>& answers,
                     const std::optional<colony::Date>& as_of) {
  ordered_json document = {{"format", "likelihet-why"}, {"version", 1}};
  document["as_of"] = as_of ? ordered_json(as_of->text()) : ordered_json(nullptr);
  document["animal"] = colony.animals()[answers.front().question.animal].id;
  document["accounts"] = ordered_json::array();
  for (const auto& answer : answers) document["accounts"].push_back(account_json(colony, answer));
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
