// Rows and loadings uphill.
#include <algorithm>
#include <cmath>

#include <likelihet/learning/ascent.hpp>
#include <likelihet/learning/strength_step.hpp>

namespace likelihet::learning {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

// One row: what is counted of it with the strength, and without.
struct RowCounts {
  std::vector<double> alone;        // prior and markers read alone, by level
  std::vector<double> by_strength;  // the strength fastest
};

RowCounts row_counts(const std::vector<double>& prior, const std::vector<double>& seen,
                     const std::vector<double>& by_strength) {
  RowCounts out{prior, by_strength};
  const std::size_t points = by_strength.size() / prior.size();
  for (std::size_t k = 0; k < prior.size(); ++k) {
    double together = 0;
    for (std::size_t q = 0; q < points; ++q) together += by_strength[k * points + q];
    out.alone[k] += std::max(seen[k] - together, 0.0);
    if (!(prior[k] > 0)) out.alone[k] = 0;
  }
  return out;
}

// Log odds of each possible level against the last of them.
class RowHeight {
 public:
  RowHeight(const RowCounts& counts, const std::vector<double>& row, double loading,
            const std::vector<double>& strength)
      : counts_(counts), loading_(loading), strength_(strength), levels_(row.size()) {
    for (std::size_t k = 0; k < row.size(); ++k) {
      if (row[k] > 0) possible_.push_back(k);
    }
  }

  [[nodiscard]] VectorXd coordinates(const std::vector<double>& row) const {
    VectorXd out(static_cast<Index>(possible_.size()) - 1);
    for (Index i = 0; i < out.size(); ++i) {
      out[i] = std::log(row[level(i)] / row[possible_.back()]);
    }
    return out;
  }

  [[nodiscard]] std::vector<double> row(const VectorXd& at) const {
    const double largest = std::max(at.maxCoeff(), 0.0);
    std::vector<double> out(levels_, 0.0);
    double whole = out[possible_.back()] = std::exp(-largest);
    for (Index i = 0; i < at.size(); ++i) {
      whole += out[level(i)] = std::exp(at[i] - largest);
    }
    for (double& p : out) p /= whole;
    return out;
  }

  double operator()(const VectorXd& at, VectorXd* gradient) const {
    const auto p = row(at);
    const auto chance = odds::given_strength(p, loading_, strength_);
    double sum = 0;
    for (std::size_t k : possible_) sum += counts_.alone[k] * std::log(p[k]);
    for (std::size_t i = 0; i < chance.size(); ++i) {
      if (counts_.by_strength[i] > 0) sum += counts_.by_strength[i] * std::log(chance[i]);
    }
    if (gradient != nullptr) *gradient = slope(p, chance);
    return sum;
  }

 private:
  [[nodiscard]] std::size_t level(Index i) const { return possible_[static_cast<std::size_t>(i)]; }

  // By the chain rule from log chances over cumulated chances c to log odds z:
  // dc_k/dz_l = p_l ([l <= k] - c_k).
  [[nodiscard]] VectorXd slope(const std::vector<double>& p,
                               const std::vector<double>& chance) const {
    const std::size_t n = strength_.size();
    const auto of_cumulated = odds::slope_in_cumulated(p, loading_, strength_);
    // d/dc_k of the whole: level k gains what level k + 1 loses.
    std::vector<double> by_cumulated(levels_ - 1, 0.0);
    const auto pull = [&](std::size_t k, std::size_t q) {
      const double count = counts_.by_strength[k * n + q];
      return count > 0 ? count / chance[k * n + q] : 0.0;
    };
    for (std::size_t k = 0; k + 1 < levels_; ++k) {
      for (std::size_t q = 0; q < n; ++q) {
        by_cumulated[k] += of_cumulated[k * n + q] * (pull(k, q) - pull(k + 1, q));
      }
    }
    double whole = 0;
    for (std::size_t k : possible_) whole += counts_.alone[k];
    VectorXd out(static_cast<Index>(possible_.size()) - 1);
    for (Index i = 0; i < out.size(); ++i) {
      const std::size_t l = level(i);
      double sum = counts_.alone[l] - whole * p[l];
      double below = 0;
      for (std::size_t k = 0; k + 1 < levels_; ++k) {
        below += p[k];
        sum += by_cumulated[k] * p[l] * ((l <= k ? 1.0 : 0.0) - below);
      }
      out[i] = sum;
    }
    return out;
  }

