// The holdbacks document.
#include "holdbacks_output.hpp"
#include <nlohmann/json.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

ordered_json hatchling_json(const colony::Colony& colony, const planning::Hatchling& hatchling) {
  ordered_json out = {{"id", colony.animals()[hatchling.animal].id}};
  if (hatchling.sex) {
    out["sex"] = *hatchling.sex == genetics::Sex::female ? "female" : "male";
  }
  out["chance"] = hatchling.chance;
  return out;
}

ordered_json kept_json(const colony::Colony& colony, const planning::Kept& kept) {
  auto animals = ordered_json::array();
  for (const std::size_t animal : kept.animals) animals.push_back(colony.animals()[animal].id);
  return {{"animals", animals},
          {"chance", kept.chance},
          {"if_independent", kept.product},
          {"expected", kept.expected},
          {"searched", kept.searched}};
}

}  // namespace

std::string holdbacks_json(const HoldbacksTold& told) {
  const colony::Colony& colony = *told.colony;
  const planning::HoldbackQuestion& question = *told.question;
  const auto& locus = colony.model().loci()[question.goal.locus];
  ordered_json document = {{"format", "likelihet-holdbacks"}, {"version", 1}};
  const auto& as_of = question.book.as_of;
  document["as_of"] = as_of ? ordered_json(as_of->text()) : ordered_json(nullptr);
  document["clutch"] = colony.clutches()[question.clutch].id;
  document["locus"] = locus.id();
  document["goal"] = question.goal.name;
  document["genotypes"] = ordered_json::array();
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (question.goal.meets[g]) document["genotypes"].push_back(locus.key(g));
  }
  document["keep"] = question.keep;
  document["females"] = question.females;
  document["males"] = question.males;
  document["hatchlings"] = ordered_json::array();
  for (const auto& hatchling : told.found->hatchlings) {
    document["hatchlings"].push_back(hatchling_json(colony, hatchling));
  }
  document["sizes"] = ordered_json::array();
  for (const auto& kept : told.found->sizes) {
    document["sizes"].push_back(kept_json(colony, kept));
  }
  document["counts"] = told.found->counts;
  const auto& guarantee = told.found->guarantee;
  document["guarantee"] = guarantee ? ordered_json(*guarantee) : ordered_json(nullptr);
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
