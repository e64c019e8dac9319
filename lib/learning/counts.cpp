// Prior counts, and the tables that counts give.
#include <algorithm>
#include <cmath>

#include <likelihet/learning/counts.hpp>

namespace likelihet::learning {

namespace {

void add(std::vector<double>& to, const std::vector<double>& what) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] += what[i];
}

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

Counts& Counts::operator+=(const Counts& other) {
  for_each_row(*this, [&](std::size_t m, std::size_t t, std::size_t r) {
    add(rows[m][t][r], other.rows[m][t][r]);
  });
  for (std::size_t o = 0; o < origins.size(); ++o) {
    for (std::size_t l = 0; l < origins[o].size(); ++l) add(origins[o][l], other.origins[o][l]);
  }
  for (std::size_t s = 0; s < scorers.size(); ++s) {
    scorers[s].right += other.scorers[s].right;
    scorers[s].wrong += other.scorers[s].wrong;
  }
  return *this;
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

double log_prior(const Counts& prior, const odds::Tables& tables) {
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
  return sum;
}

}  // namespace likelihet::learning
