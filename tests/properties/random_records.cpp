// Writes records by throwing dice.
#include "properties/random_records.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::properties {

namespace {

using colony::AnimalRecord;
using colony::ModelDescription;
using colony::Records;
using genetics::Sex;

const std::vector<std::string> lines = {"north", "south"};
const std::vector<std::string> origin_ids = {"wild", "bought"};

// Odds over the keys that the recorded sex can have; all keys where the sex is not recorded.
colony::BoughtAsRecord claim(Dice& dice, const colony::LocusDescription& locus,
                             const std::optional<Sex>& sex) {
  colony::BoughtAsRecord out;
  out.locus = locus.id;
  std::vector<std::string> can_have;
  for (const auto& g : genetics::Locus::genotypes_of(locus.alleles.size(), locus.on)) {
    if (sex && g.sex && *g.sex != *sex) continue;
    can_have.push_back(genetics::Locus::key_of(g, locus.alleles, locus.on));
  }
  // Zeros only where the sex is known: else a sex could be left with nothing.
  const auto odds = dice.simplex(can_have.size(), sex ? 0.4 : 0.0);
  for (std::size_t k = 0; k < can_have.size(); ++k) {
    if (odds[k] > 0) out.odds.push_back({can_have[k], odds[k]});
  }
  if (dice.chance(0.7)) out.trust = dice.chance(0.2) ? 1.0 : dice.unit();
  return out;
}

// Who may be whose parent is settled by a hidden sex; whether it is recorded is another matter.
struct Making {
  Dice& dice;
  const ModelDescription& model;
  Records records;
  std::vector<Sex> sexes;

  AnimalRecord animal() {
    AnimalRecord out;
    out.id = numbered("A", records.animals.size());
    sexes.push_back(dice.chance(0.5) ? Sex::female : Sex::male);
    if (dice.chance(0.5)) out.sex = sexes.back();
    if (dice.chance(0.4)) out.line = dice.pick(lines);
    return out;
  }

  void founder() {
    AnimalRecord out = animal();
    if (dice.chance(0.8)) out.origin = dice.pick(origin_ids);
    for (const auto& locus : model.loci) {
      if (dice.chance(0.35)) out.bought_as.push_back(claim(dice, locus, out.sex));
    }
    records.animals.push_back(out);
  }

  std::vector<std::string> of_sex(Sex sex) {
    std::vector<std::string> out;
    for (std::size_t a = 0; a < records.animals.size(); ++a) {
      if (sexes[a] == sex) out.push_back(records.animals[a].id);
    }
    return out;
  }

  void clutch(std::size_t number) {
    colony::ClutchRecord out;
    out.id = numbered("C", number);
    const auto dams = of_sex(Sex::female);
    auto sires = of_sex(Sex::male);
    if (!dams.empty() && dice.chance(0.85)) out.dam = dice.pick(dams);
    if (!out.dam && dice.chance(0.7)) out.dam_origin = dice.pick(origin_ids);
    dice.shuffle(sires);
    const std::size_t most = dice.chance(0.35) ? 3 : 1;
    if (dice.chance(0.85)) {
      for (std::size_t k = 0; k < std::min(most, sires.size()); ++k) {
        out.sires.push_back({sires[k], std::nullopt});
        if (dice.chance(0.7)) out.sires.back().share = 0.1 + dice.unit();
      }
    }
    if (out.sires.empty() && dice.chance(0.7)) out.sire_origin = dice.pick(origin_ids);
    if (dice.chance(0.7)) {
      out.paternity = dice.chance(0.5) ? colony::Paternity::mixed : colony::Paternity::single;
    }
    if (dice.chance(0.4)) out.line = dice.pick(lines);
    const std::size_t offspring = dice.chance(0.1) ? 0 : dice.between(1, 3);
    records.clutches.push_back(out);
    for (std::size_t k = 0; k < offspring; ++k) {
      AnimalRecord hatchling = animal();
      hatchling.clutch = out.id;
      records.animals.push_back(hatchling);
    }
  }

