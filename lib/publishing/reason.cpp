// Reasons, put together from what was recorded of an animal and of those next to it.
#include "reason.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "rounding.hpp"
#include <fmt/format.h>

namespace likelihet::publishing {

/// Collects the parts of one reason, in the order in which a keeper would tell them.
class ReasonMaker {
 public:
  ReasonMaker(const Standings& standings, std::size_t animal)
      : standings_(standings),
        kin_(standings.kin_),
        colony_(standings.kin_.colony()),
        animal_(animal),
        chances_(standings.markerless(animal)) {}

  Reason made() {
    origin();
    own_look();
    offspring();
    sibs();
    results();
    Reason out;
    for (const std::string& part : parts_) out.text += (out.text.empty() ? "" : ", ") + part;
    std::sort(rests_on_.begin(), rests_on_.end());
    rests_on_.erase(std::unique(rests_on_.begin(), rests_on_.end()), rests_on_.end());
    out.rests_on = std::move(rests_on_);
    return out;
  }

 private:
  void say(std::string part, const std::vector<std::size_t>& observations = {}) {
    parts_.push_back(std::move(part));
    rests_on_.insert(rests_on_.end(), observations.begin(), observations.end());
  }
  [[nodiscard]] const std::string& id(std::size_t animal) const {
    return colony_.animals()[animal].id;
  }
  [[nodiscard]] bool settled() const { return chances_.settled(); }

  void origin() {
    const auto clutch = colony_.animals()[animal_].clutch;
    if (!clutch) return founder();
    const colony::Clutch& of = colony_.clutches()[*clutch];
    const bool one_sire = of.sires.size() == 1;
    if (of.dam && one_sire) {
      const std::string dam = standings_.status(*of.dam);
      const std::string sire = standings_.status(of.sires[0].animal);
      proof_of(*of.dam);
      proof_of(of.sires[0].animal);
      if (dam == sire) return say("both parents " + standings_.status_of_both(*of.dam));
      say("dam " + id(*of.dam) + " " + dam);
      return say("sire " + id(of.sires[0].animal) + " " + sire);
    }
    if (of.dam) {
      proof_of(*of.dam);
      say("dam " + id(*of.dam) + " " + standings_.status(*of.dam));
    } else {
      say("dam not recorded");
    }
    if (of.sires.empty()) return say("sire not recorded");
    for (const colony::Sire& sire : of.sires) proof_of(sire.animal);
    if (one_sire) {
      return say("sire " + id(of.sires[0].animal) + " " + standings_.status(of.sires[0].animal));
    }
    say(uncertain_sires(of));
  }

  std::string uncertain_sires(const colony::Clutch& clutch) const {
    std::vector<std::string> names;
    for (const colony::Sire& sire : clutch.sires) {
      names.push_back(fmt::format("{} {}", id(sire.animal), standings_.status(sire.animal)));
    }
    std::sort(names.begin(), names.end());
    return fmt::format("sire uncertain: {}", fmt::join(names, " or "));
  }

  // Looks that a parent's status rests on.
  void proof_of(std::size_t parent) {
    const auto& why = standings_.visual(parent)   ? standings_.signs(parent)
                      : standings_.proven(parent) ? standings_.proofs(parent)
                                                  : std::vector<std::size_t>{};
    rests_on_.insert(rests_on_.end(), why.begin(), why.end());
  }

  void founder() {
    const colony::Animal& animal = colony_.animals()[animal_];
    for (const colony::BoughtAs& sold : animal.bought_as) {
      if (sold.locus != standings_.locus_) continue;
      return say(claim(sold));
    }
    if (!animal.origin) return say("a founder of no recorded origin, assumed not to carry it");
    say(fmt::format("a founder of origin {}, without a seller's description",
                    colony_.model().origins()[*animal.origin].id));
  }

