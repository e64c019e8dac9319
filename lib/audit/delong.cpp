// DeLong's variance by ranks.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <stdexcept>

#include <boost/math/tools/roots.hpp>

#include <likelihet/audit/case_checks.hpp>
#include <likelihet/audit/distributions.hpp>
#include <likelihet/audit/roc.hpp>

namespace likelihet::audit {

namespace {

// Average ranks, from 1, in the order of `values`.
std::vector<double> midranks(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  std::vector<double> out(values.size());
  for (std::size_t first = 0; first < order.size();) {
    std::size_t end = first;
    while (end < order.size() && values[order[end]] == values[order[first]]) ++end;
    for (std::size_t i = first; i < end; ++i) {
      out[order[i]] = static_cast<double>(first + 1 + end) / 2;
    }
    first = end;
  }
  return out;
}

// Of each case the share of the other kind that it is on the right side of: DeLong's structural
// components, from ranks (Sun and Xu 2014).
struct Placements {
  std::vector<double> positive, negative;
  double auc = 0;

  explicit Placements(std::span<const Case> cases) {
    std::vector<double> so, other;
    for (const Case& one : cases) (one.outcome >= 0.5 ? so : other).push_back(one.probability);
    if (so.empty() || other.empty()) return;
    std::vector<double> all = so;
    all.insert(all.end(), other.begin(), other.end());
    const auto rank = midranks(all);
    const auto rank_so = midranks(so);
    const auto rank_other = midranks(other);
    const auto m = static_cast<double>(so.size());
    const auto n = static_cast<double>(other.size());
    double won = 0;  // pairs, exactly: ranks are whole or halves
    for (std::size_t i = 0; i < so.size(); ++i) {
      positive.push_back((rank[i] - rank_so[i]) / n);
      won += rank[i] - rank_so[i];
    }
    for (std::size_t j = 0; j < other.size(); ++j) {
      negative.push_back(1 - (rank[so.size() + j] - rank_other[j]) / m);
    }
    auc = std::clamp(won / (m * n), 0.0, 1.0);
  }
};

// Of the mean of `values`; 0 of fewer than two, and where all are equal.
double variance_of_mean(const std::vector<double>& values) {
  if (values.size() < 2) return 0;
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  if (*most - *least < 1e-12) return 0;  // not a rounding of it
  const auto n = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / n;
  double sum = 0;
  for (double value : values) sum += (value - mean) * (value - mean);
  return sum / (n * (n - 1));
}

// Newcombe's (2006) method 5: the lower end.
double score_limit(double auc, double positives, double negatives) {
  if (!(auc > 0)) return 0;
  const double z = normal_width(0.95);
  const double mean = (positives + negatives) / 2;
  const auto error = [&](double t) {
    const double spread = 1 + (mean - 1) * ((1 - t) / (2 - t) + t / (1 + t));
    return std::sqrt(t * (1 - t) * spread / (positives * negatives));
  };
  // At the value itself the error is at least that far; at 1 it vanishes, but not just below.
  const double top = std::min(auc, 1 - 1e-12);
  std::uintmax_t steps = 200;
  const auto bracket =
      boost::math::tools::toms748_solve([&](double t) { return auc - t - z * error(t); }, 0.0, top,
                                        boost::math::tools::eps_tolerance<double>(), steps);
  return (bracket.first + bracket.second) / 2;
}

std::vector<double> difference(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> out;
  for (std::size_t i = 0; i < a.size(); ++i) out.push_back(a[i] - b[i]);
  return out;
}

}  // namespace

std::optional<Auc> auc(std::span<const Case> cases) {
  check(cases);
  const Placements of(cases);
  if (of.positive.empty()) return std::nullopt;
  const double variance = variance_of_mean(of.positive) + variance_of_mean(of.negative);
  Auc out;
  out.value = of.auc;
  out.standard_error = std::sqrt(variance);
  const double half = normal_width(0.95) * out.standard_error;
  out.interval = {std::max(0.0, out.value - half), std::min(1.0, out.value + half)};
  if (!(variance > 0) || of.positive.size() < 2 || of.negative.size() < 2) {
    const auto m = static_cast<double>(of.positive.size());
    const auto n = static_cast<double>(of.negative.size());
    out.interval = {score_limit(of.auc, m, n), 1 - score_limit(1 - of.auc, m, n)};
  }
  return out;
}

std::optional<AucDifference> auc_difference(std::span<const Case> first,
                                            std::span<const Case> second) {
  check(first);
  check(second);
  const auto alike = [](const Case& a, const Case& b) {
    return (a.outcome >= 0.5) == (b.outcome >= 0.5);
  };
  if (!std::equal(first.begin(), first.end(), second.begin(), second.end(), alike)) {
    throw std::invalid_argument("paired forecasts are of the same cases");
  }
  const Placements one(first);
  const Placements two(second);
  if (one.positive.size() < 2 || one.negative.size() < 2) return std::nullopt;
  const double variance = variance_of_mean(difference(one.positive, two.positive)) +
                          variance_of_mean(difference(one.negative, two.negative));
  AucDifference out;
  out.value = one.auc - two.auc;
  out.standard_error = std::sqrt(variance);
  const double half = normal_width(0.95) * out.standard_error;
  out.interval = {std::max(-1.0, out.value - half), std::min(1.0, out.value + half)};
  if (variance > 0) {
    out.z = out.value / out.standard_error;
    out.p = two_sided_p(*out.z);
  } else if (std::abs(out.value) < 1e-12) {
    out.z = 0;
    out.p = 1;
  }
  return out;
}

}  // namespace likelihet::audit
