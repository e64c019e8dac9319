// Depth-first over the animals with offspring; everything else is summed at the end of each branch.
#include "properties/enumeration.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "properties/evidence_by_definition.hpp"
#include "properties/joint_state.hpp"

#include <likelihet/colony/counting.hpp>

namespace likelihet::properties {

namespace {

using colony::Clutch;
using colony::Colony;
using genetics::Sex;

// Animals by position, then the anonymous parents.
using Person = std::size_t;

struct Parents {
  Person dam;
  std::vector<std::pair<Person, double>> sires;  // with their shares
  bool drawn_once = false;                       // one of several for the whole clutch
};

// A branching of the search: the state of a person, or which sire a clutch has.
struct Step {
  bool sire_choice = false;
  std::size_t which = 0;
};

struct Family {
  std::vector<Parents> clutches;
  std::vector<std::optional<std::size_t>> clutch_of;  // of each person; none for founders
  std::vector<std::vector<double>> founder;           // prior over states; empty for hatchlings
  std::vector<bool> has_offspring;
  std::vector<Step> steps;
};

std::vector<double> founder_prior(const Colony& colony, const std::vector<JointState>& states,
                                  const std::optional<std::size_t>& origin,
                                  const std::vector<colony::BoughtAs>& claims,
                                  const std::optional<Sex>& only) {
  const colony::Model& model = colony.model();
  std::vector<double> prior(states.size(), 0.0);
  std::map<Sex, std::vector<std::vector<double>>> by_locus;
  for (Sex sex : {Sex::female, Sex::male}) {
    for (std::size_t l = 0; l < model.loci().size(); ++l) {
      std::vector<double> frequencies(model.loci()[l].alleles().size(), 0.0);
      frequencies[0] = 1;
      if (origin) frequencies = model.origins()[*origin].frequencies[l];
      const colony::BoughtAs* claim = nullptr;
      for (const auto& c : claims) {
        if (c.locus == l) claim = &c;
      }
      by_locus[sex].push_back(founder_locus(model.loci()[l], sex, frequencies, claim));
    }
  }
  for (std::size_t s = 0; s < states.size(); ++s) {
    if (only && *only != states[s].sex) continue;
    prior[s] = only ? 1.0 : 0.5;
    for (std::size_t l = 0; l < model.loci().size(); ++l) {
      prior[s] *= by_locus[states[s].sex][l][states[s].genotypes[l]];
    }
  }
  return prior;
}

void visit(Family& family, Person person, std::vector<bool>& seen, std::vector<bool>& chosen) {
  if (seen[person]) return;
  seen[person] = true;
  if (family.clutch_of[person]) {
    const std::size_t c = *family.clutch_of[person];
    visit(family, family.clutches[c].dam, seen, chosen);
    for (const auto& sire : family.clutches[c].sires) visit(family, sire.first, seen, chosen);
    if (family.clutches[c].drawn_once && !chosen[c]) family.steps.push_back({true, c});
    chosen[c] = true;
  }
  if (family.has_offspring[person]) family.steps.push_back({false, person});
}

Family family_of(const Colony& colony, const std::vector<JointState>& states) {
  Family family;
  for (const colony::Animal& animal : colony.animals()) {
    family.clutch_of.push_back(animal.clutch);
    family.founder.push_back(
        animal.clutch ? std::vector<double>{}
                      : founder_prior(colony, states, animal.origin, animal.bought_as, {}));
  }
  const auto anonymous = [&](const std::optional<std::size_t>& origin, Sex sex) {
    family.clutch_of.emplace_back();
    family.founder.push_back(founder_prior(colony, states, origin, {}, sex));
    return family.founder.size() - 1;
  };
  for (const Clutch& clutch : colony.clutches()) {
    Parents parents;
    parents.dam = clutch.dam ? *clutch.dam : anonymous(clutch.dam_origin, Sex::female);
    for (const colony::Sire& sire : clutch.sires)
      parents.sires.emplace_back(sire.animal, sire.share);
    if (clutch.sires.empty()) {
      parents.sires.emplace_back(anonymous(clutch.sire_origin, Sex::male), 1.0);
    }
    parents.drawn_once = parents.sires.size() > 1 && clutch.paternity == colony::Paternity::single;
    family.clutches.push_back(parents);
  }
  family.has_offspring.assign(family.founder.size(), false);
  for (std::size_t c = 0; c < colony.clutches().size(); ++c) {
    if (colony.clutches()[c].hatchlings.empty()) continue;
    family.has_offspring[family.clutches[c].dam] = true;
    for (const auto& sire : family.clutches[c].sires) family.has_offspring[sire.first] = true;
  }
  std::vector<bool> seen(family.founder.size(), false);
  std::vector<bool> chosen(family.clutches.size(), false);
  for (Person p = 0; p < family.founder.size(); ++p) visit(family, p, seen, chosen);
  return family;
}

class Search {
 public:
  Search(const Colony& colony, const std::vector<JointState>& states, const Family& family,
         std::vector<std::vector<double>> likelihood,
         std::optional<std::pair<Person, Person>> pair = std::nullopt)
      : colony_(colony),
        states_(states),
        family_(family),
        likelihood_(std::move(likelihood)),
        assigned_(family.founder.size(), 0),
        sire_(family.clutches.size(), 0),
        sums_(colony.animals().size(), std::vector<double>(states.size(), 0.0)),
        pair_(pair),
        pair_sums_(pair ? states.size() * states.size() : 0, 0.0) {
    descend(0, 1.0);
  }

