// One animal's sex and its genotypes at all traits together, and how they pass to offspring.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/genetics/locus.hpp>
#include <likelihet/genetics/sex.hpp>

namespace likelihet::properties {

struct JointState {
  genetics::Sex sex = genetics::Sex::female;
  std::vector<std::size_t> genotypes;  ///< one a locus, in the model's order
};

/// Every joint state of an animal, females first. The order is that of counting, last locus
/// fastest.
std::vector<JointState> joint_states(const colony::Model& model);

/// The prior of a founder of this sex over its genotypes at one locus: Hardy-Weinberg (Hardy 1908;
/// Weinberg 1908) times viability, renormalised; `bought_as`, where given, mixed in by its trust.
std::vector<double> founder_locus(const genetics::Locus& locus, genetics::Sex sex,
                                  const std::vector<double>& frequencies,
                                  const colony::BoughtAs* bought_as);

/// P(child's genotype | parents' genotypes, child's sex) before survival, by listing the
/// chromosomes of both parents. On a sex chromosome the dam must be female and the sire male, else
/// 0.
double mendel(const genetics::Locus& locus, std::size_t dam, std::size_t sire, std::size_t child,
              genetics::Sex child_sex);

/// P(joint state | parents' joint states) of a recorded hatchling: Mendelian, each sex 1/2, times
/// viability, renormalised over all genotypes of all loci and both sexes. All zeros where none of
/// the offspring could live, and where the dam is not female or the sire not male.
std::vector<double> hatchling(const colony::Model& model, const std::vector<JointState>& states,
                              const JointState& dam, const JointState& sire);

}  // namespace likelihet::properties
