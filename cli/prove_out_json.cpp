// The proof document.
#include <algorithm>

#include "prove_out_output.hpp"

#include <likelihet/planning/clutch_size.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

template <class Value>
ordered_json value_or_null(const std::optional<Value>& value) {
  return value ? ordered_json(*value) : ordered_json(nullptr);
}

ordered_json level_json(const planning::ProveOut& proof, double level) {
  const auto needed = proof.odds.needed(level);
  ordered_json out = {{"level", level}, {"needed", value_or_null(needed)}};
  out["clutches"] =
      needed ? value_or_null(planning::clutches_for(*needed, proof.per_clutch)) : nullptr;
  const auto visual = proof.odds.after_visual();
  out["one_visual_proves"] = visual.has_value() && visual->carrier >= level;
  return out;
}

}  // namespace

std::size_t last_row(const planning::ProveOutOdds& odds) {
  std::size_t last = 10;
  for (const double level : planning::prove_out_levels) {
    last = std::max(last, odds.needed(level).value_or(0));
  }
  return std::min<std::size_t>(last, 60);
}

std::string prove_out_json(const colony::Colony& colony, const ProveOutShown& shown) {
  const genetics::Locus& locus = colony.model().loci()[shown.asked.locus];
  const planning::ProveOut& proof = shown.proof;
  ordered_json document =
      planning_head("likelihet-prove-out", shown.as_of, shown.tables, proof.tables);
  document["animal"] = colony.animals()[shown.asked.animal].id;
  const auto* partner = std::get_if<planning::PartnerAnimal>(&shown.asked.partner);
  document["partner"] =
      partner != nullptr
          ? ordered_json{{"animal", colony.animals()[partner->animal].id}}
          : ordered_json{
                {"genotype",
                 locus.key(std::get<planning::PartnerGenotype>(shown.asked.partner).genotype)}};
  document["locus"] = locus.id();
  document["allele"] = locus.alleles()[shown.asked.allele];
  document["visual"] = ordered_json::array();
  for (const std::size_t a : proof.visual_appearances) {
    document["visual"].push_back(locus.appearances()[a]);
  }
  document["visual_is_unusual"] = proof.shows_itself;
  document["carrier"] = proof.odds.carrier_after(0);
  document["seen"] = {{"non_visual", proof.seen.non_visual}, {"visual", proof.seen.visual}};
  document["per_clutch"] = value_or_null(proof.per_clutch);
  document["levels"] = ordered_json::array();
  for (const double level : planning::prove_out_levels) {
    document["levels"].push_back(level_json(proof, level));
  }
  document["limit"] = proof.odds.limit();
  document["offspring"] = ordered_json::array();
  for (std::size_t n = 0; n <= last_row(proof.odds); ++n) {
    document["offspring"].push_back({{"non_visual", n},
                                     {"carrier", proof.odds.carrier_after(n)},
                                     {"all_non_visual", proof.odds.all_non_visual(n)},
                                     {"detected", proof.odds.detected(n)}});
  }
  const auto visual = proof.odds.after_visual();
  document["if_visual"] = nullptr;
  if (visual) {
    document["if_visual"] = {{"chance", proof.odds.visual()},
                             {"carrier", visual->carrier},
                             {"partner_carrier", visual->partner_carrier}};
  }
  document["cautions"] = cautions_json(planning::cautions_of(colony, shown.asked));
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
