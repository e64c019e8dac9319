// One factor and a product, draw by draw.
#include <algorithm>

#include <likelihet/learning/together_factors.hpp>
#include <likelihet/odds/quantiles.hpp>
#include <likelihet/odds/strength.hpp>

namespace likelihet::learning {

namespace {

Spread spread_of(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return {odds::quantile_of_sorted(values, 0.5), odds::quantile_of_sorted(values, 0.025),
          odds::quantile_of_sorted(values, 0.975)};
}

// P(the highest level of each marker | these rows).
double all_highest(const colony::Model& model, const TogetherFactor& of, const odds::Tables& tables,
                   const odds::StrengthPoints& points, bool hets) {
  std::vector<double> product = points.weight;
  for (std::size_t i = 0; i < of.markers.size(); ++i) {
    const auto at = odds::membership(model, of.markers[i]);
    const auto& table = tables.rows[of.markers[i]][0];
    const auto& row = hets ? table[of.rows[i]] : table.back();
    const auto given =
        odds::given_strength(row, tables.loadings[at->group][at->member], points.strength);
    const double* highest = given.data() + (row.size() - 1) * points.strength.size();
    for (std::size_t q = 0; q < product.size(); ++q) product[q] *= highest[q];
  }
  double sum = 0;
  for (double p : product) sum += p;
  return sum;
}

// The rows of the first genotypes that every marker has a row for, the last ones aside.
bool find_rows(const colony::Model& model, TogetherFactor& of) {
  const auto& first = model.markers()[of.markers.front()].rows;
  for (std::size_t r = 0; r + 1 < first.size(); ++r) {
    of.rows.clear();
    for (std::size_t m : of.markers) {
      const auto& rows = model.markers()[m].rows;
      const auto found =
          std::find_if(rows.begin(), rows.end() - 1,
                       [&](const colony::MarkerRow& row) { return row.at == first[r].at; });
      if (found + 1 != rows.end())
        of.rows.push_back(static_cast<std::size_t>(found - rows.begin()));
    }
    if (of.rows.size() == of.markers.size()) return true;
  }
  return false;
}

}  // namespace

std::optional<TogetherFactor> together_factor(const colony::Model& model, std::size_t group,
                                              const std::vector<odds::Tables>& draws) {
  if (draws.empty() || !open_group(model, group)) return std::nullopt;
  TogetherFactor out;
  out.group = group;
  for (std::size_t m : model.together()[group].markers) {
    if (odds::membership(model, m)) out.markers.push_back(m);
  }
  if (!find_rows(model, out)) return std::nullopt;
  const odds::StrengthPoints points = odds::strength_points();
  std::vector<double> together;
  std::vector<double> products;
  for (const odds::Tables& draw : draws) {
    together.push_back(all_highest(model, out, draw, points, true) /
                       all_highest(model, out, draw, points, false));
    double product = 1;
    for (std::size_t i = 0; i < out.markers.size(); ++i) {
      const auto& table = draw.rows[out.markers[i]][0];
      product *= table[out.rows[i]].back() / table.back().back();
    }
    products.push_back(product);
  }
  out.together = spread_of(std::move(together));
  out.product = spread_of(std::move(products));
  return out;
}

}  // namespace likelihet::learning
