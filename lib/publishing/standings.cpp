// How an allele stands with each animal.
#include <algorithm>

#include "reason.hpp"
#include "rounding.hpp"
#include <fmt/format.h>

#include <likelihet/odds/evidence_result.hpp>

namespace likelihet::publishing {

namespace {

// Of a trait that one copy shows: "het" is not said of it.
std::string copies_in_words(const genetics::CopyChances& chances) {
  if (chances.certainly_one()) return "with one copy";
  if (chances.certainly_two()) return "with two copies";
  if (chances.certainly_some()) return "with one copy or two";
  return in_percent(whole_percent(chances.one)) + " with one copy";
}

}  // namespace

Standings::Standings(const GroundOdds& odds, const Kin& kin, std::size_t locus,
                     std::uint16_t allele)
    : odds_(odds),
      kin_(kin),
      locus_(locus),
      allele_(allele),
      looks_(genetics::looks_of(kin.colony().model().loci()[locus], allele)),
      proves_two_(genetics::proves_two(kin.colony().model().loci()[locus], allele)) {}

const genetics::Locus& Standings::locus() const {
  return kin_.colony().model().loci()[locus_];
}

genetics::CopyChances Standings::markerless(std::size_t animal) const {
  return genetics::copy_chances(locus(), odds_.markerless[animal][locus_], allele_);
}

genetics::CopyChances Standings::pedigree(std::size_t animal) const {
  return genetics::copy_chances(locus(), odds_.pedigree[animal][locus_], allele_);
}

std::optional<genetics::CopyChances> Standings::markerless_without(
    std::size_t animal, const std::vector<std::size_t>& observations) const {
  const auto odds = odds_.markerless_without(observations, animal, locus_);
  if (!odds) return std::nullopt;
  return genetics::copy_chances(locus(), *odds, allele_);
}

std::vector<std::size_t> Standings::signs(std::size_t animal) const {
  std::vector<std::size_t> out;
  for (const std::size_t look : kin_.looks(animal, locus_)) {
    if (proves_two_[kin_.appearance(look)]) out.push_back(look);
  }
  return out;
}

bool Standings::visual(std::size_t animal) const {
  if (signs(animal).empty()) return false;
  const genetics::CopyChances chances = markerless(animal);
  return genetics::has_one_chromosome(locus(), kin_.sex(animal)) ? chances.certainly_one()
                                                                 : chances.certainly_two();
}

std::vector<std::size_t> Standings::proofs(std::size_t animal) const {
  std::vector<std::size_t> out;
  const auto add = [&](const std::vector<std::size_t>& more) {
    out.insert(out.end(), more.begin(), more.end());
  };
  const auto& colony = kin_.colony();
  if (const auto clutch = colony.animals()[animal].clutch) {
    const colony::Clutch& of = colony.clutches()[*clutch];
    if (of.dam && visual(*of.dam)) add(signs(*of.dam));
    // One visual among several possible sires proves nothing; all of them do.
    const bool all_visual =
        !of.sires.empty() && std::all_of(of.sires.begin(), of.sires.end(),
                                         [&](const auto& sire) { return visual(sire.animal); });
    for (const colony::Sire& sire : of.sires) {
      if (all_visual) add(signs(sire.animal));
    }
  }
  for (const colony::Offspring& offspring : kin_.offspring(animal)) {
    if (offspring.surely && visual(offspring.animal)) add(signs(offspring.animal));
  }
  for (const std::size_t o : kin_.broods(animal, locus_)) {
    const auto& brood = std::get<colony::Brood>(colony.observations()[o].what);
    if (std::any_of(brood.offspring.begin(), brood.offspring.end(),
                    [&](const auto& seen) { return proves_two_[seen.first]; })) {
      out.push_back(o);
    }
  }
  return out;
}

bool Standings::proven(std::size_t animal) const {
  return markerless(animal).certainly_one() && !proofs(animal).empty();
}

bool Standings::tested_clear(std::size_t animal) const {
  bool clear = false;
  for (const std::size_t o : kin_.results(animal, locus_)) {
    const auto& result = std::get<colony::Result>(kin_.colony().observations()[o].what);
    const auto likelihood =
        odds::result_likelihood(kin_.colony().model().assays()[result.assay], result.report);
    double without = 0, with = 0;
    for (std::size_t g = 0; g < locus().size(); ++g) {
      double& best = locus().genotypes()[g].copies(allele_) == 0 ? without : with;
      best = std::max(best, likelihood[g]);
    }
    if (with > without) return false;
    clear = clear || without > with;
  }
  return clear;
}

std::string Standings::none_in_words(std::size_t animal) const {
  if (tested_clear(animal)) return "tested clear";
  for (const std::size_t look : kin_.looks(animal, locus_)) {
    const std::size_t shown = kin_.appearance(look);
    bool excluded = true;
    for (std::size_t g = 0; g < locus().size(); ++g) {
      const bool some = locus().genotypes()[g].copies(allele_) > 0;
      if (some && locus().shows(g, shown) > 0) excluded = false;
    }
    if (excluded) return fmt::format("not a carrier (shows {})", locus().appearances()[shown]);
  }
  const colony::Animal& of = kin_.colony().animals()[animal];
  if (of.clutch) return "not a carrier (neither parent is taken to carry it)";
  const bool sold = std::any_of(of.bought_as.begin(), of.bought_as.end(),
                                [&](const auto& claim) { return claim.locus == locus_; });
  return sold ? "not a carrier by the seller's description" : "assumed not a carrier (untested)";
}

std::string Standings::status_of_both(std::size_t animal) const {
  std::string out = status(animal);
  const std::string one = "not a carrier";
  const auto at = out.find(one);
  return at == std::string::npos ? out : out.replace(at, one.size(), "not carriers");
}

std::string Standings::status(std::size_t animal) const {
  const genetics::CopyChances chances = markerless(animal);
  if (visual(animal)) return "visual";
  if (chances.certainly_none()) return none_in_words(animal);
  if (looks_.seen_in_one_copy) return copies_in_words(chances);
  if (chances.certainly_two()) return "of two copies";
  if (chances.certainly_one()) {
    if (genetics::has_one_chromosome(locus(), kin_.sex(animal))) return "carries it";
    if (proven(animal)) return "proven het";
    const auto& sold = kin_.colony().animals()[animal].bought_as;
    const bool claimed = std::any_of(sold.begin(), sold.end(),
                                     [&](const auto& claim) { return claim.locus == locus_; });
    return claimed ? "het by the seller's description" : "100 % het";
  }
  std::string out = in_percent(whole_percent(chances.one)) + " het";
  if (chances.two > rounding_error) {
    out += fmt::format(" and {} with two copies", in_percent(whole_percent(chances.two)));
  }
  return out;
}

}  // namespace likelihet::publishing
