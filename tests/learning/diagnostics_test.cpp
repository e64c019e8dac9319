// Convergence diagnostics against the R package posterior.
//
// Reference: tests/reference/diagnostics.csv, written by diagnostics.R beside it with the package's
// rhat(), ess_bulk() and ess_tail() (Vehtari et al. 2021, Bayesian Analysis 16:667).
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/learning/diagnostics.hpp>

namespace likelihet::learning::diagnostics_test {
namespace {

using Chains = std::vector<std::vector<double>>;

struct Case {
  std::size_t draws = 0, chains = 0;
  double carry = 0, shift = 0, scale = 0, r_hat = 0, bulk = 0, tail = 0;
};

std::vector<Case> cases() {
  std::ifstream file(LIKELIHET_SOURCE_DIR "/tests/reference/diagnostics.csv");
  std::vector<Case> out;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    for (char& letter : line) letter = letter == ',' ? ' ' : letter;
    std::istringstream cells(line);
    Case one;
    cells >> one.draws >> one.chains >> one.carry >> one.shift >> one.scale >> one.r_hat >>
        one.bulk >> one.tail;
    out.push_back(one);
  }
  return out;
}

// The same numbers as the script makes: Park and Miller's (1988) minimal standard generator.
Chains chains_of(const Case& of) {
  Chains out;
  for (std::size_t c = 1; c <= of.chains; ++c) {
    std::uint64_t state = 1000 + 77 * c;
    auto& chain = out.emplace_back();
    double last = 0;
    for (std::size_t i = 0; i < of.draws; ++i) {
      state = 16807 * state % 2147483647;
      last = of.carry * last + static_cast<double>(state) / 2147483647.0 - 0.5;
      chain.push_back(c == of.chains ? last * of.scale + of.shift : last);
    }
  }
  return out;
}

TEST(Diagnostics, AgreeWithThePublishedPackage) {
  const auto all = cases();
  ASSERT_EQ(all.size(), 7U);
  for (const Case& of : all) {
    const auto chains = chains_of(of);
    const Convergence found = convergence(chains);
    SCOPED_TRACE(std::to_string(of.draws) + " draws, carry " + std::to_string(of.carry));
    EXPECT_NEAR(found.r_hat, of.r_hat, 1e-9);
    EXPECT_NEAR(found.bulk, of.bulk, 1e-6 * of.bulk);
    EXPECT_NEAR(found.tail, of.tail, 1e-6 * of.tail);
  }
}

// Worst case: a parameter that never moves is settled; one that stands still in two places is not.
TEST(Diagnostics, StillChains) {
  const Chains same(4, std::vector<double>(100, 0.25));
  EXPECT_EQ(convergence(same).r_hat, 1);
  EXPECT_EQ(convergence(same).bulk, 400);
  EXPECT_EQ(convergence(same).tail, 400);
  Chains apart = same;
  apart[3].assign(100, 0.5);
  EXPECT_TRUE(std::isinf(convergence(apart).r_hat));
}

// Ranks make it free of any monotone change of scale, up to infinite variance.
TEST(Diagnostics, DoNotChangeWithTheScale) {
  Chains chains = chains_of(cases()[1]);
  const Convergence before = convergence(chains);
  for (auto& chain : chains) {
    for (double& value : chain) value = std::exp(50 * value);
  }
  EXPECT_NEAR(convergence(chains).bulk, before.bulk, 1e-9);
}

TEST(Diagnostics, RefuseWhatTheyCannotJudge) {
  EXPECT_THROW(convergence(Chains{}), std::invalid_argument);
  EXPECT_THROW(convergence(Chains(2, std::vector<double>(3, 1.0))), std::invalid_argument);
  EXPECT_THROW(convergence(Chains{std::vector<double>(10), std::vector<double>(11)}),
               std::invalid_argument);
}

}  // namespace
}  // namespace likelihet::learning::diagnostics_test
