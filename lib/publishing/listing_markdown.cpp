// Markdown.
#include <algorithm>

#include "markup.hpp"

#include <likelihet/publishing/listing_markdown.hpp>
#include <likelihet/publishing/listing_sections.hpp>

namespace likelihet::publishing {
namespace {

constexpr std::string_view special_anywhere = "\\`*_[]<>&|~$@";
constexpr std::string_view special_at_start = "#+-=:";

bool is_control(char character) {
  const auto byte = static_cast<unsigned char>(character);
  return byte < 0x20 || byte == 0x7F;
}

// "1." and "1)" at the start make a list; the digits stay and what follows is escaped.
bool ends_a_list_number(std::string_view text, std::size_t at) {
  if (at == 0 || (text[at] != '.' && text[at] != ')')) return false;
  const auto before = text.substr(0, at);
  return std::all_of(before.begin(), before.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// "http://" and "www." are made links of without any marker around them.
bool starts_an_address(std::string_view text, std::size_t at) {
  if (text[at] == ':') return text.substr(at + 1).starts_with('/');
  if (text[at] != '.' || at < 3) return false;
  const auto before = text.substr(at - 3, 3);
  return std::all_of(before.begin(), before.end(), [](char c) { return c == 'w' || c == 'W'; });
}

}  // namespace

std::string markdown_text(std::string_view written) {
  const std::string one = one_way(written);
  std::string_view text = one;
  const auto first =
      std::find_if_not(text.begin(), text.end(), [](char c) { return c == ' ' || is_control(c); });
  text.remove_prefix(static_cast<std::size_t>(first - text.begin()));
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (is_control(text[at])) {
      out += ' ';
      continue;
    }
    const bool escape = special_anywhere.find(text[at]) != std::string_view::npos ||
                        (at == 0 && special_at_start.find(text[0]) != std::string_view::npos) ||
                        ends_a_list_number(text, at) || starts_an_address(text, at);
    if (escape) out += '\\';
    out += text[at];
  }
  return out;
}

std::string listing_markdown(const colony::Colony& colony, const std::vector<Listing>& listings) {
  std::string out;
  for (const Listing& listing : listings) {
    if (!out.empty()) out += "\n";
    out += "# " + markdown_text(colony.animals()[listing.animal].id) + "\n";
    const std::string day = dated(listing);
    if (!day.empty()) out += "\n" + markdown_text(day) + "\n";
    for (const ListingSection& section : sections_of(colony, listing)) {
      out += "\n## " + markdown_text(section.heading) + "\n\n";
      for (const std::string& line : section.lines) out += "- " + markdown_text(line) + "\n";
    }
  }
  return out;
}

}  // namespace likelihet::publishing
