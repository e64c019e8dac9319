// Greedy choice against every set that could be chosen, by enumeration of every report.
#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "planning/by_enumeration.hpp"
#include "properties/dice.hpp"
#include "properties/enumeration.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/next_test.hpp>

namespace likelihet::planning::bounds_test {
namespace {

// A random book with two assays of one locus, and prices.
struct Drawn {
  properties::RandomColony book;
  colony::Policy policy;
};

Drawn drawn(properties::Dice& dice) {
  Drawn out;
  out.book = properties::random_colony(dice, [&](colony::ModelDescription& model) {
    model.assays.clear();
    const auto& locus = model.loci[0];
    const auto genotypes = genetics::Locus::genotypes_of(locus.alleles.size(), locus.on);
    for (const char* id : {"fine", "rough"}) {
      colony::AssayDescription assay;
      assay.id = id;
      assay.locus = locus.id;
      assay.reports = {"no", "yes"};
      for (const auto& genotype : genotypes) {
        const double yes = dice.unit();
        assay.rows.push_back(
            {genetics::Locus::key_of(genotype, locus.alleles, locus.on), {1 - yes, yes}});
      }
      model.assays.push_back(std::move(assay));
    }
  });
  out.policy.random_one_in = 0;
  for (const auto& assay : out.book.model->assays()) {
    out.policy.prices.push_back({assay.id, 1.0 + static_cast<double>(dice.roll(4))});
  }
  return out;
}

// Every set of candidates that a limit allows.
void each_set(const TestPlan& plan, std::size_t most, double budget,
              const std::function<void(const std::vector<planning::Test>&)>& visit) {
  for (std::size_t bits = 1; bits < (std::size_t{1} << plan.candidates.size()); ++bits) {
    std::vector<planning::Test> set;
    double cost = 0;
    for (std::size_t c = 0; c < plan.candidates.size(); ++c) {
      if (((bits >> c) & 1U) == 0) continue;
      set.push_back(plan.candidates[c].test);
      cost += *plan.candidates[c].price;
    }
    if (set.size() <= most && cost <= budget) visit(set);
  }
}

struct Bounds {
  std::size_t compared = 0;
  double worst = 1;  // the least share of the best that greedy choice reached
};

// At most `most` tests for at most `budget` of money, on random books.
Bounds try_books(std::size_t books, std::optional<std::size_t> most, std::optional<double> budget) {
  Bounds out;
  for (std::uint64_t seed = 1; out.compared < books; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    properties::Dice dice(seed);
    const Drawn of = drawn(dice);
    if (of.book.colony->observations().size() > 40) continue;
    if (properties::enumeration_size(*of.book.colony) > 100) continue;
    ByEnumeration slow(of.book.model, of.book.records);
    if (!slow.possible()) continue;
    TestQuestion question;
    question.tests = most;
    question.budget = budget;
    for (std::size_t a = 0; a < of.book.colony->animals().size() && a < 3; ++a) {
      question.asked.animals.push_back(a);
    }
    const auto plan = std::get<TestPlan>(next_test(*of.book.colony, of.policy, question));
    if (plan.chosen.empty()) continue;
    ++out.compared;
    double best = 0;
    each_set(plan, most.value_or(99), budget.value_or(1e9),
             [&](const auto& set) { best = std::max(best, slow.information(set)); });
    EXPECT_LE(best, plan.most_bits + 1e-8);
    EXPECT_LE(plan.bits.value, best + 1e-10);
    EXPECT_GE(plan.bits.value, plan.guarantee.value_or(0) * best - 1e-8);
    EXPECT_LE(plan.cost, budget.value_or(1e9));
    out.worst = std::min(out.worst, plan.bits.value / best);
  }
  return out;
}

TEST(Bounds, HoldForANumberOfTests) {
  const Bounds out = try_books(40, 3, std::nullopt);
  testing::Test::RecordProperty("worst_share", std::to_string(out.worst));
  EXPECT_GT(out.worst, 0.9) << "far better than 1 - 1/e on small books";
}

TEST(Bounds, HoldForABudget) {
  const Bounds out = try_books(40, std::nullopt, 5);
  testing::Test::RecordProperty("worst_share", std::to_string(out.worst));
  EXPECT_GT(out.worst, 0.6);
}

TEST(Bounds, HoldForBothAtOnce) {
  try_books(20, 2, 5);
}

}  // namespace
}  // namespace likelihet::planning::bounds_test