  [[nodiscard]] double total() const { return total_; }
  // P(state, evidence) of each animal.
  [[nodiscard]] const std::vector<std::vector<double>>& sums() const { return sums_; }
  // P(both states, evidence) of the pair, the first's slowest.
  [[nodiscard]] const std::vector<double>& pair_sums() const { return pair_sums_; }

 private:
  const std::vector<double>& offspring(std::size_t dam, std::size_t sire) {
    auto& cached = offspring_[{dam, sire}];
    if (cached.empty()) {
      cached = hatchling(colony_.model(), states_, states_[dam], states_[sire]);
    }
    return cached;
  }

  std::vector<double> prior(Person person) {
    if (!family_.clutch_of[person]) return family_.founder[person];
    const std::size_t c = *family_.clutch_of[person];
    const Parents& parents = family_.clutches[c];
    const std::size_t dam = assigned_[parents.dam];
    if (parents.drawn_once || parents.sires.size() == 1) {
      return offspring(dam, assigned_[parents.sires[sire_[c]].first]);
    }
    std::vector<double> mixed(states_.size(), 0.0);
    for (const auto& [sire, share] : parents.sires) {
      const auto& of_sire = offspring(dam, assigned_[sire]);
      for (std::size_t s = 0; s < states_.size(); ++s) mixed[s] += share * of_sire[s];
    }
    return mixed;
  }

  std::vector<double> weights(Person person) {
    std::vector<double> weight = prior(person);
    if (person < likelihood_.size()) {
      for (std::size_t s = 0; s < states_.size(); ++s) weight[s] *= likelihood_[person][s];
    }
    return weight;
  }

  void descend(std::size_t step, double probability) {
    if (step == family_.steps.size()) {
      finish(probability);
      return;
    }
    const Step& now = family_.steps[step];
    if (now.sire_choice) {
      const auto& sires = family_.clutches[now.which].sires;
      for (std::size_t k = 0; k < sires.size(); ++k) {
        sire_[now.which] = k;
        descend(step + 1, probability * sires[k].second);
      }
      return;
    }
    const std::vector<double> weight = weights(now.which);
    for (std::size_t s = 0; s < states_.size(); ++s) {
      if (weight[s] == 0) continue;
      assigned_[now.which] = s;
      descend(step + 1, probability * weight[s]);
    }
  }

  // The animals without offspring depend on their parents alone.
  void finish(double probability) {
    std::vector<std::pair<Person, std::vector<double>>> childless;
    double all = probability;
    for (Person p = 0; p < sums_.size(); ++p) {
      if (family_.has_offspring[p]) continue;
      std::vector<double> weight = weights(p);
      double sum = 0;
      for (double w : weight) sum += w;
      if (sum == 0) return;
      for (double& w : weight) w /= sum;
      all *= sum;
      childless.emplace_back(p, std::move(weight));
    }
    total_ += all;
    for (Person p = 0; p < sums_.size(); ++p) {
      if (family_.has_offspring[p]) sums_[p][assigned_[p]] += all;
    }
    for (const auto& [p, weight] : childless) {
      for (std::size_t s = 0; s < states_.size(); ++s) sums_[p][s] += all * weight[s];
    }
    if (pair_) add_pair(all, childless);
  }

