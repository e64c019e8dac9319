// Cautions in their keeper's words.
#include "cautions.hpp"

#include "printable.hpp"
#include <fmt/format.h>

namespace likelihet::cli {

std::string cautions_of(const colony::Model& model, const std::vector<std::size_t>& loci,
                        const Terminal& terminal) {
  std::string text;
  for (const std::size_t l : loci) {
    const auto& locus = model.loci()[l];
    if (locus.caution().empty()) continue;
    const std::string line = fmt::format("Caution, {}: {}", locus.id(), locus.caution());
    text += terminal.warning(wrapped(printable(line, 2000), terminal.width(), 2)) + "\n";
  }
  return text;
}

}  // namespace likelihet::cli
