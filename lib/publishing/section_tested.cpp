// Whether those that were tested are like those that were not.
#include "figures.hpp"
#include "sections.hpp"
#include "table.hpp"

namespace likelihet::publishing {
namespace {

std::string verdict_words(const std::string& verdict) {
  if (verdict == "looks-selected") return "looks selected";
  if (verdict == "looks-random") return "looks like chance";
  if (verdict == "too-few") return "too few to say";
  return verdict;
}

}  // namespace

Markup tested_section(const json& audit) {
  Markup html = literal(
      "<p>If mostly animals with strong markers are tested, markers look better than they are. The "
      "last column is the "
      "chance that a tested animal's markers speak louder than an untested one's; 50 % is a fair "
      "choice.</p>\n");
  Table table{
      "Tested and untested animals",
      {"locus", "verdict", "tested", "untested", "tested with low scores", "louder markers"},
      {},
      2};
  for (const json& locus : entries(audit, "tested")) {
    html += filled("<p>{}: {}</p>\n", {name(text(locus, "locus")), text(locus, "text")});
    table.rows.push_back({text(locus, "locus"), verdict_words(text(locus, "verdict")),
                          count_text(locus, "tested"), count_text(locus, "untested"),
                          count_text(locus, "low_score_tested"),
                          percent_text(estimate(locus, "selection"))});
  }
  html += html_table(table);
  return section("tested", "Who was tested", html);
}

}  // namespace likelihet::publishing
