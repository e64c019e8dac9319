// One odds ratio for all groups, against one for each.
#include <cmath>
#include <cstdint>
#include <vector>

#include <boost/math/tools/minima.hpp>

#include <likelihet/audit/homogeneity.hpp>
#include <likelihet/base/log_odds.hpp>

namespace likelihet::audit {

namespace {

constexpr double widest_logit = 12;
constexpr int minimum_bits = 24;

// Of a group at this share among others and this log odds ratio.
double group_log_likelihood(const LevelData& group, double others, double log_ratio) {
  const double q0 = base::logistic(others);
  const double q1 = base::logistic(others + log_ratio);
  return log_likelihood(group, {{1 - q0, q0}, {1 - q1, q1}});
}

// The best over the share among others.
double profile(const LevelData& group, double log_ratio) {
  std::uintmax_t steps = 60;
  const auto found = boost::math::tools::brent_find_minima(
      [&](double others) { return -group_log_likelihood(group, others, log_ratio); }, -widest_logit,
      widest_logit, minimum_bits, steps);
  return -found.second;
}

double together(std::span<const LevelData> groups, double log_ratio) {
  double sum = 0;
  for (const LevelData& group : groups) sum += profile(group, log_ratio);
  return sum;
}

}  // namespace

double homogeneity_p(std::span<const LevelData> groups) {
  if (groups.size() < 2) return 1;
  std::vector<LevelData> smaller;
  smaller.reserve(groups.size());
  double apart = 0;
  for (const LevelData& group : groups) {
    smaller.push_back(collapsed(group));
    apart += fit_levels(group).log_likelihood;
  }
  std::uintmax_t steps = 60;
  const auto found = boost::math::tools::brent_find_minima(
      [&](double log_ratio) { return -together(smaller, log_ratio); }, -widest_logit, widest_logit,
      minimum_bits, steps);
  return likelihood_ratio_p(apart, -found.second, static_cast<double>(groups.size() - 1));
}

}  // namespace likelihet::audit
