// Cautions in their keeper's words.
#include "cautions.hpp"

#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/colony/trait_cautions.hpp>

namespace likelihet::cli {

std::string cautions_of(const colony::Model& model, const std::vector<std::size_t>& loci,
                        const Terminal& terminal) {
  std::string text;
  for (const auto& [traits, caution] : colony::trait_cautions(model, loci)) {
    const std::string line = fmt::format("Caution, {}: {}", traits, caution);
    text += terminal.warning(wrapped(printable(line, 2000), terminal.width(), 2)) + "\n";
  }
  return text;
}

}  // namespace likelihet::cli
