// Groups of loci whose genotypes go together, mixed over the parents' joint states.
#include <algorithm>
#include <map>
#include <numeric>

#include <fmt/format.h>

#include <likelihet/colony/fault.hpp>
#include <likelihet/planning/kinship.hpp>
#include <likelihet/planning/offspring_of_cell.hpp>
#include <likelihet/planning/outlook.hpp>

namespace likelihet::planning {

namespace {

// Positions among the held genotypes: dam and sire, locus by locus.
std::size_t dam_at(std::size_t locus) {
  return 2 * locus;
}
std::size_t sire_at(std::size_t locus) {
  return 2 * locus + 1;
}

// Loci that are looked at together: joined by evidence on either parent, or by the offspring's sex.
std::vector<std::vector<std::size_t>> groups_of(const odds::JointBeliefs& beliefs,
                                                const std::vector<genetics::Locus>& loci) {
  std::vector<std::size_t> group(loci.size());
  std::iota(group.begin(), group.end(), std::size_t{0});
  const auto join = [&](std::size_t one, std::size_t other) {
    const std::size_t from = group[one], to = group[other];
    std::replace(group.begin(), group.end(), from, to);
  };
  for (std::size_t l = 0; l < loci.size(); ++l) {
    for (std::size_t m = 0; m < l; ++m) {
      bool tied = loci[l].sex_linked() && loci[m].sex_linked();
      for (std::size_t a : {dam_at(l), sire_at(l)}) {
        for (std::size_t b : {dam_at(m), sire_at(m)}) {
          tied = tied || beliefs.part(a) == beliefs.part(b);
        }
      }
      if (tied) join(l, m);
    }
  }
  std::vector<std::vector<std::size_t>> out;
  for (std::size_t g = 0; g < loci.size(); ++g) {
    std::vector<std::size_t> members;
    for (std::size_t l = 0; l < loci.size(); ++l) {
      if (group[l] == g) members.push_back(l);
    }
    if (!members.empty()) out.push_back(members);
  }
  return out;
}

// Every choice of one appearance a locus, the last fastest.
std::vector<std::vector<std::size_t>> combinations(const std::vector<genetics::Locus>& loci,
                                                   const std::vector<std::size_t>& of) {
  std::vector<std::vector<std::size_t>> out{{}};
  for (std::size_t l : of) {
    std::vector<std::vector<std::size_t>> longer;
    for (const auto& start : out) {
      for (std::size_t a = 0; a < loci[l].appearances().size(); ++a) {
        longer.push_back(start);
        longer.back().push_back(a);
      }
    }
    out = std::move(longer);
  }
  return out;
}

// One set of tables after the other is added up; normalised at the end.
class Adding {
 public:
  Adding(const std::vector<genetics::Locus>& loci, Outlook& out) : loci_(loci), out_(out) {
    double combinations = 1;
    for (const genetics::Locus& locus : loci) {
      offspring_.emplace_back(locus);
      combinations *= static_cast<double>(locus.appearances().size());
      LocusOutlook& at = out.loci.emplace_back();
      at.parents.assign(locus.size() * locus.size(), 0.0);
      at.laid.assign(locus.size(), 0.0);
      at.genotypes.resize(locus.size());
      at.appearances.resize(locus.appearances().size());
      for (auto& of_sex : at.by_sex) of_sex.assign(locus.appearances().size(), 0.0);
    }
    out.combined_left_out = combinations > static_cast<double>(most_combined);
  }