  // Given all who have offspring, two animals without any are independent.
  void add_pair(double all, const std::vector<std::pair<Person, std::vector<double>>>& childless) {
    const auto of = [&](Person person) {
      for (const auto& [p, weight] : childless) {
        if (p == person) return weight;
      }
      std::vector<double> settled(states_.size(), 0.0);
      settled[assigned_[person]] = 1;
      return settled;
    };
    const auto first = of(pair_->first), second = of(pair_->second);
    for (std::size_t i = 0; i < first.size(); ++i) {
      for (std::size_t j = 0; j < second.size(); ++j) {
        pair_sums_[i * second.size() + j] += all * first[i] * second[j];
      }
    }
  }

  const Colony& colony_;
  const std::vector<JointState>& states_;
  const Family& family_;
  std::vector<std::vector<double>> likelihood_;
  std::vector<std::size_t> assigned_;
  std::vector<std::size_t> sire_;
  std::vector<std::vector<double>> sums_;
  std::optional<std::pair<Person, Person>> pair_;
  std::vector<double> pair_sums_;
  std::map<std::pair<std::size_t, std::size_t>, std::vector<double>> offspring_;
  double total_ = 0;
};

std::vector<double> at_locus(const Search& search, const std::vector<JointState>& states,
                             std::size_t animal, std::size_t locus, std::size_t size) {
  std::vector<double> out(size, 0.0);
  for (std::size_t s = 0; s < states.size(); ++s) {
    out[states[s].genotypes[locus]] += search.sums()[animal][s] / search.total();
  }
  return out;
}

}  // namespace

Enumerated enumerate(const Colony& colony, const std::optional<colony::Date>& as_of) {
  const std::vector<JointState> states = joint_states(colony.model());
  const Family family = family_of(colony, states);
  const std::vector<std::size_t> counting = colony::counting(colony, as_of);
  const auto search = [&](Layer layer) {
    return Search(colony, states, family, likelihoods(colony, counting, states, layer));
  };
  const Search sexes = search(Layer::sexes);
  const Search pedigree = search(Layer::pedigree);
  const Search scored = search(Layer::scored);
  const Search posterior = search(Layer::posterior);

  Enumerated out;
  out.contradiction = posterior.total() == 0;
  if (out.contradiction) return out;
  out.log_evidence = std::log(posterior.total()) - std::log(sexes.total());
  for (std::size_t a = 0; a < colony.animals().size(); ++a) {
    out.animals.emplace_back();
    for (std::size_t l = 0; l < colony.model().loci().size(); ++l) {
      const genetics::Locus& locus = colony.model().loci()[l];
      EnumeratedLocus odds;
      odds.pedigree = at_locus(pedigree, states, a, l, locus.size());
      odds.scored = at_locus(scored, states, a, l, locus.size());
      odds.posterior = at_locus(posterior, states, a, l, locus.size());
      for (std::uint16_t allele = 1; allele < locus.alleles().size(); ++allele) {
        double het = 0;
        for (std::size_t g = 0; g < locus.size(); ++g) {
          if (locus.genotypes()[g].copies(allele) == 1) het += odds.posterior[g];
        }
        odds.het.push_back(het);
      }
      out.animals.back().push_back(std::move(odds));
    }
  }
  return out;
}

std::vector<double> enumerate_pair(const Colony& colony, const std::optional<colony::Date>& as_of,
                                   std::size_t first, std::size_t second) {
  const std::vector<JointState> states = joint_states(colony.model());
  const Family family = family_of(colony, states);
  const Search search(
      colony, states, family,
      likelihoods(colony, colony::counting(colony, as_of), states, Layer::posterior),
      std::make_pair(first, second));
  if (search.total() == 0) return {};
  std::vector<double> out = search.pair_sums();
  for (double& p : out) p /= search.total();
  return out;
}

double enumeration_size(const Colony& colony) {
  const std::vector<JointState> states = joint_states(colony.model());
  const Family family = family_of(colony, states);
  double size = 1;
  for (const Step& step : family.steps) {
    size *= step.sire_choice ? static_cast<double>(family.clutches[step.which].sires.size())
                             : static_cast<double>(states.size()) / 2;  // a parent's sex is known
  }
  return size;
}

}  // namespace likelihet::properties
