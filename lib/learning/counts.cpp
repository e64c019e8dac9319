// Prior counts, and the tables that counts give.
#include <algorithm>
#include <cmath>
#include <random>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/counts.hpp>

namespace likelihet::learning {

namespace {

std::vector<double> in_proportion(const std::vector<double>& prior, const std::vector<double>& seen,
                                  const std::vector<double>& believed) {
  if (!open(prior)) return believed;
  std::vector<double> out(prior.size());
  double whole = 0;
  for (std::size_t i = 0; i < out.size(); ++i) {
    // What is believed impossible stays so.
    out[i] = prior[i] > 0 ? prior[i] + seen[i] : 0.0;
    whole += out[i];
  }
  for (double& p : out) p /= whole;
  return out;
}

double log_density(const std::vector<double>& prior, const std::vector<double>& at) {
  if (!open(prior)) return 0;
  double sum = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (prior[i] > 0) sum += prior[i] * std::log(at[i]);
  }
  return sum;
}

template <class Visit>
void for_each_row(const Counts& counts, Visit visit) {
  for (std::size_t m = 0; m < counts.rows.size(); ++m) {
    for (std::size_t t = 0; t < counts.rows[m].size(); ++t) {
      for (std::size_t r = 0; r < counts.rows[m][t].size(); ++r) visit(m, t, r);
    }
  }
}

}  // namespace

bool open(const std::vector<double>& belief) {
  return std::count_if(belief.begin(), belief.end(), [](double a) { return a > 0; }) > 1;
}

Counts::Counts(const colony::Model& model) : scorers(model.scorers().size()) {
  const odds::Tables shape = odds::believed(model);
  rows = shape.rows;
  origins = shape.origins;
  for (auto& marker : rows) {
    for (auto& table : marker) {
      for (auto& row : table) std::fill(row.begin(), row.end(), 0.0);
    }
  }
  for (auto& origin : origins) {
    for (auto& locus : origin) std::fill(locus.begin(), locus.end(), 0.0);
  }
}

void Counts::make_room(const colony::Model& model, const odds::StrengthPoints& points) {
  by_strength.assign(rows.size(), {});
  for (std::size_t m = 0; m < rows.size(); ++m) {
    if (!odds::membership(model, m)) continue;
    for (const auto& table : rows[m]) {
      auto& of_table = by_strength[m].emplace_back();
      for (const auto& row : table) {
        of_table.emplace_back(row.size() * points.strength.size(), 0.0);
      }
    }
  }
}

Counts prior_counts(const colony::Model& model) {
  Counts out(model);
  for (std::size_t m = 0; m < out.rows.size(); ++m) {
    const colony::Marker& marker = model.markers()[m];
    for (std::size_t t = 0; t < out.rows[m].size(); ++t) {
      const auto& rows = t == 0 ? marker.rows : marker.contexts[t - 1].rows;
      for (std::size_t r = 0; r < out.rows[m][t].size(); ++r) {
        for (std::size_t level = 0; level < out.rows[m][t][r].size(); ++level) {
          out.rows[m][t][r][level] = rows[r].worth * rows[r].expect[level];
        }
      }
    }
  }
  for (std::size_t o = 0; o < out.origins.size(); ++o) {
    const colony::Origin& origin = model.origins()[o];
    for (std::size_t l = 0; l < out.origins[o].size(); ++l) {
      for (std::size_t a = 0; a < out.origins[o][l].size(); ++a) {
        out.origins[o][l][a] = origin.worth * origin.frequencies[l][a];
      }
    }
  }
  for (std::size_t s = 0; s < out.scorers.size(); ++s) {
    const double sure = model.scorers()[s].sure;
    out.scorers[s] = {scorer_worth * sure, scorer_worth * (1 - sure)};
  }
  return out;
}

odds::Tables mode_of(const Counts& prior, const Counts& seen, const odds::Tables& believed) {
  odds::Tables out = believed;
  for_each_row(prior, [&](std::size_t m, std::size_t t, std::size_t r) {
    out.rows[m][t][r] =
        in_proportion(prior.rows[m][t][r], seen.rows[m][t][r], believed.rows[m][t][r]);
  });
  for (std::size_t o = 0; o < out.origins.size(); ++o) {
    for (std::size_t l = 0; l < out.origins[o].size(); ++l) {
      out.origins[o][l] =
          in_proportion(prior.origins[o][l], seen.origins[o][l], believed.origins[o][l]);
    }
  }
  for (std::size_t s = 0; s < out.scorers.size(); ++s) {
    const Readings& belief = prior.scorers[s];
    out.scorers[s] =
        in_proportion({belief.right, belief.wrong}, {seen.scorers[s].right, seen.scorers[s].wrong},
                      {believed.scorers[s], 1 - believed.scorers[s]})
            .front();
  }
  return out;
}

bool open_group(const colony::Model& model, std::size_t group) {
  const auto& markers = model.together()[group].markers;
  return std::count_if(markers.begin(), markers.end(),
                       [&](std::size_t m) { return odds::membership(model, m).has_value(); }) > 1;
}

odds::Tables drawn_belief(const colony::Model& model, inference::RandomBits& random,
                          double widest) {
  odds::Tables out = odds::drawn(model, random);
  const Counts prior = prior_counts(model);
  for (std::size_t s = 0; s < out.scorers.size(); ++s) {
    const Readings& belief = prior.scorers[s];
    if (!open({belief.right, belief.wrong})) continue;
    out.scorers[s] = odds::dirichlet({belief.right, belief.wrong}, random).front();
  }
  for (std::size_t g = 0; g < out.loadings.size(); ++g) {
    if (!open_group(model, g)) continue;
    const colony::Together& group = model.together()[g];
    std::normal_distribution<double> normal(0, std::min(group.spread, widest));
    const double first = std::abs(normal(random));
    for (double& loading : out.loadings[g]) {
      loading = group.common_loading ? first : std::abs(normal(random));
    }
  }
  return out;
}

namespace {

double log_prior_of_loadings(const colony::Model& model, const odds::Tables& tables) {
  double sum = 0;
  for (std::size_t g = 0; g < tables.loadings.size(); ++g) {
    if (!open_group(model, g)) continue;
    const colony::Together& group = model.together()[g];
    const std::size_t free = group.common_loading ? 1 : tables.loadings[g].size();
    for (std::size_t i = 0; i < free; ++i) {
      const double in_spreads = tables.loadings[g][i] / group.spread;
      sum -= 0.5 * in_spreads * in_spreads;
    }
  }
  return sum;
}

}  // namespace

double log_prior(const Counts& prior, const colony::Model& model, const odds::Tables& tables) {
  double sum = 0;
  for_each_row(prior, [&](std::size_t m, std::size_t t, std::size_t r) {
    sum += log_density(prior.rows[m][t][r], tables.rows[m][t][r]);
  });
  for (std::size_t o = 0; o < prior.origins.size(); ++o) {
    for (std::size_t l = 0; l < prior.origins[o].size(); ++l) {
      sum += log_density(prior.origins[o][l], tables.origins[o][l]);
    }
  }
  for (std::size_t s = 0; s < prior.scorers.size(); ++s) {
    sum += log_density({prior.scorers[s].right, prior.scorers[s].wrong},
                       {tables.scorers[s], 1 - tables.scorers[s]});
  }
  return sum + log_prior_of_loadings(model, tables);
}

}  // namespace likelihet::learning
