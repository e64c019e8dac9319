// Reads goals.
#include <fmt/format.h>

#include <likelihet/colony/nearest.hpp>
#include <likelihet/planning/goal.hpp>

namespace likelihet::planning {

std::variant<Goal, colony::Fault> read_goal(const colony::Model& model, std::string_view text) {
  const auto equals = text.find('=');
  if (equals == std::string_view::npos) {
    return colony::Fault{"--rank", fmt::format("'{}' is not a goal", text),
                         "write LOCUS=GENOTYPE or LOCUS=APPEARANCE"};
  }
  const std::string id(text.substr(0, equals)), value(text.substr(equals + 1));
  const auto l = model.find_locus(id);
  if (!l) {
    std::vector<std::string> known;
    for (const auto& locus : model.loci()) known.push_back(locus.id());
    return colony::Fault{"--rank", fmt::format("the model has no trait '{}'", id),
                         colony::suggestion(id, known)};
  }
  const genetics::Locus& locus = model.loci()[*l];
  if (const auto g = locus.find(value)) {
    Goal goal{*l, *g, 0};
    for (std::size_t a = 1; a < locus.appearances().size(); ++a) {
      if (locus.shows(*g, a) > locus.shows(*g, goal.appearance)) goal.appearance = a;
    }
    return goal;
  }
  std::vector<std::string> keys;
  for (std::size_t g = 0; g < locus.size(); ++g) keys.push_back(locus.key(g));
  if (const auto a = locus.find_appearance(value)) return Goal{*l, std::nullopt, *a};
  return colony::Fault{"--rank",
                       fmt::format("{} has no genotype or appearance '{}'", locus.id(), value),
                       genotype_mend(locus, value, locus.appearances(), keys)};
}

std::string genotype_mend(const genetics::Locus& locus, const std::string& text,
                          std::vector<std::string> others, const std::vector<std::string>& keys) {
  const auto slash = text.find('/');
  if (slash != std::string::npos) {
    const std::string turned = text.substr(slash + 1) + "/" + text.substr(0, slash);
    if (locus.find(turned)) {
      return fmt::format("write '{}': alleles stand in the model's order", turned);
    }
  }
  others.insert(others.end(), keys.begin(), keys.end());
  return colony::suggestion(text, others);
}

}  // namespace likelihet::planning
