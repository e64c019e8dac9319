// The outlook and ranking documents.
#include "outlook_output.hpp"

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

// Chance an offspring, expected number, and at least one: what every row of an outlook has.
void add_share(ordered_json& row, const planning::ChanceMixture& chance, std::size_t offspring) {
  row["chance"] = chance.chance();
  row["expected"] = chance.chance() * static_cast<double>(offspring);
  row["at_least_one"] = chance.at_least_one(offspring);
}

ordered_json parents_json(const genetics::Locus& locus, const std::vector<double>& parents) {
  auto out = ordered_json::array();
  for (std::size_t d = 0; d < locus.size(); ++d) {
    for (std::size_t s = 0; s < locus.size(); ++s) {
      const double p = parents[d * locus.size() + s];
      if (!(p > 0)) continue;
      out.push_back(
          {{"dam", locus.key(d)}, {"sire", locus.key(s)}, {"probability", std::min(p, 1.0)}});
    }
  }
  return out;
}

ordered_json sexes_json(const genetics::Locus& locus, const planning::LocusOutlook& at) {
  if (!locus.sex_linked()) return nullptr;
  auto out = ordered_json::array();
  for (std::size_t x = 0; x < 2; ++x) {
    double share = 0;
    for (double p : at.by_sex[x]) share += p;
    ordered_json row = {{"sex", x == 0 ? "female" : "male"}, {"share", std::min(share, 1.0)}};
    row["appearances"] = ordered_json::object();
    for (std::size_t a = 0; a < locus.appearances().size(); ++a) {
      row["appearances"][locus.appearances()[a]] =
          share > 0 ? std::min(at.by_sex[x][a] / share, 1.0) : 0.0;
    }
    out.push_back(row);
  }
  return out;
}

ordered_json outlook_locus_json(const genetics::Locus& locus, const planning::LocusOutlook& at,
                                std::size_t offspring) {
  ordered_json out = {{"locus", locus.id()}, {"parents", parents_json(locus, at.parents)}};
  out["genotypes"] = ordered_json::array();
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (!(at.genotypes[g].chance() > 0)) continue;
    ordered_json row = {{"genotype", locus.key(g)}};
    add_share(row, at.genotypes[g], offspring);
    out["genotypes"].push_back(row);
  }
  out["appearances"] = ordered_json::array();
  for (std::size_t a = 0; a < locus.appearances().size(); ++a) {
    if (!(at.appearances[a].chance() > 0)) continue;
    ordered_json row = {{"appearance", locus.appearances()[a]}};
    add_share(row, at.appearances[a], offspring);
    row["counts"] = at.appearances[a].counts(offspring);
    out["appearances"].push_back(row);
  }
  out["sexes"] = sexes_json(locus, at);
  out["lost"] = at.lost;
  return out;
}

ordered_json combined_json(const colony::Model& model, const OutlookShown& shown) {
  if (shown.outlook.combined_left_out || shown.loci.size() < model.loci().size()) return nullptr;
  auto out = ordered_json::array();
  for (const auto& one : shown.outlook.combined) {
    ordered_json row;
    for (std::size_t l = 0; l < model.loci().size(); ++l) {
      row["shows"][model.loci()[l].id()] = model.loci()[l].appearances()[one.appearances[l]];
    }
    add_share(row, one.chance, shown.offspring);
    out.push_back(row);
  }
  return out;
}

}  // namespace

std::string outlook_json(const colony::Colony& colony, const OutlookShown& shown) {
  ordered_json document =
      planning_head("likelihet-outlook", shown.as_of, shown.tables, shown.outlook.tables);
  document["dam"] = colony.animals()[shown.pair.dam].id;
  document["sire"] = colony.animals()[shown.pair.sire].id;
  document["offspring"] = shown.offspring;
  document["inbreeding"] = shown.outlook.inbreeding;
  document["none_can_live"] = shown.outlook.none_can_live;
  document["loci"] = ordered_json::array();
  for (const std::size_t l : shown.loci) {
    document["loci"].push_back(
        outlook_locus_json(colony.model().loci()[l], shown.outlook.loci[l], shown.offspring));
  }
  document["combined"] = combined_json(colony.model(), shown);
  document["cautions"] = cautions_json(planning::cautions_of(colony, shown.outlook));
  return document.dump(2) + "\n";
}

std::string ranking_json(const colony::Colony& colony, const RankingShown& shown) {
  const genetics::Locus& locus = colony.model().loci()[shown.goal.locus];
  ordered_json document =
      planning_head("likelihet-ranking", shown.as_of, shown.tables, shown.ranking.tables);
  document["goal"] = {
      {"locus", locus.id()},
      {"genotype", shown.goal.genotype ? ordered_json(locus.key(*shown.goal.genotype)) : nullptr},
      {"appearance", locus.appearances()[shown.goal.appearance]}};
  document["offspring"] = shown.offspring;
  document["considered"] = shown.ranking.considered;
  document["pairs"] = ordered_json::array();
  for (std::size_t n = 0; n < std::min(shown.limit, shown.ranking.pairs.size()); ++n) {
    const auto& ranked = shown.ranking.pairs[n];
    ordered_json row = {{"dam", colony.animals()[ranked.pair.dam].id},
                        {"sire", colony.animals()[ranked.pair.sire].id},
                        {"dam_of_unknown_sex", ranked.dam_of_unknown_sex},
                        {"sire_of_unknown_sex", ranked.sire_of_unknown_sex}};
    add_share(row, ranked.wanted, shown.offspring);
    row["teaches"] = ranked.teaches;
    row["inbreeding"] = ranked.inbreeding;
    row["lethal"] = std::min(ranked.lethal, 1.0);
    document["pairs"].push_back(row);
  }
  document["cautions"] = cautions_json(planning::cautions_of(colony, shown.goal));
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
