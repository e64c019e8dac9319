// What is believed of a founder before any record of it. A founder is an animal without recorded
// parents; parents who were never recorded are founders too.
#pragma once

#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

/// Hardy-Weinberg proportion of one genotype (Hardy 1908; Weinberg 1908): p^2, 2pq, or p where
/// there is one copy. Sums to 1 over the genotypes of a sex.
double hardy_weinberg(const Genotype& genotype, const std::vector<double>& frequencies);

/// Prior over the locus's genotypes for a founder out of a population with these allele frequencies
/// (one an allele, summing to 1): Hardy-Weinberg proportions (Hardy 1908; Weinberg 1908) times
/// viability, renormalised within each sex. On a sex chromosome the two sexes weigh 1/2 each, so
/// the whole sums to 1; on an autosome the sex plays no part. A sex in which no genotype is viable
/// gets zeros. Viability enters as in selection on survival to the age at which animals are
/// recorded (Crow and Kimura 1970, An Introduction to Population Genetics Theory, chapter 5). Fewer
/// frequencies than alleles are undefined.
std::vector<double> founder_prior(const Locus& locus, const std::vector<double>& frequencies);

}  // namespace likelihet::genetics
