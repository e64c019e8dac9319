// The steps from a scenario to its network; internal to the layer. Three files: what is known of
// each animal first, its scores apart, then variables, factors and leaves. Everything is done in
// the order of order_animals(), never in that of the records.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include <likelihet/genetics/transmission.hpp>
#include <likelihet/odds/colony_network.hpp>
#include <likelihet/odds/term_numbers.hpp>

namespace likelihet::odds {

/// Used once. A key begins with the kind of evidence, so that no two kinds share a term.
class NetworkBuilder {
 public:
  NetworkBuilder(const Scenario& scenario, const Tables& tables);
  ColonyNetwork build();

 private:
  using Key = std::vector<double>;
  using Terms = std::vector<std::uint32_t>;

  // network_builder.cpp: the order of animals, their evidence, who needs a variable
  void order_animals();
  void gather_evidence();
  // Ones of its own for each place of the scenario, beside what was recorded.
  void gather_supposed();
  void gather_animal(std::size_t animal, const std::vector<const colony::Observation*>& seen);
  // Puts soft_zero in place of zeros where the scenario asks for it.
  void soften(const colony::Observation& observation, Key& key, std::vector<double>& numbers) const;
  // network_builder_scores.cpp
  void gather_scores(std::size_t animal, const std::vector<const colony::Observation*>& seen);
  void add_scores(std::size_t animal, std::vector<Term::Score> scores);
  void add_scale(std::size_t animal, Key key, std::uint32_t scored);
  // Who has evidence on themselves or below: only there can who the sire was matter.
  void marker_informative();
  // A leaf is enough for a hatchling without offspring whose loci nothing ties together.
  void choose_variables();
  // Sex-linked loci of an animal of unknown sex speak of one another through its sex.
  void couple_sexes(std::size_t animal);
  [[nodiscard]] std::uint32_t term(const Key& key, Term made);
  [[nodiscard]] std::vector<Terms> parts(const Terms& terms) const;
  [[nodiscard]] Terms& terms_at(std::size_t animal, std::size_t locus) {
    return evidence_[animal * loci_ + locus];
  }

  // network_builder_factors.cpp: variables, factors, leaves
  void add_founder(std::size_t animal);
  void add_anonymous(std::size_t clutch);
  void add_sire_variables(std::size_t clutch);
  void add_hatchling(std::size_t animal);
  void add_hatchling_variable(std::size_t animal, std::size_t locus);
  void add_hatchling_leaf(std::size_t animal, std::size_t locus);
  void add_ties(std::size_t animal);
  // A table of ones on each genotype that the scenario wants held.
  void add_holds();
  // Corrects the product of per-locus normalisations where several sex-linked loci kill.
  void add_joint_viability(std::size_t animal);
  // Whether no set of numbers changes what these terms say.
  [[nodiscard]] bool fixed(const Terms& terms) const;
  void add_unary(inference::Variable v, const Terms& terms);
  inference::Table slot(const Terms& terms, std::size_t size);
  // A candidate's table is ones while another candidate is the sire.
  inference::Table transmission(std::size_t locus, std::size_t candidates, std::size_t candidate);
  inference::Variable new_variable(std::size_t states, Owner owner);
  std::uint32_t sex_term(std::size_t locus, genetics::Sex sex);
  std::uint32_t founder_term(std::size_t locus, std::optional<std::size_t> origin,
                             const colony::BoughtAs* sold, std::size_t animal, bool unplaced);
  [[nodiscard]] inference::Variable dam(std::size_t clutch, std::size_t locus) const;
  /// Variable of each candidate sire of the clutch.
  [[nodiscard]] std::vector<inference::Variable> sires(std::size_t clutch, std::size_t locus) const;
  // Nothing where there is one candidate, or where nothing could tell them apart.
  [[nodiscard]] std::optional<inference::Variable> guard(std::size_t animal) const;
  [[nodiscard]] const genetics::Locus& locus(std::size_t l) const { return model_.loci()[l]; }

  const Scenario& scenario_;
  const colony::Colony& colony_;
  const colony::Model& model_;
  const Tables& tables_;
  std::size_t loci_;
  std::size_t animals_;
  bool any_viability_ = false;
  std::vector<std::size_t> sex_linked_;               // loci
  std::vector<std::size_t> sex_viability_;            // sex-linked loci whose viability matters
  std::vector<std::size_t> order_;                    // animals, parents first
  std::vector<std::vector<std::size_t>> hatchlings_;  // by clutch, in that order
  std::vector<bool> breeder_, own_evidence_, informative_;
  std::vector<bool> needs_variable_;  // by animal x locus
  std::vector<Terms> evidence_;       // by animal x locus
  std::vector<std::vector<std::pair<std::vector<std::size_t>, std::uint32_t>>> ties_;  // by animal
  std::map<Key, std::uint32_t> known_terms_;
  std::map<std::pair<std::size_t, std::uint32_t>, std::size_t> tied_scores_;  // (animal, term)
  std::map<std::uint32_t, GenotypePlace> supposed_terms_;
  std::vector<double> least_;  // by term: below it none of its positive numbers falls
  std::map<std::pair<Terms, std::size_t>, inference::Table> known_slots_;
  std::map<std::vector<std::size_t>, inference::Table> known_transmissions_;
  std::vector<std::optional<inference::Variable>> clutch_sire_;    // by clutch
  std::unordered_map<std::size_t, inference::Variable> own_sire_;  // by animal
  std::map<std::pair<std::size_t, std::size_t>, inference::Variable> anonymous_dam_,
      anonymous_sire_;
  std::size_t sexed_ = 0;
  std::uint32_t broods_ = 0;
  ColonyNetwork out_;
  TermNumbers term_numbers_;  // at tables_
};

}  // namespace likelihet::odds
