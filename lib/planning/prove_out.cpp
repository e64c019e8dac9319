// The pair behind a proof: its joint odds, and what is recorded of its offspring.
#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <likelihet/planning/clutch_size.hpp>
#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/pair_cells.hpp>
#include <likelihet/planning/prove_out.hpp>

namespace likelihet::planning {

namespace {

using genetics::Sex;

bool with_animal(const ProveOutAsked& asked) {
  return std::holds_alternative<PartnerAnimal>(asked.partner);
}

// The sexes that the two take part with; either may follow from the other's.
struct Parts {
  std::optional<Sex> animal, partner;
};

Parts parts_of(const colony::Colony& colony, const ProveOutAsked& asked) {
  const genetics::Locus& locus = colony.model().loci()[asked.locus];
  Parts out{colony.animals()[asked.animal].sex, std::nullopt};
  out.partner = with_animal(asked)
                    ? colony.animals()[std::get<PartnerAnimal>(asked.partner).animal].sex
                    : locus.genotypes()[std::get<PartnerGenotype>(asked.partner).genotype].sex;
  if (!out.animal && out.partner) out.animal = genetics::other_sex(*out.partner);
  if (!out.partner && out.animal) out.partner = genetics::other_sex(*out.animal);
  return out;
}

bool has(const genetics::Locus& locus, std::size_t genotype, std::uint16_t allele) {
  return locus.genotypes()[genotype].copies(allele) > 0;
}

// A visual's appearances; where none tells one, what two copies show most.
std::vector<std::size_t> visuals_of(const genetics::Locus& locus, std::uint16_t allele) {
  const genetics::Looks looks = genetics::looks_of(locus, allele);
  std::vector<std::size_t> out;
  for (std::size_t a = 0; a < looks.visual.size(); ++a) {
    if (looks.visual[a]) out.push_back(a);
  }
  for (std::size_t g = 0; out.empty() && g < locus.size(); ++g) {
    if (locus.genotypes()[g].copies(allele) == 2) {
      out.push_back(genetics::likeliest_appearance(locus, g));
    }
  }
  return out;
}

// P(an offspring shows one of these | its genotype).
Wanted any_of(const genetics::Locus& locus, std::size_t number,
              const std::vector<std::size_t>& appearances) {
  Wanted out{number, std::vector<double>(locus.size(), 0.0)};
  for (std::size_t g = 0; g < locus.size(); ++g) {
    for (std::size_t a : appearances) out.of_genotype[g] += locus.shows(g, a);
  }
  return out;
}

// None of the pair's offspring can live, so none will tell anything.
std::vector<ProveOutCell> without_offspring(const genetics::Locus& locus,
                                            const std::vector<double>& odds, std::uint16_t allele) {
  std::vector<ProveOutCell> out;
  for (std::size_t g = 0; g < odds.size(); ++g) {
    out.push_back({odds[g], 0.0, has(locus, g, allele), false});
  }
  return out;
}

// A partner in the book: joint cells of both, the dam's first.
std::variant<std::vector<ProveOutCell>, odds::Contradiction, odds::TooLarge> cells_with_animal(
    const colony::Colony& colony, const ProveOutAsked& asked, const Wanted& visual,
    const Parts& parts, const odds::Options& options,
    std::span<const odds::Tables* const> learned) {
  const genetics::Locus& locus = colony.model().loci()[asked.locus];
  const std::size_t partner = std::get<PartnerAnimal>(asked.partner).animal;
  const PairChances chances(colony.model(), visual);
  odds::Scenario scenario = odds::scenario(colony, options.as_of);
  scenario.sexes[asked.animal] = parts.animal;
  scenario.sexes[partner] = parts.partner;
  std::vector<std::size_t> first, second;
  for (std::size_t l : chances.loci()) {
    first.push_back(scenario.held.size());
    scenario.held.push_back({asked.animal, l});
    second.push_back(scenario.held.size());
    scenario.held.push_back({partner, l});
  }
  auto made = odds::JointBeliefs::make(scenario, options);
  if (auto* none = std::get_if<odds::Contradiction>(&made)) return std::move(*none);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
  // Where no sex is known it matters to neither, and any order will do.
  const bool animal_is_dam = parts.animal.value_or(Sex::female) == Sex::female;
  auto cells = animal_is_dam ? chances.cells(beliefs, first, second, learned)
                             : chances.cells(beliefs, second, first, learned);
  if (auto* large = std::get_if<odds::TooLarge>(&cells)) return std::move(*large);
  std::vector<ProveOutCell> out;
  for (const PairCell& cell : std::get<std::vector<PairCell>>(cells)) {
    const std::size_t mine = animal_is_dam ? cell.dam : cell.sire;
    const std::size_t other = animal_is_dam ? cell.sire : cell.dam;
    out.push_back({cell.weight, cell.chance, has(locus, mine, asked.allele),
                   has(locus, other, asked.allele)});
  }
  if (out.empty()) return without_offspring(locus, beliefs.marginal(0), asked.allele);
  return out;
}

// A partner known by its genotype at this locus alone.
std::variant<std::vector<ProveOutCell>, odds::Contradiction, odds::TooLarge> cells_with_genotype(
    const colony::Colony& colony, const ProveOutAsked& asked, const Wanted& visual,
    const Parts& parts, const odds::Options& options,
    std::span<const odds::Tables* const> learned) {
  const genetics::Locus& locus = colony.model().loci()[asked.locus];
  const auto partner = std::get<PartnerGenotype>(asked.partner).genotype;
  odds::Scenario scenario = odds::scenario(colony, options.as_of);
  scenario.sexes[asked.animal] = parts.animal;
  scenario.held.push_back({asked.animal, asked.locus});
  auto made = odds::JointBeliefs::make(scenario, options);
  if (auto* none = std::get_if<odds::Contradiction>(&made)) return std::move(*none);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
  std::vector<double> mean(locus.size(), 0.0);
  const std::size_t runs = std::max<std::size_t>(learned.size(), 1);
  for (std::size_t t = 0; t < runs; ++t) {
    if (!learned.empty()) beliefs.take(*learned[t]);
    const auto odds = beliefs.marginal(0);
    for (std::size_t g = 0; g < mean.size(); ++g) mean[g] += odds[g] / static_cast<double>(runs);
  }
  const LocusOffspring offspring(locus);
  std::vector<ProveOutCell> out;
  for (std::size_t g = 0; g < mean.size(); ++g) {
    const bool animal_is_dam = parts.animal.value_or(Sex::female) == Sex::female;
    const std::size_t dam = animal_is_dam ? g : partner;
    const std::size_t sire = animal_is_dam ? partner : g;
    double alive = 0, shown = 0;
    for (const Sex sex : both_sexes) {
      alive += offspring.alive(dam, sire, sex);
      for (std::size_t y = 0; y < locus.size(); ++y) {
        shown += offspring.weight(dam, sire, sex, y) * visual.of_genotype[y];
      }
    }
    if (!(alive > 0) || !(mean[g] > 0)) continue;
    out.push_back({mean[g], std::min(shown / alive, 1.0), has(locus, g, asked.allele),
                   has(locus, partner, asked.allele)});
  }
  if (out.empty()) return without_offspring(locus, mean, asked.allele);
  return out;
}

bool certainly_of(const colony::Clutch& clutch, std::size_t one, std::size_t other) {
  if (!clutch.dam || clutch.sires.size() != 1) return false;
  const std::size_t sire = clutch.sires.front().animal;
  return (*clutch.dam == one && sire == other) || (*clutch.dam == other && sire == one);
}

OffspringSeen seen_of(const colony::Colony& colony, const ProveOutAsked& asked,
                      const std::vector<std::size_t>& visuals, const odds::Options& options) {
  OffspringSeen out;
  const auto visual = [&](std::size_t appearance) {
    return std::find(visuals.begin(), visuals.end(), appearance) != visuals.end();
  };
  std::map<std::size_t, bool> offspring;  // whether any look at it was visual
  for (const colony::Observation* seen : odds::scenario(colony, options.as_of).observations) {
    if (const auto* look = std::get_if<colony::AppearanceSeen>(&seen->what)) {
      const auto clutch = colony.animals()[look->animal].clutch;
      if (!with_animal(asked) || look->locus != asked.locus || !clutch) continue;
      const std::size_t partner = std::get<PartnerAnimal>(asked.partner).animal;
      if (!certainly_of(colony.clutches()[*clutch], asked.animal, partner)) continue;
      offspring[look->animal] = offspring[look->animal] || visual(look->appearance);
    } else if (const auto* brood = std::get_if<colony::Brood>(&seen->what)) {
      if (with_animal(asked) || brood->animal != asked.animal) continue;
      if (brood->locus != asked.locus ||
          brood->partner != std::get<PartnerGenotype>(asked.partner).genotype)
        continue;
      for (const auto& [appearance, count] : brood->offspring) {
        (visual(appearance) ? out.visual : out.non_visual) += count;
      }
    }
  }
  for (const auto& [animal, shown] : offspring) ++(shown ? out.visual : out.non_visual);
  return out;
}

}  // namespace

std::vector<std::string> partner_genotypes(const colony::Colony& colony, std::size_t animal,
                                           std::size_t locus) {
  const auto& sex = colony.animals()[animal].sex;
  const genetics::Locus& of = colony.model().loci()[locus];
  std::vector<std::string> out;
  for (std::size_t g = 0; g < of.size(); ++g) {
    if (!sex || of.possible(g, genetics::other_sex(*sex))) out.push_back(of.key(g));
  }
  return out;
}

std::optional<colony::Fault> prove_out_fault(const colony::Colony& colony,
                                             const ProveOutAsked& asked) {
  const auto& animal = colony.animals()[asked.animal];
  const genetics::Locus& locus = colony.model().loci()[asked.locus];
  std::optional<Sex> partner_sex;
  std::string name;
  if (with_animal(asked)) {
    const auto& partner = colony.animals()[std::get<PartnerAnimal>(asked.partner).animal];
    if (std::get<PartnerAnimal>(asked.partner).animal == asked.animal) {
      return colony::Fault{"--partner", fmt::format("{} cannot be paired with itself", animal.id),
                           "name another animal, or a genotype such as " +
                               partner_genotypes(colony, asked.animal, asked.locus).back()};
    }
    partner_sex = partner.sex;
    name = partner.id;
  } else {
    partner_sex = locus.genotypes()[std::get<PartnerGenotype>(asked.partner).genotype].sex;
    name = "a partner of " + locus.key(std::get<PartnerGenotype>(asked.partner).genotype);
  }
  const auto word = [](Sex sex) { return sex == Sex::female ? "female" : "male"; };
  if (animal.sex && partner_sex == animal.sex) {
    std::string mend = fmt::format("name a {}", word(genetics::other_sex(*animal.sex)));
    if (locus.sex_linked()) {
      mend += fmt::format(", or one of {}",
                          fmt::join(partner_genotypes(colony, asked.animal, asked.locus), ", "));
    }
    return colony::Fault{"--partner",
                         fmt::format("{} and {} are both {}", animal.id, name, word(*animal.sex)),
                         mend};
  }
  if (locus.sex_linked() && !animal.sex && !partner_sex) {
    return colony::Fault{
        "animal " + animal.id,
        fmt::format("{} is on a sex chromosome, and neither sex is recorded", locus.id()),
        "record the sex of one of the two"};
  }
  return std::nullopt;
}

std::variant<ProveOut, odds::Contradiction, odds::TooLarge> proof(
    const colony::Colony& colony, const ProveOutAsked& asked, const odds::Options& options,
    std::span<const odds::Tables* const> learned) {
  const genetics::Locus& locus = colony.model().loci()[asked.locus];
  const auto visuals = visuals_of(locus, asked.allele);
  const Wanted wanted = any_of(locus, asked.locus, visuals);
  const Parts parts = parts_of(colony, asked);
  auto cells = with_animal(asked)
                   ? cells_with_animal(colony, asked, wanted, parts, options, learned)
                   : cells_with_genotype(colony, asked, wanted, parts, options, learned);
  if (auto* none = std::get_if<odds::Contradiction>(&cells)) return std::move(*none);
  if (auto* large = std::get_if<odds::TooLarge>(&cells)) return std::move(*large);
  auto& found = std::get<std::vector<ProveOutCell>>(cells);
  return ProveOut{ProveOutOdds(std::move(found)),
                  visuals,
                  visuals.front() != usual_appearance(locus),
                  seen_of(colony, asked, visuals, options),
                  asked.per_clutch ? asked.per_clutch : mean_offspring(colony),
                  learned.size()};
}

}  // namespace likelihet::planning
