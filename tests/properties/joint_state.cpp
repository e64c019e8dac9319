// Joint states from first principles: lists of chromosomes, nothing precomputed.
#include "properties/joint_state.hpp"

#include <algorithm>
#include <optional>

namespace likelihet::properties {

namespace {

using genetics::Genotype;
using genetics::Locus;
using genetics::Sex;

// A chromosome at a locus: an allele, or nothing for the partner chromosome (W or Y).
using Chromosome = std::optional<std::uint16_t>;

std::vector<Chromosome> chromosomes(const Genotype& genotype) {
  if (genotype.second) return {genotype.first, *genotype.second};
  return {genotype.first, std::nullopt};
}

// Whether two chromosomes, one from each parent, make this genotype.
bool make(Chromosome one, Chromosome other, const Genotype& genotype) {
  if (!one && !other) return false;
  if (!one || !other) {
    return !genotype.second && genotype.first == (one ? *one : *other);
  }
  return genotype.second && std::min(*one, *other) == genotype.first &&
         std::max(*one, *other) == *genotype.second;
}

void extend(const colony::Model& model, JointState& partial, std::vector<JointState>& all) {
  if (partial.genotypes.size() == model.loci().size()) {
    all.push_back(partial);
    return;
  }
  const Locus& locus = model.loci()[partial.genotypes.size()];
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const auto sex = locus.genotypes()[g].sex;
    if (sex && *sex != partial.sex) continue;
    partial.genotypes.push_back(g);
    extend(model, partial, all);
    partial.genotypes.pop_back();
  }
}

void scale_to_one(std::vector<double>& weights) {
  double total = 0;
  for (double w : weights) total += w;
  for (double& w : weights) w = total > 0 ? w / total : 0.0;
}

}  // namespace

std::vector<JointState> joint_states(const colony::Model& model) {
  std::vector<JointState> all;
  for (Sex sex : {Sex::female, Sex::male}) {
    JointState partial{sex, {}};
    extend(model, partial, all);
  }
  return all;
}

std::vector<double> founder_locus(const Locus& locus, Sex sex,
                                  const std::vector<double>& frequencies,
                                  const colony::BoughtAs* bought_as) {
  std::vector<double> prior(locus.size(), 0.0);
  std::vector<double> claim(locus.size(), 0.0);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    const Genotype& genotype = locus.genotypes()[g];
    if (genotype.sex && *genotype.sex != sex) continue;
    prior[g] = frequencies[genotype.first] * locus.viability(g);
    if (genotype.second) prior[g] *= frequencies[*genotype.second];
    if (genotype.second && genotype.first != *genotype.second) prior[g] *= 2;
    if (bought_as != nullptr) claim[g] = bought_as->odds[g];
  }
  scale_to_one(prior);
  if (bought_as == nullptr) return prior;
  scale_to_one(claim);
  for (std::size_t g = 0; g < locus.size(); ++g) {
    prior[g] = bought_as->trust * claim[g] + (1 - bought_as->trust) * prior[g];
  }
  return prior;
}

double mendel(const Locus& locus, std::size_t dam, std::size_t sire, std::size_t child,
              Sex child_sex) {
  const Genotype& mother = locus.genotypes()[dam];
  const Genotype& father = locus.genotypes()[sire];
  const Genotype& offspring = locus.genotypes()[child];
  if (mother.sex && *mother.sex != Sex::female) return 0;
  if (father.sex && *father.sex != Sex::male) return 0;
  if (offspring.sex && *offspring.sex != child_sex) return 0;
  int ways = 0;    // that make this genotype
  int of_sex = 0;  // that make a child of this sex at all
  for (Chromosome egg : chromosomes(mother)) {
    for (Chromosome sperm : chromosomes(father)) {
      const bool two_copies = egg && sperm;
      const bool sex_fits =
          !locus.sex_linked() ||
          (two_copies == (child_sex == genetics::two_copy_sex(locus.chromosome())));
      if (sex_fits) ++of_sex;
      if (sex_fits && make(egg, sperm, offspring)) ++ways;
    }
  }
  return of_sex == 0 ? 0.0 : static_cast<double>(ways) / of_sex;
}

std::vector<double> hatchling(const colony::Model& model, const std::vector<JointState>& states,
                              const JointState& dam, const JointState& sire) {
  std::vector<double> weights(states.size(), 0.0);
  if (dam.sex != Sex::female || sire.sex != Sex::male) return weights;
  for (std::size_t s = 0; s < states.size(); ++s) {
    double weight = 0.5;
    for (std::size_t l = 0; l < model.loci().size() && weight > 0; ++l) {
      const Locus& locus = model.loci()[l];
      const std::size_t child = states[s].genotypes[l];
      weight *= mendel(locus, dam.genotypes[l], sire.genotypes[l], child, states[s].sex) *
                locus.viability(child);
    }
    weights[s] = weight;
  }
  scale_to_one(weights);
  return weights;
}

}  // namespace likelihet::properties
