// Laws of choosing samples and holdbacks, on random books: whatever the records, these must hold.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include "planning/planned.hpp"
#include "properties/dice.hpp"
#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/planning/holdbacks.hpp>
#include <likelihet/planning/information.hpp>
#include <likelihet/planning/next_test.hpp>

namespace likelihet::planning::choice_laws_test {
namespace {

using properties::Dice;

constexpr std::uint64_t books = 200;
constexpr double rounding = 1e-11;

// Worths of every genotype at every locus, of any size.
colony::Policy random_worths(Dice& dice, const colony::Model& model) {
  colony::Policy policy;
  for (const auto& locus : model.loci()) {
    colony::WorthPolicy worth;
    worth.locus = locus.id();
    worth.sold = 100 * dice.unit();
    for (std::size_t g = 0; g < locus.size(); ++g) {
      worth.kept.emplace_back(locus.key(g), 200 * dice.unit());
    }
    policy.worth.push_back(std::move(worth));
  }
  return policy;
}

struct Book {
  const colony::Colony& colony;
  const odds::ColonyOdds& odds;
  const Planned& plan;
  Dice& dice;

  [[nodiscard]] double entropy(std::size_t candidate) const {
    const TestCandidate& of = plan.candidates[candidate];
    return entropy_bits(odds.animals[of.test.animal].loci[of.locus].posterior);
  }
  [[nodiscard]] TestSet none() const { return {plan.ground, *plan.recorded, 1}; }
  // Some candidates, each once.
  [[nodiscard]] std::vector<std::size_t> some(std::size_t most) const {
    std::vector<std::size_t> all(plan.candidates.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    dice.shuffle(all);
    all.resize(std::min(most, all.size()));
    return all;
  }
  [[nodiscard]] std::size_t part(std::size_t candidate) const {
    const TestCandidate& of = plan.candidates[candidate];
    return plan.ground.part_of[of.test.animal * colony.model().loci().size() + of.locus];
  }
};

template <class Check>
void for_books(const Check& check) {
  std::size_t checked = 0;
  for (std::uint64_t seed = 1; seed <= books && !testing::Test::HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    if (drawn.model->assays().empty()) continue;
    const auto solved = odds::compute(*drawn.colony, support::only_odds());
    const auto* odds = std::get_if<odds::ColonyOdds>(&solved);
    if (odds == nullptr) continue;
    const auto policy = random_worths(dice, *drawn.model);
    const Planned plan(*drawn.colony, policy);
    check(Book{*drawn.colony, *odds, plan, dice});
    ++checked;
  }
  EXPECT_GT(checked, books / 4);
}

void add(TestSet& set, std::size_t candidate) {
  ASSERT_FALSE(set.add(candidate));
}

// No report tells more than is unknown, and of a certain animal it tells nothing.
TEST(ChoiceLaws, ATestTellsNoMoreThanIsUnknown) {
  std::size_t certain = 0;
  for_books([&](const Book& book) {
    const TestSet none = book.none();
    EXPECT_EQ(none.bits().value, 0.0);
    for (std::size_t c = 0; c < book.plan.candidates.size(); ++c) {
      EXPECT_GE(none.gain(c).value, 0.0);
      EXPECT_LE(none.gain(c).value, book.entropy(c) + rounding);
      if (book.entropy(c) > 0) continue;
      ++certain;
      EXPECT_NEAR(none.gain(c).value, 0.0, rounding);
    }
  });
  EXPECT_GT(certain, 20u);
}

// Monotone and submodular: a set tells no less for one more test, and every other test adds no more
// to a larger set than to a smaller one (Krause and Guestrin 2005).
TEST(ChoiceLaws, MoreTestsTellMoreAndEachAddsLess) {
  for_books([](const Book& book) {
    TestSet set = book.none();
    for (const std::size_t next : book.some(3)) {
      const TestSet before = set;
      add(set, next);
      EXPECT_NEAR(set.bits().value, before.bits().value + before.gain(next).value, rounding);
      EXPECT_GE(set.bits().value, before.bits().value - rounding);
      EXPECT_GE(set.worth(), before.worth() - 1e-9) << "money, before the price";
      for (std::size_t c = 0; c < book.plan.candidates.size(); ++c) {
        EXPECT_GE(set.gain(c).value, -rounding);
        EXPECT_LE(set.gain(c).value, before.gain(c).value + rounding);
      }
    }
    EXPECT_GE(set.worth(), -1e-9);
    EXPECT_GE(set.listing_bits(), -rounding);
  });
}

// What a set tells is a matter of the set.
TEST(ChoiceLaws, TheOrderOfChoiceDoesNotMatter) {
  for_books([](const Book& book) {
    std::vector<std::size_t> chosen = book.some(3);
    TestSet forth = book.none(), back = book.none();
    for (const std::size_t c : chosen) add(forth, c);
    std::reverse(chosen.begin(), chosen.end());
    for (const std::size_t c : chosen) add(back, c);
    EXPECT_NEAR(forth.bits().value, back.bits().value, rounding);
    EXPECT_NEAR(forth.listing_bits(), back.listing_bits(), rounding);
    EXPECT_NEAR(forth.worth(), back.worth(), 1e-9);
  });
}

// Gains over parts that nothing joins add up.
TEST(ChoiceLaws, SeparatePartsAddUp) {
  std::size_t apart = 0;
  for_books([&](const Book& book) {
    const TestSet none = book.none();
    const auto two = book.some(2);
    if (two.size() < 2 || book.part(two[0]) == book.part(two[1])) return;
    ++apart;
    TestSet both = none, first = none, second = none;
    for (const std::size_t c : two) add(both, c);
    add(first, two[0]);
    add(second, two[1]);
    EXPECT_NEAR(both.bits().value, none.gain(two[0]).value + none.gain(two[1]).value, rounding);
    EXPECT_NEAR(both.worth(), first.worth() + second.worth(), 1e-9);
    EXPECT_NEAR(both.listing_bits(), first.listing_bits() + second.listing_bits(), rounding);
  });
  EXPECT_GT(apart, 5u);
}

// A budget or a number that is raised never tells less; what a plan costs stays within it.
TEST(ChoiceLaws, MoreTestsOfAPlanTellNoLess) {
  for_books([](const Book& book) {
    colony::Policy policy;
    policy.random_one_in = 0;
    double before = 0;
    for (std::size_t most = 1; most <= 3; ++most) {
      TestQuestion question;
      question.tests = most;
      const auto plan = std::get<TestPlan>(next_test(book.colony, policy, question));
      EXPECT_LE(plan.chosen.size(), most);
      EXPECT_GE(plan.bits.value, before - rounding);
      EXPECT_LE(plan.bits.value, plan.most_bits + rounding);
      before = plan.bits.value;
    }
  });
}

// Keeping one more never lowers the chance, and never adds more than the step before it where the
// sets that are found are the best; the figures of one size fit together.
TEST(ChoiceLaws, MoreHoldbacksNeverLowerTheChance) {
  std::size_t clutches = 0;
  for (std::uint64_t seed = 1; seed <= books && !testing::Test::HasFailure(); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    const auto& colony = *drawn.colony;
    if (colony.clutches().empty()) continue;
    HoldbackQuestion question;
    question.clutch = dice.roll(colony.clutches().size());
    question.keep = 10;
    const std::size_t locus = dice.roll(colony.model().loci().size());
    question.goal =
        std::get<KeepGoal>(keep_goal_named(colony.model().loci()[locus], locus, "carries"));
    const auto made = holdbacks(colony, question);
    const auto* out = std::get_if<Holdbacks>(&made);
    if (out == nullptr || out->sizes.empty()) continue;
    ++clutches;
    double before = 0;
    for (const Kept& kept : out->sizes) {
      EXPECT_GE(kept.chance, before - rounding);
      EXPECT_LE(kept.chance, std::min(1.0, kept.expected) + rounding);
      EXPECT_GE(kept.chance, kept.expected / static_cast<double>(kept.animals.size()) - rounding);
      before = kept.chance;
    }
    const Kept& largest = out->sizes.back();
    double sum = 0, mean = 0;
    for (std::size_t k = 0; k < out->counts.size(); ++k) {
      sum += out->counts[k];
      mean += static_cast<double>(k) * out->counts[k];
    }
    EXPECT_NEAR(sum, 1.0, rounding);
    EXPECT_NEAR(mean, largest.expected, rounding);
    EXPECT_NEAR(1 - out->counts[0], largest.chance, rounding);
    EXPECT_NEAR(out->sizes.front().chance, out->hatchlings.front().chance, rounding);
  }
  EXPECT_GT(clutches, books / 8);
}

}  // namespace
}  // namespace likelihet::planning::choice_laws_test
