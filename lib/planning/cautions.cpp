// What a breeder should know before pairing.
#include <fmt/format.h>

#include <likelihet/colony/trait_cautions.hpp>
#include <likelihet/odds/percent.hpp>
#include <likelihet/planning/cautions.hpp>
#include <likelihet/planning/kinship.hpp>

namespace likelihet::planning {

namespace {

// A genotype that never lives, where eggs of this pair may have it.
void add_lethal(const genetics::Locus& locus, const LocusOutlook& at, std::vector<Caution>& out) {
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.viability(g) > 0 || !(at.laid[g] > 0)) continue;
    out.push_back(
        {"lethal",
         fmt::format("{} of {} does not live, and {} of the eggs of this pair are expected "
                     "to have it. Do not make this pairing before a reptile veterinarian "
                     "has told you what that means for the animals.",
                     locus.key(g), locus.id(), odds::percent(at.laid[g]))});
  }
}

// Whether any offspring can carry an allele beside the first.
bool passes_on(const genetics::Locus& locus, const LocusOutlook& at) {
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const unsigned all = locus.genotypes()[g].second ? 2 : 1;
    if (locus.genotypes()[g].copies(0) < all && at.laid[g] > 0) return true;
  }
  return false;
}

void add_kin(double inbreeding, std::vector<Caution>& out) {
  if (inbreeding >= close_kin) {
    out.push_back(
        {"inbreeding",
         fmt::format("the offspring would be as inbred as those of half-siblings or closer kin "
                     "({:.3g}): weak offspring and hidden defects become more likely. Ask a "
                     "reptile veterinarian before pairing them.",
                     inbreeding)});
  } else if (inbreeding > 0) {
    out.push_back({"inbreeding",
                   fmt::format("the parents are related: the offspring would be inbred by {:.3g}.",
                               inbreeding)});
  }
}

void add_general(std::vector<Caution>& out) {
  out.push_back({"combination",
                 "traits that are harmless alone can harm together; the model knows only the "
                 "genotypes that it lists. Before pairing, ask a reptile veterinarian."});
  out.push_back({"claims",
                 "these are estimates from the records, not guarantees; do not sell an animal on "
                 "them as proven."});
  out.push_back({"law", "local law on keeping, breeding and selling comes first."});
}

}  // namespace

std::vector<Caution> cautions_of(const colony::Colony& colony, const Outlook& outlook) {
  std::vector<Caution> out;
  const auto& loci = colony.model().loci();
  if (outlook.none_can_live > 0) {
    out.push_back(
        {"none-can-live", fmt::format("with a chance of {} none of this pair's offspring can live.",
                                      odds::percent(outlook.none_can_live))});
  }
  std::vector<std::size_t> passed_on;
  for (std::size_t l = 0; l < loci.size(); ++l) {
    add_lethal(loci[l], outlook.loci[l], out);
    if (passes_on(loci[l], outlook.loci[l])) passed_on.push_back(l);
  }
  for (const auto& [traits, text] : colony::trait_cautions(colony.model(), passed_on)) {
    out.push_back({"locus", fmt::format("{}: {}", traits, text)});
  }
  add_kin(outlook.inbreeding, out);
  add_general(out);
  return out;
}

std::vector<Caution> cautions_of(const colony::Colony& colony, const ProveOutAsked& asked) {
  std::vector<Caution> out;
  const genetics::Locus& locus = colony.model().loci()[asked.locus];
  if (!locus.caution().empty()) {
    out.push_back({"locus", fmt::format("{}: {}", locus.id(), locus.caution())});
  }
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.viability(g) > 0 || locus.genotypes()[g].copies(asked.allele) == 0) continue;
    out.push_back(
        {"lethal", fmt::format("{} of {} does not live: a test mating may produce it. Ask "
                               "a reptile veterinarian first.",
                               locus.key(g), locus.id())});
  }
  if (const auto* partner = std::get_if<PartnerAnimal>(&asked.partner)) {
    add_kin(inbreeding_of_offspring(colony, asked.animal, partner->animal), out);
  }
  add_general(out);
  return out;
}

std::vector<Caution> cautions_of(const colony::Colony& colony, const Goal& goal) {
  std::vector<Caution> out;
  const genetics::Locus& locus = colony.model().loci()[goal.locus];
  if (!locus.caution().empty()) {
    out.push_back({"locus", fmt::format("{}: {}", locus.id(), locus.caution())});
  }
  add_general(out);
  return out;
}

}  // namespace likelihet::planning
