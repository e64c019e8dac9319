// Animals times assays.
#include <algorithm>
#include <numeric>
#include <set>
#include <utility>

#include <likelihet/colony/counting.hpp>
#include <likelihet/planning/test_candidates.hpp>

namespace likelihet::planning {

namespace {

// The asked ones, or all, by their ids.
template <class Items>
std::vector<std::size_t> by_id(const std::vector<std::size_t>& asked, const Items& items) {
  std::vector<std::size_t> out = asked;
  if (out.empty()) {
    out.resize(items.size());
    std::iota(out.begin(), out.end(), std::size_t{0});
  }
  std::sort(out.begin(), out.end(),
            [&](std::size_t a, std::size_t b) { return items[a].id < items[b].id; });
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

}  // namespace

std::vector<TestCandidate> test_candidates(const colony::Colony& colony,
                                           const colony::Policy& policy, const TestsAsked& asked,
                                           const std::optional<colony::Date>& as_of) {
  const auto& assays = colony.model().assays();
  std::set<std::pair<std::size_t, std::size_t>> tested;  // (animal, locus)
  for (const std::size_t o : colony::counting(colony, as_of)) {
    const auto* result = std::get_if<colony::Result>(&colony.observations()[o].what);
    if (result != nullptr) tested.emplace(result->animal, assays[result->assay].locus);
  }
  std::vector<TestCandidate> out;
  const auto of_assays = by_id(asked.assays, assays);
  for (const std::size_t animal : by_id(asked.animals, colony.animals())) {
    for (const std::size_t k : of_assays) {
      const std::size_t locus = assays[k].locus;
      if (asked.locus && *asked.locus != locus) continue;
      out.push_back({{animal, k},
                     locus,
                     colony::price_of(policy, assays[k]),
                     tested.contains({animal, locus})});
    }
  }
  return out;
}

}  // namespace likelihet::planning
