// The curve, and pairs within clusters.
#include <algorithm>
#include <map>

#include <likelihet/audit/case_checks.hpp>
#include <likelihet/audit/roc.hpp>

namespace likelihet::audit {

namespace {

bool so(const Case& one) {
  return one.outcome >= 0.5;
}

struct Pairs {
  double pairs = 0;
  double won = 0;  // ties half
};

// Ascending order of forecast.
Pairs pairs_of(const std::vector<Case>& sorted) {
  Pairs out;
  double others_below = 0;
  double positives = 0;
  for (std::size_t first = 0; first < sorted.size();) {
    double tied_so = 0;
    double tied_other = 0;
    std::size_t end = first;
    for (; end < sorted.size() && sorted[end].probability == sorted[first].probability; ++end) {
      (so(sorted[end]) ? tied_so : tied_other) += 1;
    }
    out.won += tied_so * (others_below + tied_other / 2);
    others_below += tied_other;
    positives += tied_so;
    first = end;
  }
  out.pairs = positives * others_below;
  return out;
}

}  // namespace

std::optional<WithinAuc> auc_within(std::span<const Case> cases) {
  check(cases);
  std::map<std::size_t, std::vector<Case>> clusters;
  for (const Case& one : cases) clusters[one.cluster].push_back(one);
  WithinAuc out;
  double won = 0;
  for (auto& [cluster, members] : clusters) {
    std::sort(members.begin(), members.end(),
              [](const Case& a, const Case& b) { return a.probability < b.probability; });
    const Pairs pairs = pairs_of(members);
    won += pairs.won;
    out.pairs += pairs.pairs;
    out.clusters += pairs.pairs > 0 ? 1 : 0;
  }
  if (out.clusters == 0) return std::nullopt;
  out.value = won / out.pairs;
  return out;
}

std::vector<RocPoint> roc_points(std::span<const Case> cases) {
  check(cases);
  std::vector<Case> sorted(cases.begin(), cases.end());
  std::sort(sorted.begin(), sorted.end(),
            [](const Case& a, const Case& b) { return a.probability > b.probability; });
  const auto all = static_cast<double>(std::count_if(sorted.begin(), sorted.end(), so));
  const double others = static_cast<double>(sorted.size()) - all;
  if (!(all > 0 && others > 0)) return {};
  std::vector<RocPoint> out{{std::nullopt, 0, 0}};
  double positive = 0;
  double false_positive = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    (so(sorted[i]) ? positive : false_positive) += 1;
    if (i + 1 < sorted.size() && sorted[i + 1].probability == sorted[i].probability) continue;
    out.push_back({sorted[i].probability, false_positive / others, positive / all});
  }
  return out;
}

}  // namespace likelihet::audit
