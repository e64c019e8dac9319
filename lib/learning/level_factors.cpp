// Ratios of rows, draw by draw, and belief in the form of a result.
#include <algorithm>
#include <cmath>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>

#include <likelihet/learning/level_factors.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::learning {

namespace {

double factor(const odds::Tables& tables, const LevelFactor& of, double weight) {
  const auto& rows = tables.rows[of.marker][of.table];
  const double here = rows[of.row][of.level];
  const double elsewhere = rows.back()[of.level];
  if (here == elsewhere) return 1;  // a level that neither knows as well
  const double ratio = here / elsewhere;
  return weight == 1 ? ratio : std::pow(ratio, weight);
}

// Both parameters of one entry's Beta distribution.
std::pair<double, double> beta_of(const Counts& prior, const Parameter& of) {
  if (of.kind == Parameter::Kind::scorer) {
    return {prior.scorers[of.of].right, prior.scorers[of.of].wrong};
  }
  const auto& entries = of.kind == Parameter::Kind::row ? prior.rows[of.of][of.table][of.row]
                                                        : prior.origins[of.of][of.row];
  double whole = 0;
  for (double count : entries) whole += count;
  return {entries[of.entry], whole - entries[of.entry]};
}

}  // namespace

std::vector<LevelFactor> level_factors(const colony::Model& model,
                                       const std::vector<odds::Tables>& draws) {
  const odds::Tables believed = odds::believed(model);
  std::vector<LevelFactor> out;
  for (std::size_t m = 0; m < believed.rows.size(); ++m) {
    const double weight = model.markers()[m].weight;
    for (std::size_t t = 0; t < believed.rows[m].size(); ++t) {
      for (std::size_t r = 0; r + 1 < believed.rows[m][t].size(); ++r) {
        for (std::size_t k = 0; k < believed.rows[m][t][r].size(); ++k) {
          LevelFactor of{m, t, r, k};
          of.believed = of.median = of.low = of.high = factor(believed, of, weight);
          std::vector<double> values;
          values.reserve(draws.size());
          for (const odds::Tables& draw : draws) values.push_back(factor(draw, of, weight));
          std::sort(values.begin(), values.end());
          if (!values.empty()) {
            of.low = odds::quantile_of_sorted(values, 0.025);
            of.median = odds::quantile_of_sorted(values, 0.5);
            of.high = odds::quantile_of_sorted(values, 0.975);
          }
          out.push_back(of);
        }
      }
    }
  }
  return out;
}

Learned belief_alone(const colony::Model& model) {
  const Counts prior = prior_counts(model);
  const auto belief = flat(odds::believed(model));
  Learned out;
  const auto all = parameters(model);
  for (std::size_t p = 0; p < all.size(); ++p) {
    Summary of{all[p], belief[p], belief[p], belief[p], belief[p], belief[p], {}};
    if (all[p].open && all[p].kind == Parameter::Kind::loading) {
      const boost::math::normal_distribution<> normal(0, model.together()[all[p].of].spread);
      // Half-normal: half of each tail of the normal that is folded.
      of.low = boost::math::quantile(normal, 0.5125);
      of.high = boost::math::quantile(normal, 0.9875);
    } else if (all[p].open) {
      const auto [a, b] = beta_of(prior, all[p]);
      const boost::math::beta_distribution<> beta(a, b);
      of.low = boost::math::quantile(beta, 0.025);
      of.high = boost::math::quantile(beta, 0.975);
    }
    out.summaries.push_back(of);
  }
  for (const auto& marker : prior.rows) {
    auto& of_marker = out.animals.emplace_back();
    for (const auto& table : marker) of_marker.emplace_back(table.size(), 0.0);
  }
  return out;
}

}  // namespace likelihet::learning
