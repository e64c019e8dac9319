// What supposed evidence tells, all of it, for comparing.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <utility>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/odds/supposed.hpp>

namespace likelihet::support {

inline constexpr std::size_t plenty = std::size_t{1} << 28U;

// Each set's log evidence and everyone's odds, [set][animal x locus].
struct Told {
  std::vector<double> log_evidence;
  std::vector<std::vector<std::vector<double>>> odds;
};

inline std::unique_ptr<odds::Prepared> prepared(const colony::Colony& colony,
                                                const std::vector<odds::GenotypePlace>& places) {
  odds::Scenario all = odds::scenario(colony, std::nullopt);
  all.supposed = places;
  auto made = odds::prepare(all, odds::believed(colony.model()), plenty);
  return std::get<std::unique_ptr<odds::Prepared>>(std::move(made));
}

inline Told told(const colony::Colony& colony, const odds::Prepared& ready,
                 const std::vector<odds::SupposedSet>& sets, std::size_t memory = plenty) {
  const std::size_t loci = colony.model().loci().size();
  const odds::DrawTargets targets(ready, colony.animals().size(), loci);
  std::vector<std::vector<std::vector<double>>> by_target(
      sets.size(), std::vector<std::vector<double>>(targets.list.size()));
  Told out;
  odds::run_supposed(
      ready, colony.model(), targets.list, sets, memory,
      [&](const odds::DrawStep& step) {
        for (std::size_t k = 0; k < step.count; ++k)
          out.log_evidence.push_back(step.log_evidence[k]);
      },
      [&](std::size_t target, const odds::DrawStep& step,
          std::span<const odds::DrawLanes> posterior) {
        for (std::size_t k = 0; k < step.count; ++k) {
          for (const odds::DrawLanes& p : posterior) {
            by_target[step.first + k][target].push_back(p.lane[k]);
          }
        }
      });
  for (std::size_t s = 0; s < sets.size(); ++s) {
    auto& of = out.odds.emplace_back();
    for (std::size_t target : targets.of) of.push_back(by_target[s][target]);
  }
  return out;
}

inline void expect_close(const std::vector<double>& found, const std::vector<double>& expected) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t g = 0; g < found.size(); ++g) EXPECT_NEAR(found[g], expected[g], 1e-12);
}

}  // namespace likelihet::support
