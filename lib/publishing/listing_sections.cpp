// Sections.
#include <algorithm>

#include "listing_notes.hpp"
#include "records_named.hpp"
#include "result_shown.hpp"
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <likelihet/publishing/listing_sections.hpp>

namespace likelihet::publishing {
std::string words_of(Basis basis) {
  switch (basis) {
    case Basis::pedigree:
      return "descent, the seller's description, sexes and looks; no markers counted, no test "
             "result moves it";
    case Basis::results:
      return "descent, the seller's description, sexes, looks and test results; no markers counted";
    case Basis::markers:
      return "descent, the seller's description, sexes, looks, test results and markers, which the "
             "audit has "
             "shown to help";
  }
  return {};
}

std::string dated(const Listing& listing) {
  std::string as_of = listing.as_of ? "as of " + listing.as_of->text() : std::string();
  if (!listing.day || listing.day == listing.as_of) return as_of;
  return fmt::format("made {}{}{}", listing.day->text(), as_of.empty() ? "" : ", ", as_of);
}

ListingSection section_of(const colony::Colony& colony, std::size_t animal,
                          const Statement& statement) {
  ListingSection out;
  out.heading = statement.headline;
  out.lines.push_back("What it means: " + statement.plain);
  out.lines.push_back("Why: " + statement.reason + ".");
  out.lines.push_back("Rests on: " + words_of(statement.basis) + ".");
  const auto records = records_named(colony, animal, statement.rests_on);
  if (!records.empty()) {
    out.lines.push_back(fmt::format("Records named: {}.", fmt::join(records, ", ")));
  }
  out.lines.push_back(
      fmt::format("What would change it: {}.", fmt::join(statement.would_change, "; ")));
  return out;
}

std::vector<ListingSection> sections_of(const colony::Colony& colony, const Listing& listing) {
  std::vector<ListingSection> out;
  ListingSection absent{"Not carried, by the records", {}};
  for (const Statement& statement : listing.statements) {
    if (statement.absent) {
      absent.lines.push_back(fmt::format("{}: {}.", statement.headline, statement.reason));
    } else {
      out.push_back(section_of(colony, listing.animal, statement));
    }
  }
  out.push_back(std::move(absent));
  ListingSection results{"Test results", {}};
  for (const ResultShown& result : listing.results)
    results.lines.push_back(in_words(colony, result));
  out.push_back(std::move(results));
  ListingSection markers{"Markers", {}};
  for (const MarkersShown& one : listing.markers) markers.lines.push_back(one.line);
  out.push_back(std::move(markers));
  out.push_back({"How past percentages came true", listing.record});
  ListingSection published{"Published", {}};
  if (listing.claim) {
    published.lines.push_back(fmt::format(
        "As {}. 'likelihet verify' derives it again from the keeper's book by this code.",
        *listing.claim));
  }
  out.push_back(std::move(published));
  ListingSection health{"Health", {}};
  for (const auto& note : listing.health) health.lines.push_back(health_line(note));
  out.push_back(std::move(health));
  out.push_back({"Cautions", listing.cautions});
  std::erase_if(out, [](const ListingSection& section) { return section.lines.empty(); });
  return out;
}

}  // namespace likelihet::publishing
