// Listings as text.
#include "listing_output.hpp"
#include "printable.hpp"

#include <likelihet/publishing/listing_sections.hpp>

namespace likelihet::cli {
namespace {

// A sentence holds several words of the keeper's, each of up to 200 bytes.
constexpr std::size_t longest_line = 8000;

std::string safe(const std::string& text) {
  return printable(text, longest_line);
}

// "25-C8-07, female, hatched 2025-08-20".
std::string animal_in_words(const colony::Colony& colony, std::size_t position) {
  const colony::Animal& animal = colony.animals()[position];
  std::string out = animal.id;
  if (animal.sex) out += *animal.sex == genetics::Sex::female ? ", female" : ", male";
  return animal.hatched ? out + ", hatched " + animal.hatched->text() : out;
}

}  // namespace

std::string short_listing_text(const colony::Colony& colony,
                               const std::vector<publishing::Listing>& listings,
                               const Terminal& terminal) {
  std::string out;
  const auto line = [&](const std::string& text) {
    out += wrapped(safe(text), terminal.width(), 2) + "\n";
  };
  for (const publishing::Listing& listing : listings) {
    line(animal_in_words(colony, listing.animal));
    for (const publishing::Statement& statement : listing.statements) {
      if (!statement.absent) line("- " + statement.headline);
    }
    const std::string day = publishing::dated(listing);
    if (!day.empty()) line("(" + day + ")");
    if (listing.claim) line("Claim " + *listing.claim);
    out += "\n";
  }
  line(
      "Estimated from the keeper's records, not guaranteed. Consumer law and local law come first; "
      "before pairing, ask a reptile veterinarian.");
  return out;
}

std::string listing_text(const colony::Colony& colony,
                         const std::vector<publishing::Listing>& listings,
                         const Terminal& terminal) {
  std::string out;
  for (const publishing::Listing& listing : listings) {
    if (!out.empty()) out += "\n";
    const std::string day = publishing::dated(listing);
    const std::string title =
        safe(colony.animals()[listing.animal].id) + (day.empty() ? "" : " (" + day + ")");
    out += terminal.heading(wrapped(title, terminal.width(), 2)) + "\n";
    for (const auto& section : publishing::sections_of(colony, listing)) {
      out += "\n" + terminal.heading(wrapped(safe(section.heading), terminal.width(), 2)) + "\n";
      for (const std::string& line : section.lines) {
        out += "  " + wrapped(safe(line), terminal.width() - 2, 4) + "\n";
      }
    }
  }
  return out;
}

}  // namespace likelihet::cli
