// What is known of each animal, and which animals need variables of their own.
#include <algorithm>
#include <numeric>

#include <likelihet/odds/evidence_appearance.hpp>
#include <likelihet/odds/evidence_brood.hpp>
#include <likelihet/odds/evidence_result.hpp>
#include <likelihet/odds/network_builder.hpp>

namespace likelihet::odds {

using colony::Observation;

ColonyNetwork colony_network(const Scenario& scenario, const Tables& tables) {
  return NetworkBuilder(scenario, tables).build();
}

NetworkBuilder::NetworkBuilder(const Scenario& scenario, const Tables& tables)
    : scenario_(scenario),
      colony_(*scenario.colony),
      model_(scenario.colony->model()),
      tables_(tables),
      loci_(model_.loci().size()),
      animals_(colony_.animals().size()),
      hatchlings_(colony_.clutches().size()),
      breeder_(animals_, false),
      own_evidence_(animals_, false),
      needs_variable_(animals_ * loci_, false),
      evidence_(animals_ * loci_),
      ties_(animals_),
      clutch_sire_(colony_.clutches().size()),
      term_numbers_(model_, out_.strengths_) {
  for (std::size_t l = 0; l < loci_; ++l) {
    const bool matters = locus(l).viability_matters();
    any_viability_ = any_viability_ || matters;
    if (!locus(l).sex_linked()) continue;
    sex_linked_.push_back(l);
    if (matters) sex_viability_.push_back(l);
  }
  out_.model_ = &model_;
  out_.loci_ = loci_;
  if (!model_.together().empty()) out_.strengths_ = strength_points();
  out_.nodes_.resize(animals_ * loci_);
  term_numbers_.at(tables_);
}

ColonyNetwork NetworkBuilder::build() {
  order_animals();
  gather_evidence();
  gather_supposed();
  marker_informative();
  choose_variables();
  for (std::size_t animal : order_) {
    if (!scenario_.clutches[animal]) add_founder(animal);
  }
  std::vector<std::size_t> clutches(colony_.clutches().size());
  std::iota(clutches.begin(), clutches.end(), std::size_t{0});
  std::sort(clutches.begin(), clutches.end(), [&](std::size_t a, std::size_t b) {
    return colony_.clutches()[a].id < colony_.clutches()[b].id;
  });
  for (std::size_t clutch : clutches) {
    if (hatchlings_[clutch].empty()) continue;
    add_anonymous(clutch);
    add_sire_variables(clutch);
  }
  for (std::size_t animal : order_) {
    if (scenario_.clutches[animal]) add_hatchling(animal);
  }
  for (std::size_t animal : order_) add_ties(animal);
  add_holds();
  constexpr double ln2 = 0.693147180559945309417232121458;
  out_.log_sexes_ = -ln2 * static_cast<double>(sexed_) * static_cast<double>(sex_linked_.size());
  return std::move(out_);
}

// By depth in the pedigree, then by id: parents first, whatever the order of the records.
void NetworkBuilder::order_animals() {
  std::vector<std::size_t> depth(animals_, SIZE_MAX);
  std::vector<std::size_t> stack;
  const auto parents = [&](std::size_t animal) {
    std::vector<std::size_t> out;
    if (const auto clutch = scenario_.clutches[animal]) {
      if (colony_.clutches()[*clutch].dam) out.push_back(*colony_.clutches()[*clutch].dam);
      for (const auto& sire : scenario_.sires_of(*clutch)) out.push_back(sire.animal);
    }
    return out;
  };
  for (std::size_t first = 0; first < animals_; ++first) {
    stack.push_back(first);
    while (!stack.empty()) {
      const std::size_t animal = stack.back();
      std::size_t deepest = 0;
      bool ready = true;
      for (std::size_t parent : parents(animal)) {
        breeder_[parent] = true;
        if (depth[parent] == SIZE_MAX) {
          ready = false;
          stack.push_back(parent);
        } else {
          deepest = std::max(deepest, depth[parent] + 1);
        }
      }
      if (!ready) continue;
      depth[animal] = deepest;
      stack.pop_back();
    }
  }
  order_.resize(animals_);
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  std::sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
    if (depth[a] != depth[b]) return depth[a] < depth[b];
    return colony_.animals()[a].id < colony_.animals()[b].id;
  });
  for (std::size_t animal : order_) {
    if (const auto clutch = scenario_.clutches[animal]) hatchlings_[*clutch].push_back(animal);
  }
}

