// The sheet. What may be long is cut short by count and by length, so that it stays one page.
#include <algorithm>

#include "page.hpp"
#include "qr_code.hpp"
#include "step_rows.hpp"
#include <fmt/format.h>

#include <likelihet/publishing/listing_sections.hpp>
#include <likelihet/publishing/sheet.hpp>

namespace likelihet::publishing {
namespace {

constexpr std::size_t most_statements = 4;
constexpr std::size_t most_steps = 10;  // of all statements together
constexpr std::size_t most_cautions = 4;
constexpr std::size_t long_word = 60;
constexpr std::size_t long_sentence = 220;
constexpr std::size_t all_odds = 1000;  // letters of all statements together
constexpr std::size_t most_tables = 2;
constexpr double code_millimetres = 30;

// About how wide a letter is, in narrow ones: capitals and all but ASCII count twice.
std::size_t width_of(unsigned char byte) {
  const bool wide = byte >= 0x80U || (byte >= 'A' && byte <= 'Z');
  return wide ? 2 : 1;
}

// A text of at most so many narrow letters, safe to show one way; cut at a character of UTF-8.
std::string brief(std::string_view text, std::size_t most) {
  std::string safe = one_way(text);
  std::size_t width = 0;
  for (std::size_t at = 0; at < safe.size(); ++at) {
    const auto byte = static_cast<unsigned char>(safe[at]);
    if ((byte & 0xC0U) == 0x80U) continue;  // goes on with a character
    width += width_of(byte);
    if (width > most) return safe.substr(0, at) + "…";
  }
  return safe;
}

Markup steps_html(const colony::Colony& colony, const odds::Account& account, std::size_t most) {
  Markup rows;
  for (const StepRow& row : step_rows(colony, account, most)) {
    const Markup days =
        row.until.empty() ? filled("{}", {row.from}) : filled("{}<br>to {}", {row.from, row.until});
    rows += filled(
        "<tr><td>{}</td><td>{}</td><td class=\"figure\">{}</td><td class=\"figure "
        "chance\">{}</td></tr>\n",
        {days, brief(row.what, long_word), row.factor, row.chance});
  }
  return rows;
}

Markup evidence_html(const colony::Colony& colony, const Listing& listing,
                     const std::vector<Evidence>& evidence) {
  if (evidence.empty()) return literal("<p>No number is open, so no evidence is weighed.</p>\n");
  const std::size_t shown = std::min(most_tables, evidence.size());
  Markup out;
  for (std::size_t e = 0; e < shown; ++e) {
    const Statement& statement = listing.statements[evidence[e].statement];
    const genetics::Locus& locus = colony.model().loci()[statement.locus];
    const std::string trait = brief(locus.id(), long_word);
    const std::string allele = brief(locus.alleles()[statement.allele], long_word);
    out += filled(
        "<table><caption>One copy of {} at {}: what made the number{}</caption>\n<thead><tr><th "
        "scope=\"col\">Day</th><th scope=\"col\">Evidence</th><th scope=\"col\" "
        "class=\"figure\">Factor on the odds</th><th scope=\"col\" "
        "class=\"figure\">Chance with it</th></tr></thead>\n<tbody>\n{}</tbody></table>\n",
        {allele, trait,
         statement.basis == Basis::markers
             ? literal(
                   ", by the keeper’s beliefs (the number above averages over what was learned)")
             : Markup(),
         steps_html(colony, evidence[e].account, most_steps / shown)});
  }
  if (evidence.size() > shown) {
    out += filled("<p>{} more are in the listing.</p>\n",
                  {fmt::format("{}", evidence.size() - shown)});
  }
  return out;
}

// Those that it may carry. The fewer there are, the more is said of each.
Markup odds_html(const Listing& listing) {
  std::vector<const Statement*> carried;
  for (const Statement& statement : listing.statements) {
    if (!statement.absent) carried.push_back(&statement);
  }
  const std::size_t shown = std::min(most_statements, carried.size());
  const std::size_t room = all_odds / std::max<std::size_t>(shown, 1);
  Markup items;
  for (std::size_t s = 0; s < shown; ++s) {
    items += filled("<li><strong>{}</strong><br>{} Why: {}.</li>\n",
                    {brief(carried[s]->headline, room / 4), brief(carried[s]->plain, room / 4),
                     brief(carried[s]->reason, room / 2)});
  }
  const std::size_t left = listing.statements.size() - shown;
  if (left > 0) {
    items += filled("<li>{} more, not carried or not shown here: see the listing.</li>\n",
                    {fmt::format("{}", left)});
  }
  return filled("<ul>\n{}</ul>\n", {items});
}

Markup cautions_html(const Listing& listing) {
  Markup items;
  const std::size_t shown = std::min(most_cautions, listing.cautions.size());
  for (std::size_t c = 0; c < shown; ++c) {
    items += filled("<li>{}</li>\n", {brief(listing.cautions[c], long_sentence)});
  }
  std::size_t left = listing.cautions.size() - shown;
  for (const auto& note : listing.health) {
    if (&note == &listing.health.front()) {
      items += filled("<li>Health: {}: {}</li>\n",
                      {brief(note.locus, long_word), brief(note.note, long_sentence)});
    } else {
      ++left;
    }
  }
  if (left > 0) {
    items += filled("<li>{} more: read them in the listing.</li>\n", {fmt::format("{}", left)});
  }
  return filled("<ul>\n{}</ul>\n", {items});
}

Markup code_html(const std::optional<std::string>& code) {
  if (!code) {
    return literal(
        "<p class=\"none\">No claim was published for this animal, so this sheet has no code to "
        "check it by.</p>\n");
  }
  const auto symbol = qr_code(*code);
  const Markup drawing =
      symbol ? qr_drawing(*symbol, "QR code of the code beside it", code_millimetres) : Markup();
  return filled(
      "<div class=\"claim\">{}<p>Code of the published claim:<br><code>{}</code><br>Ask the keeper "
      "to check it against the book. The square holds the code and nothing else.</p></div>\n",
      {drawing, *code});
}

Markup facts_html(const colony::Colony& colony, const Listing& listing) {
  const colony::Animal& animal = colony.animals()[listing.animal];
  std::string facts =
      animal.sex ? (*animal.sex == genetics::Sex::female ? "Female" : "Male") : "Sex not recorded";
  if (animal.hatched) facts += ", hatched " + animal.hatched->text();
  if (animal.clutch) {
    facts += ", clutch " + brief(colony.clutches()[*animal.clutch].id, long_word);
  }
  const std::string day = dated(listing);
  if (!day.empty()) facts += "; " + day;
  return filled("<p>{}.</p>\n", {facts});
}

}  // namespace

std::string sheet(const colony::Colony& colony, const Listing& listing,
                  const std::vector<Evidence>& evidence, const std::optional<std::string>& code) {
  const std::string id = brief(colony.animals()[listing.animal].id, long_word);
  StaticPage page;
  page.title = filled("{}: chances and evidence", {id});
  page.extra_style = literal(R"(
h1 { font-size: 1.4rem; }
h2 { font-size: 1.05rem; margin: 1rem 0 .3rem; padding-top: .3rem; border-top-width: 2px; }
p, li, dd { max-width: none; }
ul { margin: .2rem 0; padding-left: 1.2rem; }
table { width: 100%; margin-bottom: .6rem; overflow-wrap: anywhere; }
td:first-child, .chance { white-space: nowrap; }
.figure { overflow-wrap: normal; }
.top { display: flex; flex-wrap: wrap; gap: 1rem; justify-content: space-between; align-items: start; }
.top > div, .top > p { flex: 1 1 16rem; min-width: 0; }
.claim { display: flex; flex-wrap: wrap; gap: 1rem; align-items: center; }
.claim p { flex: 1 1 12rem; min-width: 0; }
.claim svg { flex: none; }
code { font-size: 1.15rem; font-weight: 600; overflow-wrap: anywhere; }
footer { margin-top: 1rem; }
@media print {
  @page { size: A4; margin: 11mm 13mm; }
  html { font-size: 8.5pt; line-height: 1.35; }
  h2 { margin-top: .5rem; }
  p { margin: .25rem 0; }
  table { font-size: 7.5pt; }
  td, th { padding-top: .1rem; padding-bottom: .1rem; }
  footer { margin-top: .5rem; }
}
)");
  page.body = filled(
      "<header class=\"top\"><div><h1>{}: chances and "
      "evidence</h1>\n{}</div>\n{}</header>\n<main>\n"
      "<section aria-labelledby=\"odds\"><h2 id=\"odds\">Chances</h2>\n{}</section>\n"
      "<section aria-labelledby=\"evidence\"><h2 id=\"evidence\">Evidence</h2>\n{}</section>\n"
      "<section aria-labelledby=\"method\"><h2 id=\"method\">Method</h2>\n"
      "<p>Mendel’s rules give the odds by descent, and each piece of evidence multiplies them by "
      "how "
      "much likelier it is of an animal with one copy than of one without (Bayes). The whole "
      "pedigree is computed exactly and at once, so that what was seen of relatives counts too. "
      "Markers "
      "count only once an audit of past forecasts shows that they help, and every published number "
      "is "
      "rounded down.</p></section>\n"
      "<section aria-labelledby=\"cautions\"><h2 id=\"cautions\">Cautions</h2>\n{}</section>\n"
      "</main>\n"
      "<footer><p>Made by likelihet from a keeper’s own records. An estimate, not a guarantee, and "
      "not a laboratory’s certificate.</p></footer>\n",
      {name(id), facts_html(colony, listing), code_html(code), odds_html(listing),
       evidence_html(colony, listing, evidence), cautions_html(listing)});
  return static_page(page).str();
}

}  // namespace likelihet::publishing
