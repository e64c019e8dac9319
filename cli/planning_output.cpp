// Heads, cautions and footers of the commands about pairings.
#include "planning_output.hpp"

#include "printable.hpp"
#include <fmt/format.h>

namespace likelihet::cli {

using nlohmann::ordered_json;

std::string basis_text(TablesUsed tables, std::size_t draws, const std::string& more,
                       const Terminal& terminal) {
  const std::string averaged = draws == 0 ? "" : fmt::format(", averaged over {} draws", draws);
  return wrapped(fmt::format("Tables of markers: {}{}. {}", words_of(tables), averaged, more),
                 terminal.width(), 0) +
         "\n";
}

std::string as_of_text(const std::optional<colony::Date>& as_of) {
  return as_of ? fmt::format("As known at the end of {}.\n", as_of->text()) : std::string{};
}

std::string cautions_text(const std::vector<planning::Caution>& cautions,
                          const Terminal& terminal) {
  std::string text;
  for (const auto& caution : cautions) {
    text += wrapped("Caution: " + printable(caution.text), terminal.width(), 2) + "\n";
  }
  return text;
}

ordered_json cautions_json(const std::vector<planning::Caution>& cautions) {
  auto out = ordered_json::array();
  for (const auto& caution : cautions) {
    out.push_back({{"code", caution.code}, {"text", caution.text}});
  }
  return out;
}

ordered_json planning_head(const char* format, const std::optional<colony::Date>& as_of,
                           TablesUsed tables, std::size_t draws) {
  return {{"format", format},
          {"version", 1},
          {"as_of", as_of ? ordered_json(as_of->text()) : ordered_json(nullptr)},
          {"tables", tables == TablesUsed::learned ? "learned" : "belief"},
          {"draws", draws}};
}

}  // namespace likelihet::cli
