// What a report tells of a genotype, in bits.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/colony/model.hpp>

namespace likelihet::planning {

/// What an assay may report, as likelihoods over the genotypes of its locus. Reports that tell the
/// same (in proportion to each other, such as several kinds of "no call") are one class, since no
/// belief can tell them apart; reports that no genotype gives are in none.
struct ReportClass {
  std::vector<double> likelihood;    ///< P(a report of the class | genotype), mix-ups included
  std::vector<std::size_t> reports;  ///< positions in Assay::reports
};

/// The classes of an assay, in the order of their first reports. Two reports are of one class where
/// their likelihoods are in proportion within 1e-12.
std::vector<ReportClass> report_classes(const colony::Assay& assay);

/// H = -Σ p log2 p (Shannon 1948, Bell System Technical Journal 27:379), with 0 log 0 = 0. 0 where
/// one state is certain. `probabilities` sum to 1.
double entropy_bits(std::span<const double> probabilities);

/// Mutual information of the report and the genotype, bits: Σ_g Σ_r p(g) P(r | g) log2 of
/// P(r | g) / P(r). What a test is worth before it is made (Lindley 1956, Annals of Mathematical
/// Statistics 27:986). Never negative; exactly 0 for a genotype that is certain, and for an assay
/// that reports the same of every genotype that is possible, but for rounding.
double information_bits(std::span<const double> genotypes, std::span<const ReportClass> classes);

}  // namespace likelihet::planning
