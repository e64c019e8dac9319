// The odds document; its fields are fixed (docs/documents.md), so nothing is added here.
#include <cstddef>

#include "genotype_json.hpp"
#include "odds_output.hpp"
#include <nlohmann/json.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

constexpr double least_written = 1e-15;

ordered_json het_json(const genetics::Locus& locus, const odds::LocusOdds& odds) {
  auto alleles = ordered_json::object();
  for (std::size_t i = 0; i < odds.het.size(); ++i) {
    const odds::Het& het = odds.het[i];
    alleles[locus.alleles()[i + 1]] = {{"mean", het.mean}, {"interval", {het.low, het.high}}};
  }
  return alleles;
}

ordered_json locus_json(const genetics::Locus& locus, const odds::LocusOdds& odds) {
  return {{"pedigree", genotypes_json(locus, odds.pedigree)},
          {"scored", genotypes_json(locus, odds.scored)},
          {"posterior", genotypes_json(locus, odds.posterior)},
          {"het", het_json(locus, odds)}};
}

ordered_json animal_json(const colony::Colony& colony, std::size_t animal,
                         const odds::AnimalOdds& odds, const Lens& lens) {
  const auto& record = colony.animals()[animal];
  ordered_json entry = {{"id", record.id}};
  if (record.clutch) entry["clutch"] = colony.clutches()[*record.clutch].id;
  auto loci = ordered_json::object();
  for (const std::size_t l : lens.loci) {
    const auto& locus = colony.model().loci()[l];
    loci[locus.id()] = locus_json(locus, odds.loci[l]);
  }
  entry["loci"] = std::move(loci);
  return entry;
}

}  // namespace

ordered_json genotypes_json(const genetics::Locus& locus,
                            const std::vector<double>& probabilities) {
  auto keys = ordered_json::object();
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (probabilities[g] >= least_written) keys[locus.key(g)] = probabilities[g];
  }
  return keys;
}

std::string odds_json(const colony::Colony& colony, const odds::ColonyOdds& odds, const Lens& lens,
                      const std::optional<colony::Date>& as_of, TablesUsed tables) {
  ordered_json document = {{"format", "likelihet-odds"}, {"version", 1}};
  document["as_of"] = as_of ? ordered_json(as_of->text()) : ordered_json(nullptr);
  document["tables"] = tables == TablesUsed::learned ? "learned" : "belief";
  document["log_evidence"] = odds.log_evidence;
  document["animals"] = ordered_json::array();
  for (const std::size_t animal : lens.animals) {
    document["animals"].push_back(animal_json(colony, animal, odds.animals[animal], lens));
  }
  document["surprises"] = ordered_json::array();
  for (const auto& surprise : odds.surprises) {
    document["surprises"].push_back(
        {{"observation", colony.observations()[surprise.observation].id},
         {"probability", surprise.probability},
         {"why", surprise.why}});
  }
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
