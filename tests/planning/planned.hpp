// The ground of a plan, laid for tests.
#pragma once

#include <cstddef>
#include <memory>
#include <stdexcept>
#include <variant>
#include <vector>

#include <gtest/gtest.h>
#include <support/supposed_told.hpp>

#include <likelihet/planning/greedy.hpp>

namespace likelihet::planning {

struct Planned {
  std::vector<TestCandidate> candidates;
  Worth worth;
  TestGround ground;
  std::unique_ptr<SupposedBook> recorded;

  explicit Planned(const colony::Colony& colony, const colony::Policy& policy = {})
      : candidates(test_candidates(colony, policy, {}, std::nullopt)),
        worth(policy, colony.model()) {
    ground.colony = &colony;
    ground.candidates = &candidates;
    ground.worth = &worth;
    odds::Scenario all = odds::scenario(colony, std::nullopt);
    for (const TestCandidate& of : candidates) all.supposed.push_back({of.test.animal, of.locus});
    for (const auto& assay : colony.model().assays()) {
      ground.classes.push_back(report_classes(assay));
    }
    for (std::size_t l = 0; l < colony.model().loci().size(); ++l) ground.loci.push_back(l);
    const auto net = odds::colony_network(all, odds::believed(colony.model()));
    ground.part_of = odds::separate_parts(net, colony.animals().size(), ground.loci.size());
    auto made = SupposedBook::make(colony, {}, {}, ground.loci);
    recorded = std::get<std::unique_ptr<SupposedBook>>(std::move(made));
  }
  Planned(const Planned&) = delete;
  Planned& operator=(const Planned&) = delete;

  [[nodiscard]] std::size_t position(std::size_t animal, std::size_t assay) const {
    for (std::size_t c = 0; c < candidates.size(); ++c) {
      if (candidates[c].test == Test{animal, assay}) return c;
    }
    throw std::out_of_range("no such candidate");
  }
  [[nodiscard]] const TestCandidate& candidate(std::size_t animal, std::size_t assay) const {
    return candidates[position(animal, assay)];
  }
};

}  // namespace likelihet::planning
