// How good the forecasts were.
#include <map>
#include <tuple>

#include "charts.hpp"
#include "figures.hpp"
#include "score_kinds.hpp"
#include "sections.hpp"

namespace likelihet::publishing {
namespace {

constexpr std::size_t most_forecasts_listed = 500;

std::string score_text(const json& entry, int decimals) {
  auto score = estimate(entry);
  score.why = text(entry, "note");
  return decimal_text(score, decimals);
}

/// What a score is called in its row: net benefit has one row a threshold.
std::string row_name(const ScoreKind& kind, const json& entry) {
  std::string words(kind.words);
  if (number(entry, "threshold")) words += " at " + percent_text(entry, "threshold");
  return words;
}

/// The entry in that place; null past the last.
const json& at(const std::vector<const json*>& list, std::size_t place) {
  static const json nothing;
  return place < list.size() ? *list[place] : nothing;
}

/// The rows of one choice of forecasts, by the pedigree and with markers side by side.
std::vector<std::vector<std::string>> score_rows(const json& audit, ScoreOf of) {
  std::vector<std::vector<std::string>> rows;
  for (const ScoreKind& kind : score_kinds()) {
    of.basis = "pedigree";
    const auto pedigree = find_scores(audit, of, kind.code);
    of.basis = "scored";
    const auto scored = find_scores(audit, of, kind.code);
    for (std::size_t place = 0; place < std::max(pedigree.size(), scored.size()); ++place) {
      const json& one = at(pedigree, place);
      const json& other = at(scored, place);
      const json& counts = other.is_null() ? one : other;
      rows.push_back({row_name(kind, counts), score_text(one, kind.decimals),
                      score_text(other, kind.decimals), count_text(counts, "n"),
                      count_text(counts, "clutches"), std::string(kind.best)});
    }
  }
  return rows;
}

Markup main_tables(const json& audit) {
  Markup html;
  for (const auto& scheme : different(entries(audit, "scores"), "scheme")) {
    html += html_table(
        {"Scores, " + scheme_words(scheme),
         {"score", "pedigree", "with markers", "forecasts", "clutches", "best, and which way"},
         score_rows(audit, {"", scheme, "all", ""}),
         1,
         5});
  }
  return html;
}

/// The same of one scheme, by locus and by kind of outcome; how to read them stands above.
Table parts_table(const json& audit, const std::string& scheme) {
  Table table{"Scores in parts, " + scheme_words(scheme),
              {"forecasts of", "score", "pedigree", "with markers", "forecasts", "clutches"},
              {},
              2};
  const auto& scores = entries(audit, "scores");
  for (const auto& locus : different(scores, "locus")) {
    for (const auto& kind : different(scores, "outcomes")) {
      if (kind == "all" && locus.empty()) continue;
      for (auto& row : score_rows(audit, {"", scheme, kind, locus})) {
        row.insert(row.begin(),
                   (locus.empty() ? "all loci" : locus) + ", known by " + kind_words(kind));
        row.pop_back();
        table.rows.push_back(std::move(row));
      }
    }
  }
  return table;
}

Markup parts_tables(const json& audit) {
  std::vector<Table> tables;
  for (const auto& scheme : different(entries(audit, "scores"), "scheme")) {
    auto table = parts_table(audit, scheme);
    if (!table.rows.empty()) tables.push_back(std::move(table));
  }
  if (tables.empty()) return {};
  return folded("Scores by kind of outcome and by trait", tables, false);
}

std::string outcome_words(const json& forecast) {
  return count(forecast, "outcome") == 1 ? "het" : "not het";
}

Markup worst_table(const json& audit) {
  Table table{"The forecasts that were furthest off",
              {"animal", "trait", "called", "turned out", "bits"},
              {},
              2};
  for (const json& each : entries(audit, "worst")) {
    table.rows.push_back({text(each, "animal"), text(each, "locus"),
                          percent_text(each, "probability"), outcome_words(each),
                          decimal_text({number(each, "bits"), {}, ""}, 1)});
  }
  return html_table(table);
}

/// One row an animal, locus and day, with both percentages.
Table forecasts_table(const json& audit, const std::string& scheme) {
  Table table{"",
              {"animal", "clutch", "trait", "called on", "known on", "known by", "pedigree",
               "with markers", "turned out", "any marker scored"},
              {},
              6};
  constexpr std::size_t pedigree_column = 6;
  std::map<std::tuple<std::string, std::string, std::string>, std::size_t> rows;
  for (const json* each : having(entries(audit, "forecasts"), {{"scheme", scheme}})) {
    const auto key = std::tuple(text(*each, "animal"), text(*each, "locus"), text(*each, "on"));
    const auto [place, is_new] = rows.try_emplace(key, table.rows.size());
    if (is_new) {
      table.rows.push_back(
          {text(*each, "animal"), text(*each, "clutch"), text(*each, "locus"), text(*each, "on"),
           text(*each, "known_on"), kind_words(text(*each, "kind")), std::string(not_given),
           std::string(not_given), outcome_words(*each), flag(*each, "scored") ? "yes" : "no"});
    }
    const bool by_pedigree = text(*each, "basis") == "pedigree";
    table.rows[place->second][by_pedigree ? pedigree_column : pedigree_column + 1] =
        percent_text(*each, "probability");
  }
  table.caption =
      "Every forecast, " + scheme_words(scheme) + " (" + std::to_string(table.rows.size()) + ")";
  if (table.rows.size() > most_forecasts_listed) {
    table.rows.resize(most_forecasts_listed);
    table.caption += ": the first " + std::to_string(most_forecasts_listed) +
                     "; the audit document has all of them";
  }
  return table;
}

Markup forecasts_tables(const json& audit) {
  std::vector<Table> tables;
  for (const auto& scheme : different(entries(audit, "forecasts"), "scheme")) {
    tables.push_back(forecasts_table(audit, scheme));
  }
  if (tables.empty()) return {};
  return folded("Every forecast", tables, false);
}

}  // namespace

Markup scores_section(const json& audit, bool can_draw) {
  Markup html = literal(
      "<p>“Pedigree” is the baseline: the same animals, without any markers. Figures in brackets "
      "are "
      "95 % "
      "intervals, from whole clutches drawn again.</p>\n");
  html += main_tables(audit);
  html += parts_tables(audit);
  html += html_figures(reliability_charts(audit), can_draw,
                       "There are no outcomes to draw a reliability diagram of.");
  html += html_figures(listing_charts(audit), can_draw,
                       "Nothing was called yet whose truth came out: no listing can be checked.");
  html += html_figures(roc_charts(audit), can_draw,
                       "There is no ROC curve: that takes both hets and others.");
  html += html_figures(net_benefit_charts(audit), can_draw,
                       "Net benefit can't be given without outcomes.");
  html += html_figures(drift_charts(audit), can_draw, "There are no periods to compare yet.");
  html += worst_table(audit);
  html += forecasts_tables(audit);
  return section("scores", "How good the forecasts were", html);
}

}  // namespace likelihet::publishing