  std::optional<odds::TooLarge> add(odds::JointBeliefs& beliefs, double share) {
    const auto groups = groups_of(beliefs, loci_);
    std::vector<odds::JointTable> joints;
    std::vector<double> alive;  // by group: P(some offspring can live)
    double none = 0;
    for (const auto& group : groups) {
      std::vector<std::size_t> held;
      for (std::size_t l : group) held.insert(held.end(), {dam_at(l), sire_at(l)});
      auto made = beliefs.joint(held);
      if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
      joints.push_back(std::get<odds::JointTable>(std::move(made)));
      // Added up by itself: exactly 0 where every pair of genotypes has living offspring.
      double barren = 0;
      for (std::size_t c = 0; c < joints.back().cells(); ++c) {
        if (!(OffspringOfCell(offspring_, group, joints.back().cell(c)).lives() > 0)) {
          barren += joints.back().probability[c];
        }
      }
      alive.push_back(1 - barren);
      none += (1 - none) * barren;
    }
    out_.none_can_live += share * none;
    double all_alive = share;
    for (double p : alive) all_alive *= p;
    can_live_ += all_alive;
    for (std::size_t g = 0; g < groups.size(); ++g) {
      const double others = alive[g] > 0 ? all_alive / alive[g] : 0.0;
      add_group(groups[g], joints[g], share, others);
    }
    if (!out_.combined_left_out && all_alive > 0) add_combined(groups, joints, share);
    return std::nullopt;
  }

  void finish() {
    out_.none_can_live = std::min(out_.none_can_live, 1.0);
    for (LocusOutlook& at : out_.loci) {
      at.lost = std::min(at.lost, 1.0);
      for (auto& mixture : at.genotypes) mixture.normalise();
      for (auto& mixture : at.appearances) mixture.normalise();
      for (auto& of_sex : at.by_sex) {
        for (double& p : of_sex) p = can_live_ > 0 ? p / can_live_ : 0.0;
      }
    }
    for (auto& [appearances, chance] : combined_) {
      // Under some tables it may have had no chance at all.
      chance.add(0.0, std::max(can_live_ - chance.total(), 0.0));
      chance.normalise();
      if (chance.chance() > 0) out_.combined.push_back({appearances, std::move(chance)});
    }
    std::stable_sort(
        out_.combined.begin(), out_.combined.end(),
        [](const Combined& a, const Combined& b) { return a.chance.chance() > b.chance.chance(); });
  }

 private:
  // `share` weighs the parents, `others` those whose offspring can live at the other groups' loci
  // too.
  void add_group(const std::vector<std::size_t>& group, const odds::JointTable& joint, double share,
                 double others) {
    for (std::size_t c = 0; c < joint.cells(); ++c) {
      const OffspringOfCell cell(offspring_, group, joint.cell(c));
      for (std::size_t k = 0; k < group.size(); ++k) {
        const LocusOffspring& of = offspring_[group[k]];
        LocusOutlook& at = out_.loci[group[k]];
        const double weight = share * joint.probability[c];
        at.parents[cell.dam(k) * of.locus().size() + cell.sire(k)] += weight;
        at.lost += weight * of.lost(cell.dam(k), cell.sire(k));
        for (std::size_t g = 0; g < of.locus().size(); ++g) {
          at.laid[g] += weight * of.laid(cell.dam(k), cell.sire(k), g);
        }
        if (cell.lives() > 0) add_locus(cell, k, at, others * joint.probability[c]);
      }
    }
  }

  static void add_locus(const OffspringOfCell& cell, std::size_t k, LocusOutlook& at,
                        double weight) {
    for (std::size_t g = 0; g < at.genotypes.size(); ++g) {
      at.genotypes[g].add(std::min(cell.genotype(k, 0, g) + cell.genotype(k, 1, g), 1.0), weight);
    }
    for (std::size_t a = 0; a < at.appearances.size(); ++a) {
      const double female = cell.appearance(k, 0, a);
      const double male = cell.appearance(k, 1, a);
      at.appearances[a].add(std::min(female + male, 1.0), weight);
      at.by_sex[0][a] += weight * female;
      at.by_sex[1][a] += weight * male;
    }
  }

