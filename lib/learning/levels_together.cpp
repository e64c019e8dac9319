// Rows by Metropolis and Hastings, loadings by slices.
#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/levels_together.hpp>
#include <likelihet/odds/strength.hpp>

namespace likelihet::learning {

namespace {

using Part = LevelsTogether::Part;

double log_uniform(inference::RandomBits& random) {
  return -std::exponential_distribution<double>()(random);
}

// Between a hundredth and all, each power of ten as often.
double wide_share(inference::RandomBits& random) {
  return std::pow(0.01, random.uniform());
}

// Neal's stepping out and shrinking on b >= 0.
double slice(const std::function<double(double)>& log_density, double from, double width,
             inference::RandomBits& random) {
  constexpr int most_steps = 32;
  const double height = log_density(from) + log_uniform(random);
  std::uniform_real_distribution<double> unit;
  double low = from - width * unit(random);
  double high = low + width;
  int left = static_cast<int>(most_steps * unit(random));
  int right = most_steps - 1 - left;
  while (left-- > 0 && low > 0 && log_density(low) > height) low -= width;
  while (right-- > 0 && log_density(high) > height) high += width;
  low = std::max(low, 0.0);
  constexpr int most_shrinks = 200;
  for (int i = 0; i < most_shrinks; ++i) {
    const double to = low + (high - low) * unit(random);
    if (log_density(to) > height) return to;
    (to < from ? low : high) = to;
  }
  return from;
}

class Move {
 public:
  Move(const std::map<std::vector<Part>, double>& seen, const colony::Model& model,
       const odds::StrengthPoints& points, odds::Tables& tables, inference::RandomBits& random)
      : seen_(seen),
        model_(model),
        points_(points),
        tables_(tables),
        random_(random),
        given_(model, tables, points) {}

  // From Dirichlet(prior + share x counts). With a share of 1 nearly every proposal is good where
  // the row is near what was seen, and hardly any elsewhere: smaller shares bring a row back from
  // afar.
  void row(std::size_t m, std::size_t t, std::size_t r, const std::vector<double>& prior,
           const std::vector<double>& counts, double loading, double share) {
    std::vector<double> shapes(prior.size(), 0.0);
    for (std::size_t k = 0; k < shapes.size(); ++k) {
      if (prior[k] > 0) shapes[k] = prior[k] + share * counts[k];
    }
    auto& now = tables_.rows[m][t][r];
    auto proposed = odds::dirichlet(shapes, random_);
    // Levels of animals that were read for this marker alone say of the row what they count.
    std::vector<double> alone = counts;
    const auto touched = [&](const std::vector<Part>& parts) {
      return std::any_of(parts.begin(), parts.end(), [&](const Part& part) {
        return part.marker == m && part.table == t && part.row == r;
      });
    };
    for (const auto& [parts, count] : seen_) {
      for (const Part& part : parts) {
        if (part.marker == m && part.table == t && part.row == r) alone[part.level] -= count;
      }
    }
    double ratio = -height(touched);
    auto before =
        given_.exchange(m, t, r, odds::given_strength(proposed, loading, points_.strength));
    ratio += height(touched);
    for (std::size_t k = 0; k < shapes.size(); ++k) {
      const double weight = alone[k] - share * counts[k];
      if (prior[k] > 0 && weight != 0) ratio += weight * std::log(proposed[k] / now[k]);
    }
    if (log_uniform(random_) < ratio) {
      now = std::move(proposed);
    } else {
      given_.exchange(m, t, r, std::move(before));
    }
  }

  // One loading for all of these members of a group.
  void loading(std::size_t g, const std::vector<std::size_t>& members) {
    const colony::Together& group = model_.together()[g];
    const auto touched = [&](const std::vector<Part>& parts) {
      return std::any_of(parts.begin(), parts.end(), [&](const Part& part) {
        return std::any_of(members.begin(), members.end(),
                           [&](std::size_t i) { return group.markers[i] == part.marker; });
      });
    };
    const auto log_density = [&](double b) {
      if (b < 0) return -std::numeric_limits<double>::infinity();
      set_loading(g, members, b);
      return height(touched) - 0.5 * (b / group.spread) * (b / group.spread);
    };
    const double width = 0.5 * std::min(group.spread, 1.0);
    set_loading(g, members,
                slice(log_density, tables_.loadings[g][members.front()], width, random_));
  }

 private:
  void set_loading(std::size_t g, const std::vector<std::size_t>& members, double b) {
    for (std::size_t i : members) {
      const std::size_t m = model_.together()[g].markers[i];
      tables_.loadings[g][i] = b;
      for (std::size_t t = 0; t < tables_.rows[m].size(); ++t) {
        for (std::size_t r = 0; r < tables_.rows[m][t].size(); ++r) {
          given_.exchange(m, t, r,
                          odds::given_strength(tables_.rows[m][t][r], b, points_.strength));
        }
      }
    }
  }

  // ln P(levels) of the combinations that are touched.
  template <class Touched>
  double height(const Touched& touched) const {
    double sum = 0;
    std::vector<double> product;
    for (const auto& [parts, count] : seen_) {
      if (!touched(parts)) continue;
      product = points_.weight;
      for (const Part& part : parts) {
        const auto given = given_.at(part.marker, part.table, part.row, part.level);
        for (std::size_t q = 0; q < product.size(); ++q) product[q] *= given[q];
      }
      double whole = 0;
      for (double p : product) whole += p;
      sum += count * std::log(whole);
    }
    return sum;
  }

  const std::map<std::vector<Part>, double>& seen_;
  const colony::Model& model_;
  const odds::StrengthPoints& points_;
  odds::Tables& tables_;
  inference::RandomBits& random_;
  odds::GivenStrength given_;
};

}  // namespace

void LevelsTogether::move(const colony::Model& model, const odds::StrengthPoints& points,
                          const Counts& prior, const Counts& counts, const odds::Tables& now,
                          odds::Tables& next, inference::RandomBits& random) const {
  next.loadings = now.loadings;
  for (std::size_t g = 0; g < model.together().size(); ++g) {
    if (!open_group(model, g)) continue;
    for (std::size_t m : model.together()[g].markers) {
      if (odds::membership(model, m)) next.rows[m] = now.rows[m];
    }
  }
  Move move(seen_, model, points, next, random);
  for (std::size_t g = 0; g < model.together().size(); ++g) {
    if (!open_group(model, g)) continue;
    const colony::Together& group = model.together()[g];
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < group.markers.size(); ++i) {
      const std::size_t m = group.markers[i];
      if (!odds::membership(model, m)) continue;
      members.push_back(i);
      for (std::size_t t = 0; t < next.rows[m].size(); ++t) {
        for (std::size_t r = 0; r < next.rows[m][t].size(); ++r) {
          if (!open(prior.rows[m][t][r])) continue;
          for (double share : {1.0, wide_share(random)}) {
            move.row(m, t, r, prior.rows[m][t][r], counts.rows[m][t][r], next.loadings[g][i],
                     share);
          }
        }
      }
    }
    if (group.common_loading) {
      move.loading(g, members);
    } else {
      for (std::size_t i : members) move.loading(g, {i});
    }
  }
}

}  // namespace likelihet::learning
