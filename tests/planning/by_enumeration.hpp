// The slow, obvious answers: plans out of odds that enumeration gives for records with supposed
// results added to them.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/planning/keep_goal.hpp>
#include <likelihet/planning/test_candidates.hpp>

namespace likelihet::planning {

/// Reports of tests as recorded results: every report apart, nothing put into classes.
class ByEnumeration {
 public:
  ByEnumeration(std::shared_ptr<const colony::Model> model, colony::Records records);

  /// I(reports of the tests ; all genotypes), bits: H(reports) - Σ H(report | genotype).
  double information(const std::vector<Test>& tests);
  /// Expected fall of Σ over animals of the entropy at the locus, by the tests together.
  double listing_gain(const std::vector<Test>& tests, std::size_t locus);
  /// E of any function of everyone's odds, after the reports of the tests less before; a function
  /// gets an animal's odds at the locus.
  double expected_rise(const std::vector<Test>& tests, std::size_t locus,
                       const std::function<double(const std::vector<double>&)>& of);
  /// P(none of the animals meets the goal), from P(that these results are reported) of an assay
  /// that tells just this.
  static double none(const std::shared_ptr<const colony::Model>& model,
                     const colony::Records& records, const KeepGoal& goal,
                     const std::vector<std::size_t>& animals);
  /// Whether the records can all be true.
  [[nodiscard]] bool possible() const { return possible_; }
  [[nodiscard]] const std::vector<std::vector<std::vector<double>>>& odds() const { return odds_; }

 private:
  using Odds = std::vector<std::vector<std::vector<double>>>;  // [animal][locus]
  // Every combination of reports with its probability and everyone's odds.
  void each(const std::vector<Test>& tests,
            const std::function<void(double probability, const Odds&)>& visit);

  std::shared_ptr<const colony::Model> model_;
  colony::Records records_;
  bool possible_ = false;
  double log_evidence_ = 0;
  Odds odds_;
};

}  // namespace likelihet::planning