  // Of the sex that can't be het.
  [[nodiscard]] static std::string claim_of_one_chromosome(const genetics::CopyChances& chances) {
    if (chances.certainly_one()) return "carrying it";
    if (chances.certainly_none()) return "not carrying it";
    return in_percent(whole_percent(chances.one)) + " to carry it";
  }

  [[nodiscard]] std::string claim(const colony::BoughtAs& sold) const {
    const genetics::CopyChances chances =
        genetics::copy_chances(standings_.locus(), sold.odds, standings_.allele_);
    const bool one_chromosome = genetics::has_one_chromosome(standings_.locus(), kin_.sex(animal_));
    const std::string as = one_chromosome            ? claim_of_one_chromosome(chances)
                           : chances.certainly_one() ? "het"
                           : chances.certainly_two() ? "visual, or of two copies"
                           : chances.certainly_none()
                               ? "not a carrier"
                               : in_percent(whole_percent(chances.one)) + " possible het";
    const std::string trust =
        sold.trust < 1 ? fmt::format("trusted to {}", in_percent(whole_percent(sold.trust)))
                       : std::string("taken at its word");
    return fmt::format("seller's description: {} ({})", as, trust);
  }

  void own_look() {
    const auto looks = kin_.looks(animal_, standings_.locus_);
    if (looks.empty()) return;
    std::vector<std::string> words;
    for (const std::size_t look : looks) {
      const std::string& shown = standings_.locus().appearances()[kin_.appearance(look)];
      if (std::find(words.begin(), words.end(), shown) == words.end()) words.push_back(shown);
    }
    say(fmt::format("shows {}", fmt::join(words, " and ")), looks);
  }

  // Offspring told by what they show: how many are visual, how many look otherwise.
  struct Told {
    std::size_t visual = 0;
    std::size_t other = 0;
    bool barren = false;  // the partner has no copy: no offspring of theirs is visual
    std::vector<std::size_t> looks;
    void add(const Standings& standings, const Kin& kin, std::size_t animal, std::size_t locus) {
      const auto of = kin.looks(animal, locus);
      if (of.empty()) return;
      ++(standings.signs(animal).empty() ? other : visual);
      looks.insert(looks.end(), of.begin(), of.end());
    }
  };

  void offspring() {
    // Where a parent or its own look settles it, offspring told nothing.
    std::map<std::string, Told> by_partner;
    Told in_part;
    for (const colony::Offspring& one : kin_.offspring(animal_)) {
      if (!one.surely) {
        in_part.add(standings_, kin_, one.animal, standings_.locus_);
        continue;
      }
      const std::string partner =
          one.partner ? standings_.status(*one.partner) : std::string("of unknown genotype");
      Told& told = by_partner[partner];
      told.barren = one.partner && standings_.markerless(*one.partner).certainly_none();
      told.add(standings_, kin_, one.animal, standings_.locus_);
    }
    for (const std::size_t o : kin_.broods(animal_, standings_.locus_)) {
      const auto& brood = std::get<colony::Brood>(colony_.observations()[o].what);
      Told& told = by_partner["of genotype " + standings_.locus().key(brood.partner)];
      for (const auto& [appearance, count] : brood.offspring) {
        (standings_.proves_two_[appearance] ? told.visual : told.other) +=
            static_cast<std::size_t>(count);
      }
      told.looks.push_back(o);
    }
    for (const auto& [partner, told] : by_partner) say_offspring(partner, told);
    if (in_part.visual + in_part.other > 0 && !settled()) {
      say("offspring that may be its own are counted in part", in_part.looks);
    }
  }

  void say_offspring(const std::string& partner, const Told& told) {
    if (told.visual + told.other == 0 || chances_.certainly_two()) return;
    if (told.visual > 0 && chances_.certainly_some()) {
      return say(
          fmt::format("{} visual offspring by a partner ({}) prove a copy", told.visual, partner),
          told.looks);
    }
    // Where offspring of that partner could tell nothing, or its own look tells all, they are left
    // out.
    if (told.visual == 0 && (told.barren || settled() || standings_.looks_.seen_in_one_copy)) {
      return;
    }
    const std::string what = told.visual > 0 ? fmt::format("{} visual offspring", told.visual)
                                             : fmt::format("{} non-visual offspring", told.other);
    say(fmt::format("{} by a partner ({}) {}", what, partner, direction(told)), told.looks);
  }

