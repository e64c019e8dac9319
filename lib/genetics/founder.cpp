// Hardy-Weinberg within each sex.
#include <likelihet/genetics/founder.hpp>

namespace likelihet::genetics {

namespace {

void renormalise_sex(const Locus& locus, Sex sex, double to, std::vector<double>& prior) {
  double total = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.possible(g, sex)) total += prior[g];
  }
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.possible(g, sex) && total > 0) prior[g] *= to / total;
  }
}

}  // namespace

// p² or q² for two alike, 2pq for two unlike, and p for a single copy (Hardy 1908, Science 28:49).
double hardy_weinberg(const Genotype& genotype, const std::vector<double>& frequencies) {
  const double first = frequencies[genotype.first];
  if (!genotype.second) return first;
  const double both = first * frequencies[*genotype.second];
  return genotype.first == *genotype.second ? both : 2 * both;
}

std::vector<double> founder_prior(const Locus& locus, const std::vector<double>& frequencies) {
  std::vector<double> prior(locus.size());
  for (std::size_t g = 0; g < locus.size(); ++g) {
    prior[g] = hardy_weinberg(locus.genotypes()[g], frequencies) * locus.viability(g);
  }
  if (!locus.sex_linked()) {
    renormalise_sex(locus, Sex::female, 1.0, prior);
  } else {
    renormalise_sex(locus, Sex::female, 0.5, prior);
    renormalise_sex(locus, Sex::male, 0.5, prior);
  }
  return prior;
}

}  // namespace likelihet::genetics
