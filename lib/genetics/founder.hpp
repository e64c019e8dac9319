// What is believed of a founder before any record of it.
#pragma once

#include <vector>

#include <likelihet/genetics/locus.hpp>

namespace likelihet::genetics {

/// Prior over the locus's genotypes for a founder out of a population with these allele frequencies
/// (one an allele, summing to 1): Hardy-Weinberg proportions (Hardy 1908; Weinberg 1908) times
/// viability, renormalised within each sex. On a sex chromosome the two sexes weigh 1/2 each, so
/// the whole sums to 1; on an autosome the sex plays no part. A sex in which no genotype is viable
/// gets zeros.
std::vector<double> founder_prior(const Locus& locus, const std::vector<double>& frequencies);

}  // namespace likelihet::genetics
