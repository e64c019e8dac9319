// Fleiss' kappa.
#include <cmath>
#include <limits>
#include <stdexcept>

#include <likelihet/audit/agreement.hpp>
#include <likelihet/audit/kappa_interval.hpp>

namespace likelihet::audit {

namespace {

// Rows of those that two or more scored.
std::vector<std::span<const double>> scored_twice(std::span<const double> counts,
                                                  std::size_t categories) {
  if (categories == 0 || counts.size() % categories != 0) {
    throw std::invalid_argument("agreement of many takes a row of categories for each animal");
  }
  std::vector<std::span<const double>> out;
  for (std::size_t first = 0; first < counts.size(); first += categories) {
    const auto row = counts.subspan(first, categories);
    double scorers = 0;
    for (double count : row) {
      if (!(count >= 0 && std::isfinite(count))) {
        throw std::invalid_argument("agreement takes counts of 0 or more");
      }
      scorers += count;
    }
    if (scorers >= 2) out.push_back(row);
  }
  return out;
}

double sum(std::span<const double> row) {
  double out = 0;
  for (double count : row) out += count;
  return out;
}

// Fleiss (1971): the share of pairs of scorers who agree on one animal.
double agreeing_pairs(std::span<const double> row) {
  const double scorers = sum(row);
  double pairs = 0;
  for (double count : row) pairs += count * (count - 1);
  return pairs / (scorers * (scorers - 1));
}

// Gwet (2021): each animal's part in the index, linear in how far it is from the mean.
double variance(const std::vector<std::span<const double>>& rows,
                const std::vector<double>& proportions, double observed, double expected) {
  const auto n = static_cast<double>(rows.size());
  if (n < 2) return std::numeric_limits<double>::infinity();
  const double value = (observed - expected) / (1 - expected);
  double squares = 0;
  for (const auto row : rows) {
    double chance = 0;
    for (std::size_t k = 0; k < row.size(); ++k) chance += proportions[k] * row[k];
    chance /= sum(row);
    const double part = (agreeing_pairs(row) - expected) / (1 - expected) -
                        2 * (1 - value) * (chance - expected) / (1 - expected);
    squares += (part - value) * (part - value);
  }
  return squares / (n * (n - 1));
}

}  // namespace

Kappa fleiss_kappa(std::span<const double> counts, std::size_t categories) {
  const auto rows = scored_twice(counts, categories);
  if (rows.empty()) return no_kappa(0, 0, "nothing was scored by two");
  const auto n = static_cast<double>(rows.size());
  std::vector<double> proportions(categories);
  double observed = 0;
  for (const auto row : rows) {
    observed += agreeing_pairs(row) / n;
    for (std::size_t k = 0; k < categories; ++k) proportions[k] += row[k] / (sum(row) * n);
  }
  double expected = 0;
  std::optional<std::size_t> only;
  for (std::size_t k = 0; k < categories; ++k) {
    expected += proportions[k] * proportions[k];
    if (proportions[k] >= 1 - 1e-12) only = k;
  }
  if (only) {
    Kappa out = no_kappa(1, 1, "all were put in one category");
    out.only_category = only;
    return out;
  }
  return kappa_of(observed, expected, variance(rows, proportions, observed, expected), n);
}

std::vector<Kappa> fleiss_kappa_by_category(std::span<const double> counts,
                                            std::size_t categories) {
  std::vector<Kappa> out;
  for (std::size_t k = 0; k < categories; ++k) {
    std::vector<double> against_others;
    for (std::size_t first = 0; first + categories <= counts.size(); first += categories) {
      const auto row = counts.subspan(first, categories);
      against_others.push_back(row[k]);
      against_others.push_back(sum(row) - row[k]);
    }
    out.push_back(fleiss_kappa(against_others, 2));
    // Of the two categories of this table the second is "any other" and has no place in theirs.
    if (out.back().only_category) {
      const bool never = *out.back().only_category == 1;
      out.back().undefined = never ? "no one chose it" : "all were put in one category";
      out.back().only_category = never ? std::nullopt : std::optional(k);
    }
  }
  return out;
}

}  // namespace likelihet::audit