  const std::string& any_animal() { return dice.pick(records.animals).id; }

  colony::ScoreRecord score() {
    const auto& marker = dice.pick(model.markers);
    colony::ScoreRecord out{any_animal(), marker.id, {}, {}, {}, {}, {}};
    if (dice.chance(0.15)) {
      out.reason = "masked";
      return out;
    }
    out.level = dice.pick(marker.levels);
    if (dice.chance(0.7)) out.scorer = dice.pick(model.scorers).id;
    if (dice.chance(0.3)) out.sure = 0.3 + 0.7 * dice.unit();
    return out;
  }

  // Whether the records settle its sex: then a partner of the same sex is a fault, not evidence.
  bool sex_known(std::size_t animal) {
    const std::string& id = records.animals[animal].id;
    if (records.animals[animal].sex) return true;
    return std::any_of(records.clutches.begin(), records.clutches.end(), [&](const auto& clutch) {
      return clutch.dam == id || std::any_of(clutch.sires.begin(), clutch.sires.end(),
                                             [&](const auto& sire) { return sire.id == id; });
    });
  }

  colony::BroodRecord brood() {
    const auto& locus = dice.pick(model.loci);
    const std::size_t animal = dice.roll(records.animals.size());
    std::vector<std::string> partners;
    for (const auto& g : genetics::Locus::genotypes_of(locus.alleles.size(), locus.on)) {
      if (g.sex && *g.sex == sexes[animal] && sex_known(animal)) continue;
      partners.push_back(genetics::Locus::key_of(g, locus.alleles, locus.on));
    }
    colony::BroodRecord out{records.animals[animal].id, locus.id, dice.pick(partners), {}};
    out.offspring.push_back({"plain", static_cast<std::int64_t>(dice.between(1, 4))});
    if (dice.chance(0.3)) {
      out.offspring.push_back({"shown", static_cast<std::int64_t>(dice.roll(3))});
    }
    return out;
  }

  void observation() {
    colony::ObservationRecord out;
    out.id = numbered("o", records.observations.size());
    const std::size_t kind = dice.roll(10);
    if (kind < 3) {
      out.what = colony::AppearanceRecord{any_animal(), dice.pick(model.loci).id,
                                          dice.chance(0.85) ? "plain" : "shown"};
    } else if (kind < 6 && !model.markers.empty()) {
      out.what = score();
    } else if (kind < 8 && !model.assays.empty()) {
      const auto& assay = dice.pick(model.assays);
      out.what = colony::ResultRecord{any_animal(), assay.id, dice.pick(assay.reports), {}};
    } else if (kind == 8) {
      out.what = brood();
    } else if (!records.observations.empty() && dice.chance(0.4)) {
      out.what = colony::WithdrawalRecord{dice.pick(records.observations).id, "mistaken"};
    } else {
      out.what = colony::AppearanceRecord{any_animal(), dice.pick(model.loci).id, "plain"};
    }
    const std::vector<std::string> days = {"2024-03-01", "2024-06-01", "2025-02-01"};
    if (dice.chance(0.8)) out.on = colony::Date::parse(dice.pick(days));
    records.observations.push_back(out);
  }
};

}  // namespace

Records random_records(Dice& dice, const ModelDescription& model) {
  Making making{dice, model, {}, {}};
  for (std::size_t k = dice.between(1, 4); k > 0; --k) making.founder();
  const std::size_t clutches = dice.roll(5);
  for (std::size_t k = 0; k < clutches; ++k) making.clutch(k);
  for (std::size_t k = dice.roll(17); k > 0; --k) making.observation();
  return making.records;
}

Records shuffled(Dice& dice, Records records) {
  dice.shuffle(records.animals);
  dice.shuffle(records.clutches);
  dice.shuffle(records.observations);
  return records;
}

}  // namespace likelihet::properties
