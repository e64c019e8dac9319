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

}  // namespace

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
