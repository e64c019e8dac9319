// Which samples to send, in order.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/colony/policy.hpp>
#include <likelihet/planning/report_effects.hpp>

namespace likelihet::planning {

/// Below it a test is said to tell nothing: rounding, or an animal that is certain. Bits.
inline constexpr double least_bits = 1e-9;

/// The defaults are those of the command line.
struct TestQuestion {
  SupposedQuestion book;
  TestsAsked asked;
  std::optional<std::size_t> tests;  ///< the most; nothing with no budget: 5
  std::optional<double> budget;  ///< what all of them may cost; tests without a price are left out
  TreeLimits limits;
  std::uint64_t seed = 1;  ///< of the lot, and of draws where reports are drawn
};

/// So many candidates are valued alone over every animal: those that tell most, then by id. The
/// work grows with their number times that of animals.
inline constexpr std::size_t most_valued = 2000;

/// What a candidate is worth alone, on top of all that is recorded.
struct CandidateValue {
  double bits = 0;                ///< I(its report ; all genotypes): of all, what greedy ranks by
  std::optional<AloneGain> gain;  ///< of those that were valued
};

/// A test of the plan. Gains are those given the tests before it, averaged over what these may
/// report.
struct ChosenTest {
  std::size_t candidate = 0;
  bool by_lot = false;  ///< drawn, whatever it tells, so that an audit sees unselected animals
  Estimate gain;        ///< bits
  double listing_bits = 0;
  double worth = 0;                   ///< before the price
  std::vector<ReportEffect> effects;  ///< of its reports, on top of what is recorded alone
};

/// How the tests that are not by lot were chosen.
enum class ChoiceRule : std::uint8_t { gain, gain_for_price };

struct TestPlan {
  std::vector<TestCandidate> candidates;
  std::vector<CandidateValue> values;  ///< by candidate
  std::vector<ChosenTest> chosen;      ///< those by lot first, then in the order of choice
  ChoiceRule rule = ChoiceRule::gain;
  Estimate bits;  ///< of all chosen together
  double listing_bits = 0;
  double worth = 0;
  bool worth_given = false;  ///< whether the policy tells what animals are worth
  double cost = 0;           ///< of those with a price
  std::size_t unpriced = 0;  ///< chosen ones without
  /// No other choice beside the same lot, within the same limits, tells more than this; an estimate
  /// where reports were drawn.
  double most_bits = 0;
  /// The share of the best choice's gain that the rule can't fall below, before it is known what
  /// the tests are: 1 - 1/e for a number of tests, (1 - 1/e)/2 for a budget, nothing for both at
  /// once.
  std::optional<double> guarantee;
  bool sampled = false;      ///< reports were drawn, not gone through: figures are estimates
  std::size_t left_out = 0;  ///< candidates without a price, under a budget
};

/// Greedy choice by information: each time the test that adds most bits, which is at least 1 - 1/e
/// of what the best set of so many tells (Nemhauser, Wolsey and Fisher 1978, Mathematical
/// Programming 14:265). With a budget also by bits for the price, and the better of the two is
/// taken: at least (1 - 1/e)/2 of the best (Khuller, Moss and Naor 1999, Information Processing
/// Letters 70:39; Leskovec et al. 2007, KDD, 420-429). `most_bits` is the smallest of that bound
/// and of what the gains left after each step of the choice allow (Leskovec et al. 2007,
/// section 3.2).
///
/// One test in policy.random_one_in is drawn by lot first, among animals without a result at the
/// locus that a report could tell something of; the others are chosen knowing that these are made.
/// Under a budget the lot gets that share of it. The same records in another order give the same
/// plan. `policy` must fit the model.
std::variant<TestPlan, odds::Contradiction, odds::TooLarge> next_test(const colony::Colony& colony,
                                                                      const colony::Policy& policy,
                                                                      const TestQuestion& question);

}  // namespace likelihet::planning
