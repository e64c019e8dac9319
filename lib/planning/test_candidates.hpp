// Which samples could be sent.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/policy.hpp>

namespace likelihet::planning {

/// One sample of one animal to one assay.
struct Test {
  std::size_t animal = 0;
  std::size_t assay = 0;
  friend bool operator==(const Test&, const Test&) = default;
};

/// A test that could be made, whatever it would tell.
struct TestCandidate {
  Test test;
  std::size_t locus = 0;        ///< of the assay
  std::optional<double> price;  ///< colony::price_of()
  bool tested = false;          ///< a result at this locus counts already; another is independent
};

/// Positions; empty lists stand for all.
struct TestsAsked {
  std::vector<std::size_t> animals;
  std::vector<std::size_t> assays;
  std::optional<std::size_t> locus;
};

/// Every asked animal with every asked assay (of the locus, where one is asked), by the ids of
/// animals, then of assays: the same whatever the order of the records. The book does not know
/// which animals are still at hand.
std::vector<TestCandidate> test_candidates(const colony::Colony& colony,
                                           const colony::Policy& policy, const TestsAsked& asked,
                                           const std::optional<colony::Date>& as_of);

}  // namespace likelihet::planning