std::uint32_t NetworkBuilder::term(const Key& key, Term made) {
  const auto [found, fresh] =
      known_terms_.try_emplace(key, static_cast<std::uint32_t>(out_.terms_.size()));
  if (fresh) {
    double least = 1;
    for (double p : term_numbers_.of(made)) {
      if (p > 0) least = std::min(least, p);
    }
    // Each drawn row may be as low as least_drawn; `parts` needs no more than about 1e-200.
    for (std::size_t s = 0; s < std::min<std::size_t>(made.scores.size(), 7); ++s) {
      least *= least_drawn;
    }
    least_.push_back(least);
    out_.terms_.push_back(std::move(made));
  }
  return found->second;
}

// In as many tables as keep the product of each above 1e-200: an animal may have hundreds of
// records.
std::vector<NetworkBuilder::Terms> NetworkBuilder::parts(const Terms& terms) const {
  constexpr double least_product = 1e-200;
  std::vector<Terms> out;
  double product = 0;
  for (std::uint32_t t : terms) {
    if (product * least_[t] < least_product) {
      out.emplace_back();
      product = 1;
    }
    out.back().push_back(t);
    product *= least_[t];
  }
  return out;
}

void NetworkBuilder::gather_evidence() {
  std::vector<std::vector<const Observation*>> seen(animals_);
  for (const Observation* observation : scenario_.observations) {
    if (const auto animal = colony::animal_of(*observation)) seen[*animal].push_back(observation);
  }
  for (std::size_t animal : order_) {
    if (const auto sex = scenario_.sexes[animal]) {
      for (std::size_t l : sex_linked_) terms_at(animal, l).push_back(sex_term(l, *sex));
      ++sexed_;
    }
    auto& mine = seen[animal];
    if (mine.empty()) continue;
    std::sort(mine.begin(), mine.end(),
              [](const Observation* a, const Observation* b) { return a->id < b->id; });
    gather_animal(animal, mine);
    gather_scores(animal, mine);
  }
}

void NetworkBuilder::gather_supposed() {
  for (const GenotypePlace& place : scenario_.supposed) {
    const Key key{7, static_cast<double>(place.animal), static_cast<double>(place.locus)};
    if (known_terms_.contains(key)) continue;
    std::vector<double> ones(locus(place.locus).size(), 1.0);
    const std::uint32_t made = term(key, {Layer::posterior, std::move(ones), {}, std::nullopt});
    supposed_terms_.emplace(made, place);
    terms_at(place.animal, place.locus).push_back(made);
    own_evidence_[place.animal] = true;
  }
}

void NetworkBuilder::soften(const Observation& observation, Key& key,
                            std::vector<double>& numbers) const {
  if (!scenario_.softened.contains(&observation)) return;
  key.push_back(1);
  for (double& p : numbers) p = std::max(p, soft_zero);
}

