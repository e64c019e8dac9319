// The audit in a few sentences.
#include "figures.hpp"
#include "score_kinds.hpp"
#include "sections.hpp"

namespace likelihet::publishing {
namespace {

Markup warnings(const json& audit) {
  const auto& list = entries(audit, "warnings");
  if (list.empty()) return literal("<p>The audit itself has no warnings.</p>\n");
  Markup items;
  for (const json& warning : list) {
    items += filled("<li>{}</li>\n", {text(warning, "text")});
  }
  return filled(
      "<div class=\"warnings\"><h3>Before you trust any of this</h3>\n<ul>\n{}</ul></div>\n",
      {items});
}

/// The forecasts with markers as they stood that the scores are made of.
struct Tally {
  long long forecasts = 0;
  long long hets = 0;
};

Tally tally(const json& audit) {
  Tally out;
  for (const json* each :
       having(entries(audit, "forecasts"), {{"basis", "scored"}, {"scheme", "as-it-stood"}})) {
    ++out.forecasts;
    out.hets += count(*each, "outcome") == 1 ? 1 : 0;
  }
  return out;
}

Markup outcome_sentences(const json& audit) {
  const Tally of = tally(audit);
  if (of.forecasts == 0) {
    return literal(
        "<p class=\"lead\">No forecast can be checked yet: of no animal did the truth become known "
        "after a "
        "percentage had been given. What follows says only what was recorded.</p>\n");
  }
  Markup html = filled(
      "<p class=\"lead\">{} can be checked against what came out: {} turned out het, {} "
      "did not.</p>\n",
      {counted(of.forecasts, "forecast", "forecasts"), counted(of.hets, "animal", "animals"),
       std::to_string(of.forecasts - of.hets)});
  const auto ratio =
      score_estimate(audit, {"scored", "as-it-stood", "all", ""}, "observed-expected");
  if (ratio.value) {
    html += filled(
        "<p>For each het that the percentages promised, {} were found (1 would be "
        "exact).</p>\n",
        {decimal_text(ratio, 2)});
  }
  return html;
}

/// What the interval of the skill says: it is the audit's, and only put into words here.
Markup skill_sentence(const json& audit) {
  const auto skill = score_estimate(audit, {"scored", "as-it-stood", "all", ""}, "skill");
  if (!skill.value || !skill.interval) {
    return literal("<p>Whether the markers improve on the pedigree alone can't be said yet.</p>\n");
  }
  const auto figure = decimal_text(skill, 2);
  if (skill.interval->first > 0) {
    return filled(
        "<p><strong>The markers earned their place:</strong> forecasts with markers were better "
        "than "
        "the "
        "pedigree alone. Skill {}, where 0 is no better and 1 is perfect.</p>\n",
        {figure});
  }
  if (skill.interval->second < 0) {
    return filled(
        "<p><strong>The markers did harm:</strong> forecasts with markers were worse than the "
        "pedigree "
        "alone. "
        "Skill {}, where 0 is no better and 1 is perfect.</p>\n",
        {figure});
  }
  return filled(
      "<p><strong>It is not shown that the markers earned their place:</strong> the gain on the "
      "pedigree alone "
      "may be chance. Skill {}, where 0 is no better and 1 is perfect.</p>\n",
      {figure});
}

Markup verdicts(const json& audit) {
  const auto& markers = entries(audit, "markers");
  if (markers.empty()) return literal("<p>No markers were recorded.</p>\n");
  Markup items;
  for (const auto& words : different(markers, "words")) {
    Markup names;
    for (const json* marker : having(markers, {{"words", words}})) {
      if (!names.empty()) names += ", ";
      names += filled("{} ({})", {name(text(*marker, "marker")), name(text(*marker, "locus"))});
    }
    items += filled("<li><strong>{}:</strong> {}</li>\n", {words, names});
  }
  return filled("<p>The verdict on each marker:</p>\n<ul>\n{}</ul>\n", {items});
}

// Records whose chance given everything else is below one in a hundred.
Markup conflicts(const json& audit) {
  const auto& records = entries(audit, "conflicts");
  if (records.empty()) return {};
  Markup items;
  for (const json& record : records) items += filled("<li>{}</li>\n", {text(record, "why")});
  return filled("<p>Records that hardly fit the rest:</p>\n<ul>\n{}</ul>\n", {items});
}

}  // namespace

Markup summary_section(const json& audit) {
  Markup html = warnings(audit);
  html += outcome_sentences(audit);
  if (tally(audit).forecasts > 0) html += skill_sentence(audit);
  html += verdicts(audit);
  html += conflicts(audit);
  return section("summary", "In short", html);
}

}  // namespace likelihet::publishing
