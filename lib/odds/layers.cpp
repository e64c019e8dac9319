// From a scenario to beliefs.
#include <algorithm>
#include <array>
#include <limits>

#include <fmt/format.h>

#include <likelihet/genetics/copies.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::odds {

namespace {

// A table of inheritance up to this size is made before the memory is looked at.
constexpr double small_table = 16.0 * 1024 * 1024;
// A table of inheritance as it is made, in the network, among the values of a run, and what a plan
// makes of it.
constexpr double tables_held = 4;

// "216 B", "3.2 KiB", "12 MiB".
std::string in_words(double bytes) {
  std::size_t unit = 0;
  constexpr std::array units{"B", "KiB", "MiB", "GiB", "TiB"};
  while (bytes >= 1024 && unit + 1 < units.size()) {
    bytes /= 1024;
    ++unit;
  }
  return fmt::format("{:.3g} {}", bytes, units[unit]);
}

TooLarge too_large(const Scenario& scenario, const ColonyNetwork& net, const inference::TooBig& big,
                   std::size_t memory_bytes) {
  TooLarge out;
  out.bytes = big.bytes;
  out.part_animals = big.part;
  std::string names;
  std::size_t named = 0;
  for (inference::Variable v : big.clique) {
    const Owner& owner = net.owner(v);
    if (owner.kind == Owner::Kind::animal) out.clique.emplace_back(owner.index, owner.locus);
    if (++named <= 8) {
      names += (names.empty() ? "" : ", ") + name_of(*scenario.colony, owner);
    }
  }
  if (big.clique.size() > 8) names += fmt::format(" and {} more", big.clique.size() - 8);
  out.what = fmt::format(
      "exact odds would take {} or more, and {} are allowed. The part of {} "
      "genotype{} around {} is the cause: its largest clique joins {} of them ({:.3g} "
      "combinations). "
      "Allow more with --memory, record more of these animals (what they show, a result), or cut "
      "uncertain links such as several possible sires.",
      in_words(big.bytes), in_words(static_cast<double>(memory_bytes)), big.part,
      big.part == 1 ? "" : "s", names, big.clique.size(), big.cells);
  return out;
}

// What a locus's table of inheritance alone would take, where that is over the memory: its size
// grows with the third power of the genotypes, so it is asked before the network is built.
std::optional<TooLarge> too_many_genotypes(const Scenario& scenario, std::size_t memory_bytes) {
  const auto hatchling = std::find_if(scenario.clutches.begin(), scenario.clutches.end(),
                                      [](const auto& clutch) { return clutch.has_value(); });
  if (hatchling == scenario.clutches.end()) return std::nullopt;
  const auto animal = static_cast<std::size_t>(hatchling - scenario.clutches.begin());
  const auto& loci = scenario.colony->model().loci();
  for (std::size_t l = 0; l < loci.size(); ++l) {
    const auto genotypes = static_cast<double>(loci[l].size());
    const double bytes = tables_held * genotypes * genotypes * genotypes * sizeof(double);
    if (bytes <= std::max(small_table, static_cast<double>(memory_bytes))) continue;
    TooLarge out;
    out.bytes = bytes;
    out.part_animals = scenario.colony->animals().size();
    out.clique.emplace_back(animal, l);
    out.what = fmt::format(
        "exact odds would take {} or more, and {} are allowed. {} has {} alleles "
        "and so {} genotypes; a hatchling and its parents, {} for one, join three of them ({:.3g} "
        "combinations). Allow more with --memory, or leave out alleles that no animal carries.",
        in_words(bytes), in_words(static_cast<double>(memory_bytes)), loci[l].id(),
        loci[l].alleles().size(), loci[l].size(), scenario.colony->animals()[animal].id,
        genotypes * genotypes * genotypes);
    return out;
  }
  return std::nullopt;
}

}  // namespace

std::variant<std::unique_ptr<Prepared>, TooLarge> prepare(const Scenario& scenario,
                                                          const Tables& tables,
                                                          std::size_t memory_bytes) {
  if (auto large = too_many_genotypes(scenario, memory_bytes)) return std::move(*large);
  auto made = std::make_unique<Prepared>(scenario, tables);
  auto planned = inference::Plan::make(made->net.network(), memory_bytes);
  if (const auto* big = std::get_if<inference::TooBig>(&planned)) {
    return too_large(scenario, made->net, *big, memory_bytes);
  }
  made->plan = std::make_unique<inference::Plan>(std::move(std::get<inference::Plan>(planned)));
  return made;
}

std::vector<double> genotype_odds(const Prepared& prepared, const inference::Beliefs& beliefs,
                                  std::size_t animal, std::size_t locus) {
  const Node& node = prepared.net.node(animal, locus);
  const auto belief =
      node.leaf ? beliefs.run(prepared.plan->leaves().run_of[node.id]) : beliefs.variable(node.id);
  return {belief.begin(), belief.end()};
}

std::variant<double, TooLarge> log_of_sexes(const Scenario& scenario, const Prepared& prepared,
                                            const Tables& tables, std::size_t memory_bytes) {
  const auto& loci = scenario.colony->model().loci();
  if (std::none_of(loci.begin(), loci.end(), [](const auto& l) { return l.viability_matters(); })) {
    return prepared.net.log_sexes();
  }
  Scenario bare = scenario;
  bare.observations.clear();
  auto made = prepare(bare, tables, memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&made)) return std::move(*large);
  const auto& plain = *std::get<std::unique_ptr<Prepared>>(made);
  return inference::log_evidence(*plain.plan, plain.net.values(Layer::sexes, tables));
}

std::variant<double, TooLarge> log_evidence(const Scenario& scenario, const Tables& tables,
                                            Layer layer, std::size_t memory_bytes) {
  auto made = prepare(scenario, tables, memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<Prepared>>(made);
  const double whole = inference::log_evidence(*prepared.plan, prepared.net.values(layer, tables));
  if (whole == -std::numeric_limits<double>::infinity()) return whole;
  auto given = log_of_sexes(scenario, prepared, tables, memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&given)) return std::move(*large);
  return whole - std::get<double>(given);
}

std::variant<AnimalOdds, TooLarge> odds_of(const Scenario& scenario, std::size_t animal,
                                           std::size_t memory_bytes) {
  const colony::Model& model = scenario.colony->model();
  const Tables tables = believed(model);
  auto made = prepare(scenario, tables, memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<Prepared>>(made);
  AnimalOdds out;
  out.loci.resize(model.loci().size());
  for (Layer layer : {Layer::pedigree, Layer::scored, Layer::posterior}) {
    const auto beliefs = inference::infer(*prepared.plan, prepared.net.values(layer, tables));
    if (!beliefs.possible) return AnimalOdds{};
    for (std::size_t l = 0; l < model.loci().size(); ++l) {
      LocusOdds& of = out.loci[l];
      auto& at = layer == Layer::pedigree ? of.pedigree
                 : layer == Layer::scored ? of.scored
                                          : of.posterior;
      at = genotype_odds(prepared, beliefs, animal, l);
    }
  }
  for (std::size_t l = 0; l < model.loci().size(); ++l) {
    const genetics::Locus& locus = model.loci()[l];
    const auto alleles = static_cast<std::uint16_t>(locus.alleles().size());
    for (std::uint16_t a = 1; a < alleles; ++a) {
      const double mean = genetics::copy_chances(locus, out.loci[l].posterior, a).one;
      out.loci[l].het.push_back({mean, mean, mean});
    }
  }
  return out;
}

}  // namespace likelihet::odds
