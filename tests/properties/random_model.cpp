// Writes a model description by throwing dice.
#include "properties/random_model.hpp"

#include <likelihet/genetics/locus.hpp>

namespace likelihet::properties {

namespace {

using colony::ModelDescription;
using genetics::Chromosome;
using genetics::SexSystem;

std::vector<std::string> keys(const colony::LocusDescription& locus) {
  std::vector<std::string> out;
  for (const auto& g : genetics::Locus::genotypes_of(locus.alleles.size(), locus.on)) {
    out.push_back(genetics::Locus::key_of(g, locus.alleles, locus.on));
  }
  return out;
}

colony::LocusDescription locus(Dice& dice, std::size_t number, SexSystem system,
                               std::size_t most_alleles) {
  colony::LocusDescription out;
  out.id = numbered("locus", number);
  if (system != SexSystem::none && dice.chance(0.5)) {
    out.on = system == SexSystem::xy ? Chromosome::x : Chromosome::z;
  }
  const std::vector<std::string> names = {"+", "a", "b"};
  const std::size_t alleles = dice.between(2, most_alleles);
  out.alleles.assign(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(alleles));
  out.appearance.push_back({"default", {{"plain", 1.0}}});
  const auto all = keys(out);
  for (std::size_t g = 1; g < all.size(); ++g) {
    if (dice.chance(0.4)) {
      out.appearance.push_back({all[g], {{"shown", 1.0}}});
    } else if (dice.chance(0.3)) {
      const auto p = dice.simplex(2, 0);
      out.appearance.push_back({all[g], {{"shown", p[0]}, {"plain", p[1]}}});
    }
    // Genotypes of first alleles alone stay as they are: founders must be able to live.
    const bool first_only = all[g] == "+/W" || all[g] == "+/Y";
    if (!first_only && dice.chance(0.25)) {
      out.viability.push_back({all[g], dice.chance(0.5) ? 0.0 : 0.1 + 1.5 * dice.unit()});
    }
  }
  if (out.appearance.size() == 1) out.appearance.push_back({all[2], {{"shown", 1.0}}});
  return out;
}

colony::RowDescription row(Dice& dice, const ModelDescription& model, std::size_t levels,
                           bool everyone) {
  colony::RowDescription out;
  const std::size_t loci =
      everyone ? 0 : dice.between(1, std::min<std::size_t>(2, model.loci.size()));
  const std::size_t from = dice.roll(model.loci.size());
  for (std::size_t k = 0; k < loci; ++k) {
    const auto& at = model.loci[(from + k) % model.loci.size()];
    out.at.push_back({at.id, dice.pick(keys(at))});
  }
  out.expect = dice.simplex(levels, 0.1);
  if (dice.chance(0.5)) out.worth = 1 + 10 * dice.unit();
  return out;
}

std::vector<colony::RowDescription> rows(Dice& dice, const ModelDescription& model,
                                         std::size_t levels) {
  std::vector<colony::RowDescription> out;
  for (std::size_t k = dice.roll(3); k > 0; --k) out.push_back(row(dice, model, levels, false));
  out.push_back(row(dice, model, levels, true));
  return out;
}

colony::ContextDescription context(Dice& dice, const ModelDescription& model, std::size_t levels) {
  colony::ContextDescription out;
  if (dice.chance(0.6)) {
    out.locus = dice.pick(model.loci).id;
    out.shows = dice.chance(0.5) ? "shown" : "plain";
  } else {
    out.line = dice.chance(0.5) ? "north" : "south";
  }
  out.ignore = dice.chance(0.5);
  if (!out.ignore) out.rows = rows(dice, model, levels);
  return out;
}

colony::MarkerDescription marker(Dice& dice, const ModelDescription& model, std::size_t number) {
  colony::MarkerDescription out;
  out.id = numbered("mark", number);
  const std::vector<std::string> names = {"absent", "faint", "strong"};
  const std::size_t levels = dice.between(2, 3);
  out.levels.assign(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(levels));
  if (dice.chance(0.4)) out.weight = dice.chance(0.2) ? 0.0 : dice.unit();
  out.rows = rows(dice, model, levels);
  for (std::size_t k = dice.roll(3); k > 0; --k)
    out.contexts.push_back(context(dice, model, levels));
  return out;
}

colony::AssayDescription assay(Dice& dice, const ModelDescription& model, std::size_t number) {
  colony::AssayDescription out;
  out.id = numbered("assay", number);
  const auto& at = dice.pick(model.loci);
  out.locus = at.id;
  out.reports = {"clear", "carrier", "no-call"};
  for (const std::string& key : keys(at)) out.rows.push_back({key, dice.simplex(3, 0.1)});
  if (dice.chance(0.6)) out.mix_up = 0.3 * dice.unit();
  return out;
}

colony::OriginDescription origin(Dice& dice, const ModelDescription& model, const char* id) {
  colony::OriginDescription out;
  out.id = id;
  for (const auto& at : model.loci) {
    if (dice.chance(0.3)) continue;
    colony::Named<double> frequencies;
    for (std::size_t k = 1; k < at.alleles.size(); ++k) {
      frequencies.push_back({at.alleles[k], dice.chance(0.2) ? 0.0 : 0.45 * dice.unit()});
    }
    out.frequencies.push_back({at.id, frequencies});
  }
  return out;
}

}  // namespace

colony::ModelDescription random_model(Dice& dice) {
  ModelDescription model;
  model.name = "random";
  const std::vector<SexSystem> systems = {SexSystem::none, SexSystem::xy, SexSystem::zw};
  model.sex_chromosomes = dice.pick(systems);
  const std::size_t loci = dice.chance(0.08) ? 3 : dice.between(1, 2);
  const std::size_t most_alleles = loci == 3 ? 2 : dice.chance(0.3) ? 3 : 2;
  for (std::size_t k = 0; k < loci; ++k) {
    model.loci.push_back(locus(dice, k, model.sex_chromosomes, most_alleles));
  }
  for (const char* id : {"wild", "bought"}) model.origins.push_back(origin(dice, model, id));
  for (std::size_t k = dice.roll(4); k > 0; --k) model.markers.push_back(marker(dice, model, k));
  for (std::size_t k = dice.roll(3); k > 0; --k) model.assays.push_back(assay(dice, model, k));
  model.scorers = {{"ana", 0.9}, {"ben", 0.4 + 0.6 * dice.unit()}, {"cy", std::nullopt}};
  return model;
}

}  // namespace likelihet::properties