  // What these looks do to the chance that is said, by the odds without them.
  [[nodiscard]] std::string direction(const Told& told) const {
    const auto without = standings_.markerless_without(animal_, told.looks);
    const bool one = told.visual + told.other == 1;
    const double moved = without ? chances_.one - without->one : 0.0;
    if (moved > rounding_error) return one ? "raises it" : "raise it";
    if (moved < -rounding_error) return one ? "lowers it" : "lower it";
    return one ? "is counted in" : "are counted in";
  }

  // What siblings and half-siblings taught of parents who are not certain.
  void sibs() {
    std::map<std::size_t, bool> met;
    Told told;
    for (const std::size_t parent : parents()) {
      if (standings_.markerless(parent).settled()) continue;
      for (const colony::Offspring& one : kin_.offspring(parent)) {
        if (one.animal == animal_ || !met.emplace(one.animal, true).second) continue;
        told.add(standings_, kin_, one.animal, standings_.locus_);
      }
    }
    if (told.visual + told.other == 0 || settled()) return;
    say(fmt::format("looks of {} siblings or half-siblings counted in, {} of them visual",
                    told.visual + told.other, told.visual),
        told.looks);
  }

  void results() {
    const std::size_t locus = standings_.locus_;
    for (const std::size_t o : kin_.results(animal_, locus)) {
      const auto& seen = colony_.observations()[o];
      const auto& result = std::get<colony::Result>(seen.what);
      const auto& assay = colony_.model().assays()[result.assay];
      say(fmt::format("{} came back {}{}", assay.id, assay.reports[result.report],
                      seen.on ? " on " + seen.on->text() : ""),
          {o});
    }
    const genetics::CopyChances before = standings_.pedigree(animal_);
    const bool moved = std::abs(before.one - chances_.one) > rounding_error;
    if (!moved) return;
    std::vector<std::size_t> of_relatives;
    for (const std::size_t relative : relatives()) {
      const auto more = kin_.results(relative, locus);
      of_relatives.insert(of_relatives.end(), more.begin(), more.end());
    }
    if (!of_relatives.empty()) {
      say(fmt::format("{} result{} of close relatives counted in", of_relatives.size(),
                      of_relatives.size() == 1 ? "" : "s"),
          of_relatives);
    } else if (kin_.results(animal_, locus).empty()) {
      say("results of further relatives counted in");
    }
  }

  // Offspring, and those whom a parent leads to that was open before any result.
  [[nodiscard]] std::vector<std::size_t> relatives() const {
    std::vector<std::size_t> out;
    const auto add_offspring = [&](std::size_t of) {
      for (const colony::Offspring& one : kin_.offspring(of)) out.push_back(one.animal);
    };
    add_offspring(animal_);
    for (const std::size_t parent : parents()) {
      if (standings_.pedigree(parent).settled()) continue;
      out.push_back(parent);
      add_offspring(parent);
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    out.erase(std::remove(out.begin(), out.end(), animal_), out.end());
    return out;
  }

  [[nodiscard]] std::vector<std::size_t> parents() const {
    return colony::possible_parents(colony_, animal_);
  }

  const Standings& standings_;
  const Kin& kin_;
  const colony::Colony& colony_;
  std::size_t animal_;
  genetics::CopyChances chances_;
  std::vector<std::string> parts_;
  std::vector<std::size_t> rests_on_;
};

Reason Standings::reason(std::size_t animal) const {
  return ReasonMaker(*this, animal).made();
}

}  // namespace likelihet::publishing
