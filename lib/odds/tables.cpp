// Beliefs as point values and as draws.
#include <algorithm>

#include <likelihet/odds/tables.hpp>

namespace likelihet::odds {

namespace {

// Gamma variates over their sum (Devroye 1986, chapter XI.4).
std::vector<double> dirichlet(const std::vector<double>& expect, double worth,
                              std::mt19937_64& random) {
  const auto possible = std::count_if(expect.begin(), expect.end(), [](double p) { return p > 0; });
  if (possible < 2 || !(worth > 0)) return expect;
  std::vector<double> out(expect.size(), 0.0);
  double whole = 0;
  for (std::size_t i = 0; i < expect.size(); ++i) {
    if (!(expect[i] > 0)) continue;
    out[i] = std::gamma_distribution<double>(worth * expect[i], 1.0)(random);
    whole += out[i];
  }
  if (!(whole > 0)) return expect;
  for (std::size_t i = 0; i < expect.size(); ++i) {
    if (expect[i] > 0) out[i] = std::max(out[i] / whole, least_drawn);
  }
  return out;
}

template <class Row, class Frequencies>
Tables make(const colony::Model& model, Row row, Frequencies frequencies) {
  Tables tables;
  for (const colony::Marker& marker : model.markers()) {
    auto& of_marker = tables.rows.emplace_back();
    const auto add = [&](const std::vector<colony::MarkerRow>& rows) {
      auto& of_context = of_marker.emplace_back();
      for (const colony::MarkerRow& r : rows) of_context.push_back(row(r));
    };
    add(marker.rows);
    for (const colony::MarkerContext& context : marker.contexts) add(context.rows);
  }
  for (const colony::Origin& origin : model.origins()) {
    auto& of_origin = tables.origins.emplace_back();
    for (const auto& f : origin.frequencies) of_origin.push_back(frequencies(f, origin.worth));
  }
  for (const colony::Scorer& scorer : model.scorers()) tables.scorers.push_back(scorer.sure);
  return tables;
}

}  // namespace

Tables believed(const colony::Model& model) {
  return make(
      model, [](const colony::MarkerRow& row) { return row.expect; },
      [](const std::vector<double>& frequencies, double) { return frequencies; });
}

Tables drawn(const colony::Model& model, std::mt19937_64& random) {
  return make(
      model, [&](const colony::MarkerRow& row) { return dirichlet(row.expect, row.worth, random); },
      [&](const std::vector<double>& frequencies, double worth) {
        return dirichlet(frequencies, worth, random);
      });
}

}  // namespace likelihet::odds
