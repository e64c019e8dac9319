// A set of tests that grows, and what every other test would add to it.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/planning/report_tree.hpp>
#include <likelihet/planning/supposed_book.hpp>
#include <likelihet/planning/test_candidates.hpp>
#include <likelihet/planning/worth.hpp>

namespace likelihet::planning {

/// What all sets of tests of one plan have in common. Points into a colony and candidates, which
/// must outlive it.
struct TestGround {
  const colony::Colony* colony = nullptr;
  const std::vector<TestCandidate>* candidates = nullptr;
  const Worth* worth = nullptr;
  SupposedQuestion question;
  TreeLimits limits;
  std::vector<std::vector<ReportClass>> classes;  ///< by assay
  std::vector<std::size_t> loci;                  ///< of all candidates
  std::vector<std::size_t> part_of;               ///< odds::separate_parts()
};

/// A number with the standard error of the draws behind it; 0 where none were made.
struct Estimate {
  double value = 0;
  double standard_error = 0;
};

/// Tests chosen so far. The gain of one more is I(its report ; all genotypes | the reports of those
/// chosen), in bits. Reports are independent of one another given the genotypes, so the gain is
/// the average, over what was chosen may report, of the report's information on its own animal;
/// and the information of a set is monotone and submodular in it (Krause and Guestrin 2005,
/// Uncertainty in Artificial Intelligence, 324-331). Every gain comes out of the same passes, so
/// none is put off (lazy evaluation, Minoux 1978) but those of parts of the network that nothing
/// chosen can reach, which stay as they are. Copies are cheap: books are shared.
class TestSet {
 public:
  /// Without tests.
  TestSet(const TestGround& ground, const SupposedBook& recorded, std::uint64_t seed);

  /// What this candidate would add, bits.
  [[nodiscard]] const Estimate& gain(std::size_t candidate) const { return gains_[candidate]; }
  /// Chosen, in the order of add().
  [[nodiscard]] const std::vector<std::size_t>& chosen() const { return chosen_; }
  [[nodiscard]] bool contains(std::size_t candidate) const;
  /// Of all chosen together: information in bits, expected fall of the sum over animals of their
  /// entropies at the candidates' loci in bits, expected rise of the sum of their worths.
  [[nodiscard]] const Estimate& bits() const { return bits_; }
  [[nodiscard]] double listing_bits() const { return listing_bits_; }
  [[nodiscard]] double worth() const { return worth_; }
  /// Whether some of it was drawn and not gone through.
  [[nodiscard]] bool sampled() const;

  /// Takes the candidate in. Nothing, or what does not fit: then the set is as it was.
  [[nodiscard]] std::optional<odds::TooLarge> add(std::size_t candidate);

 private:
  // The chosen ones that may tell of one another.
  struct Part {
    ReportTree tree;
    std::vector<odds::GenotypePlace> places;
    std::shared_ptr<const SupposedBook> book;  // with these places
    double entropy = 0;                        // expected, summed over animals and loci
    double worth = 0;
  };
  [[nodiscard]] std::size_t part_of(std::size_t animal, std::size_t locus) const {
    return ground_->part_of[animal * ground_->colony->model().loci().size() + locus];
  }
  Part& part(std::size_t number, const SupposedBook& recorded);
  void evaluate(std::size_t number, Part& part);

  const TestGround* ground_;
  const SupposedBook* recorded_;
  inference::RandomBits random_;
  std::map<std::size_t, std::vector<std::size_t>> candidates_of_;  // by part
  std::map<std::size_t, Part> parts_;
  std::vector<Estimate> gains_;
  std::vector<std::size_t> chosen_;
  Estimate bits_;
  double listing_bits_ = 0;
  double worth_ = 0;
};

}  // namespace likelihet::planning
