// The page of listings.
#include <cmath>

#include "listing_notes.hpp"
#include "page.hpp"
#include "script.hpp"
#include "statement_words.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <likelihet/publishing/listing_html.hpp>
#include <likelihet/publishing/listing_sections.hpp>

namespace likelihet::publishing {
namespace {

using nlohmann::ordered_json;

// A word of the keeper's in a page or in its data.
std::string shown(std::string_view text) {
  return one_way(text);
}

double in_hundredths(double probability) {
  return std::round(1e6 * probability) / 1e4;
}

ordered_json property_json(const colony::Colony& colony, const Statement& statement) {
  const genetics::Locus& locus = colony.model().loci()[statement.locus];
  ordered_json out = {
      {"@type", "PropertyValue"},
      {"name", shown("chance of exactly one copy for " + trait_name(locus, statement.allele))},
      {"unitText", "percent, rounded down"}};
  if (statement.published.low == statement.published.high) {
    out["value"] = in_hundredths(statement.published.high);
  } else {
    out["minValue"] = in_hundredths(statement.published.low);
    out["maxValue"] = in_hundredths(statement.published.high);
  }
  out["description"] =
      shown(fmt::format("{}. Why: {}. Rests on: {}. An estimate, not a guarantee.",
                        statement.headline, statement.reason, words_of(statement.basis)));
  return out;
}

Markup data_of(const colony::Colony& colony, const std::vector<Listing>& listings) {
  auto products = ordered_json::array();
  for (const Listing& listing : listings) {
    ordered_json product = {{"@type", "Product"},
                            {"name", shown(colony.animals()[listing.animal].id)},
                            {"additionalProperty", ordered_json::array()}};
    for (const Statement& statement : listing.statements) {
      product["additionalProperty"].push_back(property_json(colony, statement));
    }
    products.push_back(std::move(product));
  }
  ordered_json page = {{"@context", "https://schema.org"}, {"@type", "WebPage"}};
  if (!listings.empty() && listings.front().day) {
    page["dateModified"] = listings.front().day->text();
  }
  page["mainEntity"] = std::move(products);
  page = ordered_json::parse(page.dump(-1, ' ', false, ordered_json::error_handler_t::replace));
  return filled("<script type=\"application/ld+json\">{}</script>\n", {Script::data(page)});
}

Markup section_html(const ListingSection& section) {
  Markup lines;
  for (const std::string& line : section.lines) {
    lines += filled("<li>{}</li>\n", {shown(line)});
  }
  return filled("<section>\n<h3>{}</h3>\n<ul>\n{}</ul>\n</section>\n",
                {shown(section.heading), lines});
}

Markup listing_article(const colony::Colony& colony, const Listing& listing) {
  Markup sections;
  for (const ListingSection& section : sections_of(colony, listing)) {
    sections += section_html(section);
  }
  const std::string day = dated(listing);
  const Markup dates = day.empty() ? Markup() : filled("<p>{}</p>\n", {day});
  return filled("<article>\n<h2>{}</h2>\n{}{}</article>\n",
                {name(shown(colony.animals()[listing.animal].id)), dates, sections});
}

Markup listings_title(const colony::Colony& colony, const std::vector<Listing>& listings) {
  if (listings.size() != 1) return literal("Animals and their chances");
  return filled("{}: odds", {shown(colony.animals()[listings.front().animal].id)});
}

}  // namespace

std::string listing_html(const colony::Colony& colony, const std::vector<Listing>& listings) {
  StaticPage page;
  page.title = listings_title(colony, listings);
  page.extra_style = literal(
      "article { break-inside: auto; }\n"
      "article + article { break-before: page; }\n"
      "article > section { break-inside: avoid; }\n"
      "h3 { border-left: 4px solid var(--ink); padding-left: .6rem; }\n");
  page.data = data_of(colony, listings);
  Markup articles;
  for (const Listing& listing : listings) articles += listing_article(colony, listing);
  page.body = filled(
      "<header><h1>{}</h1></header>\n<main>\n{}</main>\n"
      "<footer><p>Made by likelihet from a keeper’s own records. An estimate, not a "
      "guarantee.</p></footer>\n",
      {page.title, articles});
  return static_page(page).str();
}

}  // namespace likelihet::publishing