void NetworkBuilder::gather_animal(std::size_t animal,
                                   const std::vector<const Observation*>& seen) {
  for (const Observation* observation : seen) {
    if (const auto* shown = std::get_if<colony::AppearanceSeen>(&observation->what)) {
      Key key{0, static_cast<double>(shown->locus), static_cast<double>(shown->appearance)};
      auto numbers = appearance_likelihood(locus(shown->locus), shown->appearance);
      soften(*observation, key, numbers);
      terms_at(animal, shown->locus)
          .push_back(term(key, {Layer::pedigree, std::move(numbers), {}, std::nullopt}));
      own_evidence_[animal] = true;
    } else if (const auto* result = std::get_if<colony::Result>(&observation->what)) {
      const colony::Assay& assay = model_.assays()[result->assay];
      Key key{1, static_cast<double>(result->assay), static_cast<double>(result->report)};
      auto numbers = result_likelihood(assay, result->report);
      soften(*observation, key, numbers);
      terms_at(animal, assay.locus)
          .push_back(term(key, {Layer::posterior, std::move(numbers), {}, std::nullopt}));
      own_evidence_[animal] = true;
    } else if (const auto* brood = std::get_if<colony::Brood>(&observation->what)) {
      for (auto& part : brood_likelihood(locus(brood->locus), brood->partner, brood->offspring)) {
        const Key key{3, static_cast<double>(broods_++)};
        const std::uint32_t made = term(key, {Layer::pedigree, std::move(part), {}, std::nullopt});
        // Tables of its own: a hundred broods in one table would underflow.
        ties_[animal].push_back({{brood->locus}, made});
      }
      needs_variable_[animal * loci_ + brood->locus] = true;
      own_evidence_[animal] = true;
    }
  }
}

// Evidence on an animal or below it.
void NetworkBuilder::marker_informative() {
  informative_ = own_evidence_;
  for (std::size_t i = order_.size(); i-- > 0;) {
    const std::size_t animal = order_[i];
    const auto clutch = scenario_.clutches[animal];
    if (!clutch || !informative_[animal]) continue;
    if (colony_.clutches()[*clutch].dam) informative_[*colony_.clutches()[*clutch].dam] = true;
    for (const auto& sire : scenario_.sires_of(*clutch)) informative_[sire.animal] = true;
  }
}

// Everyone else is summed out to a table over its parents (Elston and Stewart 1971).
void NetworkBuilder::choose_variables() {
  for (const GenotypePlace& place : scenario_.held) {
    needs_variable_[place.animal * loci_ + place.locus] = true;
  }
  for (std::size_t animal = 0; animal < animals_; ++animal) {
    const bool all = breeder_[animal] || !scenario_.clutches[animal];
    for (std::size_t l = 0; l < loci_; ++l) {
      // A leaf has room for one table.
      if (all || parts(terms_at(animal, l)).size() > 1) needs_variable_[animal * loci_ + l] = true;
    }
    if (sex_viability_.size() > 1) {
      for (std::size_t l : sex_linked_) needs_variable_[animal * loci_ + l] = true;
    }
    if (sex_linked_.size() > 1 && !scenario_.sexes[animal]) couple_sexes(animal);
  }
}

// The sex-linked loci of an animal of unknown sex tell of each other through its sex, where any of
// them tells anything.
void NetworkBuilder::couple_sexes(std::size_t animal) {
  bool tells = !sex_viability_.empty();
  for (std::size_t l : sex_linked_) {
    tells = tells || !terms_at(animal, l).empty() || needs_variable_[animal * loci_ + l];
  }
  if (!tells) return;
  for (std::size_t l : sex_linked_) needs_variable_[animal * loci_ + l] = true;
  for (std::size_t i = 0; i + 1 < sex_linked_.size(); ++i) {
    const genetics::Locus& a = locus(sex_linked_[i]);
    const genetics::Locus& b = locus(sex_linked_[i + 1]);
    std::vector<double> same;
    for (const auto& ga : a.genotypes()) {
      // Each locus brings its own 1/2 for the sex; the 2 leaves one of them.
      for (const auto& gb : b.genotypes()) same.push_back(ga.sex == gb.sex ? 2.0 : 0.0);
    }
    const Key key{4, static_cast<double>(sex_linked_[i]), static_cast<double>(sex_linked_[i + 1])};
    ties_[animal].push_back({{sex_linked_[i], sex_linked_[i + 1]},
                             term(key, {Layer::sexes, std::move(same), {}, std::nullopt})});
  }
}

}  // namespace likelihet::odds
