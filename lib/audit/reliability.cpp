// Groups by rank.
#include <algorithm>
#include <stdexcept>

#include <likelihet/audit/case_checks.hpp>
#include <likelihet/audit/proportion.hpp>
#include <likelihet/audit/reliability.hpp>

namespace likelihet::audit {

namespace {

ReliabilityGroup group_of(std::span<const Case> cases) {
  ReliabilityGroup out;
  double events = 0;
  for (const Case& one : cases) {
    out.probability += one.probability;
    events += one.outcome;
  }
  out.weight = static_cast<double>(cases.size());
  events = std::min(events, out.weight);
  out.probability /= out.weight;
  out.observed = events / out.weight;
  out.interval = wilson(events, out.weight);
  return out;
}

}  // namespace

std::vector<ReliabilityGroup> reliability_groups(std::span<const Case> cases, std::size_t groups,
                                                 std::size_t at_least) {
  if (groups == 0 || at_least == 0) {
    throw std::invalid_argument("groups take a number of them and a number in each");
  }
  check(cases);
  std::vector<Case> sorted(cases.begin(), cases.end());
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Case& a, const Case& b) { return a.probability < b.probability; });
  const std::size_t n = sorted.size();
  const std::size_t target = std::max(at_least, (n + groups - 1) / groups);
  std::vector<std::size_t> ends;
  for (std::size_t end = 0; end < n;) {
    end = std::min(n, end + target);
    while (end < n && sorted[end].probability == sorted[end - 1].probability) ++end;
    ends.push_back(end);
  }
  // What is left at the end joins the group before it.
  if (ends.size() > 1 && n - ends[ends.size() - 2] < at_least) ends.erase(ends.end() - 2);
  std::vector<ReliabilityGroup> out;
  std::size_t first = 0;
  for (std::size_t end : ends) {
    out.push_back(group_of(std::span(sorted).subspan(first, end - first)));
    first = end;
  }
  return out;
}

MurphyDecomposition murphy_decomposition(std::span<const ReliabilityGroup> groups) {
  double weight = 0;
  double events = 0;
  for (const ReliabilityGroup& group : groups) {
    weight += group.weight;
    events += group.weight * group.observed;
  }
  if (!(weight > 0)) throw std::invalid_argument("there are no groups to decompose");
  const double mean = events / weight;
  MurphyDecomposition out;
  out.uncertainty = mean * (1 - mean);
  for (const ReliabilityGroup& group : groups) {
    const double off = group.probability - group.observed;
    const double apart = group.observed - mean;
    out.reliability += group.weight / weight * off * off;
    out.resolution += group.weight / weight * apart * apart;
  }
  return out;
}

}  // namespace likelihet::audit
