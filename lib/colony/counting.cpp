// Resolving withdrawals, and withdrawals of withdrawals, as of a day.
#include <algorithm>

#include <likelihet/colony/counting.hpp>

namespace likelihet::colony {

namespace {

const Withdrawal* withdrawal(const Observation& observation) {
  return std::get_if<Withdrawal>(&observation.what);
}

// For each observation, whether it is known by the day and not withdrawn. An observation is settled
// once all withdrawals of it are; without circles, starting from those that nothing withdraws
// reaches every one, and a chain of any length needs no recursion. Order of settling: Kahn 1962,
// Communications of the ACM 5:558, topological sorting.
std::vector<bool> standing(const Colony& colony, const std::optional<Date>& as_of) {
  const auto& observations = colony.observations();
  std::vector<std::size_t> unsettled(observations.size(), 0);
  for (const Observation& observation : observations) {
    if (const auto* what = withdrawal(observation)) ++unsettled[what->of];
  }
  std::vector<std::size_t> ready;
  std::vector<bool> stands(observations.size());
  for (std::size_t i = 0; i < observations.size(); ++i) {
    stands[i] = !as_of || !observations[i].known || *observations[i].known <= *as_of;
    if (unsettled[i] == 0) ready.push_back(i);
  }
  while (!ready.empty()) {
    const std::size_t here = ready.back();
    ready.pop_back();
    const auto* what = withdrawal(observations[here]);
    if (what == nullptr) continue;
    if (stands[here]) stands[what->of] = false;
    if (--unsettled[what->of] == 0) ready.push_back(what->of);
  }
  return stands;
}

}  // namespace

std::vector<std::size_t> counting(const Colony& colony, const std::optional<Date>& as_of) {
  const std::vector<bool> stands = standing(colony, as_of);
  std::vector<std::size_t> positions;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    if (stands[i] && withdrawal(colony.observations()[i]) == nullptr) positions.push_back(i);
  }
  return positions;
}

std::vector<Date> days_of_change(const Colony& colony) {
  std::vector<Date> days;
  for (const Observation& observation : colony.observations()) {
    if (observation.known) days.push_back(*observation.known);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

}  // namespace likelihet::colony