  const RowCounts& counts_;
  double loading_;
  const std::vector<double>& strength_;
  std::size_t levels_;
  std::vector<std::size_t> possible_;
};

// ln of the counts' chance and its slope, for the rows of one marker, added up.
double height_in_loading(const std::vector<std::vector<std::vector<double>>>& tables,
                         const std::vector<std::vector<std::vector<double>>>& by_strength,
                         double loading, const std::vector<double>& strength, double* slope) {
  double sum = 0;
  for (std::size_t t = 0; t < tables.size(); ++t) {
    for (std::size_t r = 0; r < tables[t].size(); ++r) {
      const auto chance = odds::given_strength(tables[t][r], loading, strength);
      const auto by_loading = slope == nullptr
                                  ? std::vector<double>()
                                  : odds::slope_in_loading(tables[t][r], loading, strength);
      for (std::size_t i = 0; i < chance.size(); ++i) {
        const double count = by_strength[t][r][i];
        if (!(count > 0)) continue;
        sum += count * std::log(chance[i]);
        if (slope != nullptr) *slope += count * by_loading[i] / chance[i];
      }
    }
  }
  return sum;
}

void step_rows(const std::vector<double>& strength, double loading,
               const std::vector<std::vector<std::vector<double>>>& prior,
               const std::vector<std::vector<std::vector<double>>>& seen,
               const std::vector<std::vector<std::vector<double>>>& by_strength,
               const std::vector<std::vector<std::vector<double>>>& from,
               std::vector<std::vector<std::vector<double>>>& to) {
  for (std::size_t t = 0; t < from.size(); ++t) {
    for (std::size_t r = 0; r < from[t].size(); ++r) {
      if (!open(prior[t][r])) continue;
      const RowCounts counts = row_counts(prior[t][r], seen[t][r], by_strength[t][r]);
      const RowHeight height(counts, from[t][r], loading, strength);
      to[t][r] = height.row(step_uphill(std::cref(height), height.coordinates(from[t][r])));
    }
  }
}

}  // namespace

void step_strengths(const colony::Model& model, const odds::StrengthPoints& points,
                    const Counts& prior, const Counts& seen, const odds::Tables& from,
                    odds::Tables& to) {
  for (std::size_t g = 0; g < model.together().size(); ++g) {
    if (!open_group(model, g)) continue;
    const colony::Together& group = model.together()[g];
    std::vector<std::size_t> free;  // members that have a loading
    for (std::size_t i = 0; i < group.markers.size(); ++i) {
      const std::size_t m = group.markers[i];
      if (!odds::membership(model, m)) continue;
      free.push_back(i);
      step_rows(points.strength, from.loadings[g][i], prior.rows[m], seen.rows[m],
                seen.by_strength[m], from.rows[m], to.rows[m]);
    }
    const auto step_loading = [&](const std::vector<std::size_t>& members) {
      const Height height = [&](const VectorXd& at, VectorXd* gradient) {
        const double b = at[0];
        if (b < 0) return -std::numeric_limits<double>::infinity();
        double sum = -0.5 * b * b / (group.spread * group.spread);
        double slope = -b / (group.spread * group.spread);
        for (std::size_t i : members) {
          sum += height_in_loading(to.rows[group.markers[i]], seen.by_strength[group.markers[i]], b,
                                   points.strength, gradient == nullptr ? nullptr : &slope);
        }
        if (gradient != nullptr) *gradient = VectorXd::Constant(1, slope);
        return sum;
      };
      const double to_b =
          step_uphill(height, VectorXd::Constant(1, from.loadings[g][members.front()]))[0];
      for (std::size_t i : members) to.loadings[g][i] = to_b;
    };
    if (group.common_loading) {
      step_loading(free);
    } else {
      for (std::size_t i : free) step_loading({i});
    }
  }
}

}  // namespace likelihet::learning