  // Groups are independent given the tables, so their mixtures multiply; within a group the
  // appearances go together through the parents' genotypes and the offspring's sex.
  void add_combined(const std::vector<std::vector<std::size_t>>& groups,
                    const std::vector<odds::JointTable>& joints, double share) {
    std::vector<Combined> all(1);
    all.front().appearances.assign(loci_.size(), 0);
    all.front().chance.add(1.0, share);
    for (std::size_t g = 0; g < groups.size(); ++g) {
      const auto choices = combinations(loci_, groups[g]);
      std::vector<ChanceMixture> of_choice(choices.size());
      for (std::size_t c = 0; c < joints[g].cells(); ++c) {
        const OffspringOfCell cell(offspring_, groups[g], joints[g].cell(c));
        if (!(cell.lives() > 0)) continue;
        for (std::size_t k = 0; k < choices.size(); ++k) {
          of_choice[k].add(cell.together(choices[k]), joints[g].probability[c]);
        }
      }
      std::vector<Combined> longer;
      for (const Combined& start : all) {
        for (std::size_t k = 0; k < choices.size(); ++k) {
          if (!(of_choice[k].chance() > 0)) continue;
          Combined next{start.appearances, both(start.chance, of_choice[k])};
          for (std::size_t i = 0; i < groups[g].size(); ++i) {
            next.appearances[groups[g][i]] = choices[k][i];
          }
          longer.push_back(std::move(next));
        }
      }
      all = std::move(longer);
    }
    for (const Combined& one : all) combined_[one.appearances].add(one.chance, 1.0);
  }

  const std::vector<genetics::Locus>& loci_;
  Outlook& out_;
  std::vector<LocusOffspring> offspring_;
  double can_live_ = 0;
  std::map<std::vector<std::size_t>, ChanceMixture> combined_;
};

}  // namespace

std::size_t usual_appearance(const genetics::Locus& locus) {
  return genetics::likeliest_appearance(locus, 0);
}

std::optional<colony::Fault> pairing_fault(const colony::Colony& colony, Pair pair) {
  const auto& dam = colony.animals()[pair.dam];
  const auto& sire = colony.animals()[pair.sire];
  if (pair.dam == pair.sire) {
    return colony::Fault{"animal " + dam.id, "it cannot be paired with itself",
                         "name two animals: the dam first, then the sire"};
  }
  if (dam.sex == genetics::Sex::male) {
    return colony::Fault{"animal " + dam.id, "it is recorded as male, so it cannot be the dam",
                         sire.sex == genetics::Sex::male
                             ? "name a female first"
                             : fmt::format("name the dam first: {} {}", sire.id, dam.id)};
  }
  if (sire.sex == genetics::Sex::female) {
    return colony::Fault{"animal " + sire.id, "it is recorded as female, so it cannot be the sire",
                         dam.sex == genetics::Sex::female
                             ? "name a male second"
                             : fmt::format("name the dam first: {} {}", sire.id, dam.id)};
  }
  return std::nullopt;
}

std::variant<Outlook, odds::Contradiction, odds::TooLarge> outlook(
    const colony::Colony& colony, Pair pair, const odds::Options& options,
    std::span<const odds::Tables* const> learned) {
  const auto& loci = colony.model().loci();
  odds::Scenario scenario = odds::scenario(colony, options.as_of);
  scenario.sexes[pair.dam] = genetics::Sex::female;
  scenario.sexes[pair.sire] = genetics::Sex::male;
  for (std::size_t l = 0; l < loci.size(); ++l) {
    scenario.held.push_back({pair.dam, l});
    scenario.held.push_back({pair.sire, l});
  }
  auto made = odds::JointBeliefs::make(scenario, options);
  if (auto* none = std::get_if<odds::Contradiction>(&made)) return std::move(*none);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);

  Outlook out;
  out.tables = learned.size();
  out.inbreeding = inbreeding_of_offspring(colony, pair.dam, pair.sire);
  Adding adding(loci, out);
  const std::size_t runs = std::max<std::size_t>(learned.size(), 1);
  for (std::size_t t = 0; t < runs; ++t) {
    if (!learned.empty()) beliefs.take(*learned[t]);
    if (auto large = adding.add(beliefs, 1.0 / static_cast<double>(runs))) {
      return std::move(*large);
    }
  }
  adding.finish();
  return out;
}

}  // namespace likelihet::planning
