// Variables, factors and leaves of a colony's network.
#include <algorithm>

#include <likelihet/odds/network_builder.hpp>

namespace likelihet::odds {

using inference::Role;
using inference::Table;
using inference::Variable;

Variable NetworkBuilder::new_variable(std::size_t states, Owner owner) {
  out_.owners_.push_back(owner);
  return out_.network_.add_variable(static_cast<std::uint32_t>(states));
}

std::uint32_t NetworkBuilder::sex_term(std::size_t l, genetics::Sex sex) {
  std::vector<double> mask(locus(l).size());
  for (std::size_t g = 0; g < mask.size(); ++g) mask[g] = locus(l).possible(g, sex) ? 1.0 : 0.0;
  const Key key{5, static_cast<double>(l), sex == genetics::Sex::female ? 0.0 : 1.0};
  return term(key, {Layer::sexes, std::move(mask), {}, std::nullopt});
}

std::uint32_t NetworkBuilder::founder_term(std::size_t l, std::optional<std::size_t> origin,
                                           const colony::BoughtAs* sold, std::size_t animal,
                                           bool unplaced) {
  const Key key{6, static_cast<double>(l), origin ? 1.0 + static_cast<double>(*origin) : 0.0,
                sold != nullptr ? 1.0 + static_cast<double>(animal) : 0.0, unplaced ? 1.0 : 0.0};
  return term(key, {Layer::sexes, {}, {}, Term::Founder{l, origin, sold, unplaced}});
}

// A table whose numbers come from these terms, shared by all that have the same.
Table NetworkBuilder::slot(const Terms& terms, std::size_t size) {
  Terms sorted = terms;
  std::sort(sorted.begin(), sorted.end());
  const auto key = std::make_pair(sorted, size);
  if (const auto found = known_slots_.find(key); found != known_slots_.end()) return found->second;
  const std::vector<double> ones(size, 1.0);
  std::vector<double> start = ones;
  bool depends = false;
  for (std::uint32_t t : sorted) {
    const Term& made = out_.terms_[t];
    depends = depends || !made.scores.empty() || (made.founder && made.founder->origin);
    if (made.layer > Layer::pedigree) continue;
    const auto numbers = term_numbers_.of(made);
    for (std::size_t i = 0; i < size; ++i) start[i] *= numbers[i];
  }
  const Table table = out_.network_.add_table(start);
  for (std::uint32_t t : sorted) {
    const auto place = supposed_terms_.find(t);
    if (place != supposed_terms_.end()) out_.supposed_.emplace(place->second, table);
  }
  out_.slots_.push_back({table, std::move(sorted), depends});
  return known_slots_.emplace(key, table).first->second;
}

// Sexes count in every layer, and no table is behind them.
bool NetworkBuilder::fixed(const Terms& terms) const {
  return std::all_of(terms.begin(), terms.end(), [&](std::uint32_t t) {
    return out_.terms_[t].layer == Layer::sexes && !out_.terms_[t].founder;
  });
}

void NetworkBuilder::add_unary(Variable v, const Terms& terms) {
  for (const Terms& part : parts(terms)) {
    out_.network_.add_factor(std::vector<Variable>{v}, slot(part, out_.network_.states(v)),
                             fixed(part) ? Role::fixed : Role::open);
  }
}

void NetworkBuilder::add_founder(std::size_t animal) {
  const colony::Animal& of = colony_.animals()[animal];
  for (std::size_t l = 0; l < loci_; ++l) {
    const Variable v = new_variable(locus(l).size(), {Owner::Kind::animal, animal, l});
    out_.nodes_[animal * loci_ + l] = {false, v};
    const auto sold = std::find_if(of.bought_as.begin(), of.bought_as.end(),
                                   [&](const colony::BoughtAs& b) { return b.locus == l; });
    const std::uint32_t prior =
        founder_term(l, of.origin, sold == of.bought_as.end() ? nullptr : &*sold, animal,
                     scenario_.unplaced[animal]);
    out_.founders_.push_back({v, prior});
    add_unary(v, {prior});
    add_unary(v, terms_at(animal, l));
  }
}

void NetworkBuilder::add_anonymous(std::size_t clutch) {
  const colony::Clutch& of = colony_.clutches()[clutch];
  const auto add = [&](genetics::Sex sex, std::optional<std::size_t> origin, Owner::Kind kind,
                       auto& made) {
    for (std::size_t l = 0; l < loci_; ++l) {
      const Variable v = new_variable(locus(l).size(), {kind, clutch, l});
      made.emplace(std::make_pair(clutch, l), v);
      const std::uint32_t prior = founder_term(l, origin, nullptr, 0, false);
      out_.founders_.push_back({v, prior});
      add_unary(v, {prior});
      if (locus(l).sex_linked()) add_unary(v, {sex_term(l, sex)});
    }
    ++sexed_;
  };
  if (!of.dam) {
    add(genetics::Sex::female, of.dam_origin, Owner::Kind::anonymous_dam, anonymous_dam_);
  }
  if (scenario_.sires_of(clutch).empty()) {
    add(genetics::Sex::male, of.sire_origin, Owner::Kind::anonymous_sire, anonymous_sire_);
  }
}

// Who the sire was: one variable for the clutch, or one for each hatchling; none where nothing
// below could tell the candidates apart.
void NetworkBuilder::add_sire_variables(std::size_t clutch) {
  const auto& candidates = scenario_.sires_of(clutch);
  if (candidates.size() < 2) return;
  std::vector<double> shares;
  shares.reserve(candidates.size());
  for (const auto& sire : candidates) shares.push_back(sire.share);
  std::optional<Table> table;
  const auto add = [&](Owner owner) {
    const Variable v = new_variable(shares.size(), owner);
    if (!table) table = out_.network_.add_table(shares);
    out_.network_.add_factor(std::vector<Variable>{v}, *table);
    return v;
  };
  const auto wanted = [&](std::size_t animal) {
    bool tied = any_viability_ || informative_[animal];
    for (std::size_t l = 0; l < loci_; ++l) tied = tied || needs_variable_[animal * loci_ + l];
    return tied;
  };
  if (colony_.clutches()[clutch].paternity == colony::Paternity::single) {
    if (std::any_of(hatchlings_[clutch].begin(), hatchlings_[clutch].end(), wanted)) {
      clutch_sire_[clutch] = add({Owner::Kind::clutch_sire, clutch, 0});
    }
    return;
  }
  for (std::size_t animal : hatchlings_[clutch]) {
    if (wanted(animal)) own_sire_.emplace(animal, add({Owner::Kind::own_sire, animal, 0}));
  }
}

Variable NetworkBuilder::dam(std::size_t clutch, std::size_t l) const {
  if (const auto animal = colony_.clutches()[clutch].dam)
    return out_.nodes_[*animal * loci_ + l].id;
  return anonymous_dam_.at({clutch, l});
}

std::vector<Variable> NetworkBuilder::sires(std::size_t clutch, std::size_t l) const {
  std::vector<Variable> out;
  for (const auto& sire : scenario_.sires_of(clutch)) {
    out.push_back(out_.nodes_[sire.animal * loci_ + l].id);
  }
  if (out.empty()) out.push_back(anonymous_sire_.at({clutch, l}));
  return out;
}

std::optional<Variable> NetworkBuilder::guard(std::size_t animal) const {
  const std::size_t clutch = *scenario_.clutches[animal];
  if (clutch_sire_[clutch]) return clutch_sire_[clutch];
  const auto own = own_sire_.find(animal);
  if (own == own_sire_.end()) return std::nullopt;
  return own->second;
}

// P(child | dam, sire), or over (who, dam, candidate, child): ones while another is the sire.
Table NetworkBuilder::transmission(std::size_t l, std::size_t candidates, std::size_t candidate) {
  const std::vector<std::size_t> key{l, candidates, candidate};
  if (const auto found = known_transmissions_.find(key); found != known_transmissions_.end()) {
    return found->second;
  }
  const genetics::Transmission passes(locus(l), genetics::Survival::renormalised);
  std::vector<double> table;
  for (std::size_t who = 0; who < candidates; ++who) {
    if (who == candidate) {
      table.insert(table.end(), passes.table().begin(), passes.table().end());
    } else {
      table.insert(table.end(), passes.table().size(), 1.0);
    }
  }
  return known_transmissions_.emplace(key, out_.network_.add_table(table)).first->second;
}

void NetworkBuilder::add_hatchling(std::size_t animal) {
  for (std::size_t l = 0; l < loci_; ++l) {
    needs_variable_[animal * loci_ + l] ? add_hatchling_variable(animal, l)
                                        : add_hatchling_leaf(animal, l);
  }
  if (sex_viability_.size() > 1) add_joint_viability(animal);
}

void NetworkBuilder::add_hatchling_variable(std::size_t animal, std::size_t l) {
  const std::size_t clutch = *scenario_.clutches[animal];
  const Variable v = new_variable(locus(l).size(), {Owner::Kind::animal, animal, l});
  out_.nodes_[animal * loci_ + l] = {false, v};
  const auto fathers = sires(clutch, l);
  const auto who = guard(animal);
  for (std::size_t k = 0; k < fathers.size(); ++k) {
    std::vector<Variable> scope;
    if (who) scope.push_back(*who);
    scope.insert(scope.end(), {dam(clutch, l), fathers[k], v});
    // With viability even being alive tells of parents who could not have had such a child.
    out_.network_.add_factor(scope, transmission(l, fathers.size(), k),
                             locus(l).viability_matters() ? Role::fixed : Role::conditional);
  }
  add_unary(v, terms_at(animal, l));
}

void NetworkBuilder::add_hatchling_leaf(std::size_t animal, std::size_t l) {
  const std::size_t clutch = *scenario_.clutches[animal];
  const auto fathers = sires(clutch, l);
  const auto who = guard(animal);
  std::vector<inference::Branch> branches;
  for (std::size_t k = 0; k < fathers.size(); ++k) {
    inference::Branch branch{dam(clutch, l), fathers[k], who, 0, 1.0};
    if (who) branch.guard_state = static_cast<std::uint32_t>(k);
    if (!who && fathers.size() > 1) branch.weight = scenario_.sires_of(clutch)[k].share;
    branches.push_back(branch);
  }
  const Terms& terms = terms_at(animal, l);
  // As for a variable: with viability it tells of its parents.
  const bool tells_nothing = !locus(l).viability_matters() && fixed(terms);
  out_.nodes_[animal * loci_ + l] = {
      true,
      out_.network_.add_leaf(static_cast<std::uint32_t>(locus(l).size()), transmission(l, 1, 0),
                             slot(terms, locus(l).size()), tells_nothing, branches)};
}

// Evidence over several of an animal's loci, or in a table of its own.
void NetworkBuilder::add_ties(std::size_t animal) {
  for (const auto& [loci, made] : ties_[animal]) {
    std::vector<Variable> scope;
    std::size_t cells = 1;
    for (std::size_t l : loci) {
      scope.push_back(out_.nodes_[animal * loci_ + l].id);
      cells *= locus(l).size();
    }
    const auto scored = tied_scores_.find({animal, made});
    if (scored != tied_scores_.end()) {
      out_.scored_[scored->second].tie = static_cast<std::uint32_t>(out_.network_.factors());
    }
    out_.network_.add_factor(scope, slot({made}, cells));
  }
}

void NetworkBuilder::add_holds() {
  for (const GenotypePlace& place : scenario_.held) {
    const std::vector<double> ones(locus(place.locus).size(), 1.0);
    const Table table = out_.network_.add_table(ones);
    out_.network_.add_factor(
        std::vector<Variable>{out_.nodes_[place.animal * loci_ + place.locus].id}, table);
    out_.holds_.push_back(table);
  }
}

// With viability at several sex-linked loci the chance to be alive does not part by locus: each
// locus's table is renormalised on its own, and this factor of the parents puts that right.
void NetworkBuilder::add_joint_viability(std::size_t animal) {
  const std::size_t clutch = *scenario_.clutches[animal];
  const std::size_t candidates = std::max<std::size_t>(scenario_.sires_of(clutch).size(), 1);
  const auto who = guard(animal);
  std::vector<std::vector<double>> alive[2];
  for (std::size_t l : sex_viability_) {
    const genetics::Transmission weighted(locus(l), genetics::Survival::weighted);
    for (auto sex : {genetics::Sex::female, genetics::Sex::male}) {
      std::vector<double> sums;
      for (std::size_t pair = 0; pair < locus(l).size() * locus(l).size(); ++pair) {
        double sum = 0;
        for (std::size_t g = 0; g < locus(l).size(); ++g) {
          if (locus(l).possible(g, sex)) sum += weighted.table()[pair * locus(l).size() + g];
        }
        sums.push_back(sum);
      }
      alive[sex == genetics::Sex::female ? 0 : 1].push_back(std::move(sums));
    }
  }
  // Over (dam, sire) of each locus in turn, the last locus fastest: products per sex and per locus.
  std::vector<double> female{0.5}, male{0.5}, apart{1.0};
  for (std::size_t i = 0; i < sex_viability_.size(); ++i) {
    std::vector<double> next_female, next_male, next_apart;
    for (std::size_t cell = 0; cell < apart.size(); ++cell) {
      for (std::size_t pair = 0; pair < alive[0][i].size(); ++pair) {
        next_female.push_back(female[cell] * 2 * alive[0][i][pair]);
        next_male.push_back(male[cell] * 2 * alive[1][i][pair]);
        next_apart.push_back(apart[cell] * (alive[0][i][pair] + alive[1][i][pair]));
      }
    }
    female = std::move(next_female);
    male = std::move(next_male);
    apart = std::move(next_apart);
  }
  for (std::size_t k = 0; k < candidates; ++k) {
    std::vector<Variable> scope;
    if (who) scope.push_back(*who);
    for (std::size_t l : sex_viability_) {
      scope.push_back(dam(clutch, l));
      scope.push_back(sires(clutch, l)[k]);
    }
    std::vector<double> table;
    for (std::size_t state = 0; state < (who ? candidates : 1); ++state) {
      for (std::size_t cell = 0; cell < apart.size(); ++cell) {
        const double together = female[cell] + male[cell];
        const double right = together > 0 ? apart[cell] / together : 0.0;
        table.push_back(!who || state == k ? right : 1.0);
      }
    }
    out_.network_.add_factor(scope, out_.network_.add_table(table));
  }
}

}  // namespace likelihet::odds
