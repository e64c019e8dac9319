// What one report would change, over the whole book.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <variant>
#include <vector>

#include <likelihet/planning/greedy.hpp>

namespace likelihet::planning {

/// The chance of exactly one copy of an allele, as recorded and after a report.
struct OddsMove {
  std::size_t animal = 0;
  std::uint16_t allele = 1;
  double before = 0;
  double after = 0;
};

/// One class of reports (reports that tell the same) of a test.
struct ReportEffect {
  std::vector<std::size_t> reports;  ///< positions in Assay::reports
  double probability = 0;            ///< P(a report of the class | all that is recorded)
  std::vector<double> genotypes;     ///< the tested animal's odds after it
  std::size_t moved = 0;  ///< other animals whose chance moves by more than `counts_as_moved`
  std::vector<OddsMove> largest;  ///< of other animals, largest first, at most `moves_told`
};

inline constexpr double counts_as_moved = 0.01;
inline constexpr std::size_t moves_told = 5;

/// Every class that can be reported, in the order of the assay, with what it would do to everyone
/// at the assay's locus. Exact: P(all | report) = Σ_g P(g | report) P(all | g), g being the tested
/// animal's genotype.
std::variant<std::vector<ReportEffect>, odds::TooLarge> report_effects(const TestGround& ground,
                                                                       const SupposedBook& recorded,
                                                                       const TestCandidate& test);

/// What one test alone is expected to do.
struct AloneGain {
  /// Fall of the sum, over all animals, of the entropy of their genotype at the assay's locus: what
  /// the listings gain. Bits. Animals tell of each other, so it may pass the report's information.
  double listing_bits = 0;
  double worth = 0;  ///< rise of the sum of the worths of all animals, before the price
};

/// Of each of the candidates given by position. Too large only where one alone is.
std::variant<std::vector<AloneGain>, odds::TooLarge> alone_gains(
    const TestGround& ground, const SupposedBook& recorded,
    const std::vector<std::size_t>& candidates);

}  // namespace likelihet::planning
