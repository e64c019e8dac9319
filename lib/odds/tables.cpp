// Beliefs as point values and as draws.
#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::odds {

namespace {

// Gamma variates over their sum (Devroye 1986, chapter XI.4).
std::vector<double> dirichlet_of(const std::vector<double>& expect, double worth,
                                 inference::RandomBits& random) {
  const auto possible = std::count_if(expect.begin(), expect.end(), [](double p) { return p > 0; });
  if (possible < 2 || !(worth > 0)) return expect;
  std::vector<double> shapes = expect;
  for (double& shape : shapes) shape *= worth;
  return dirichlet(shapes, random);
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
  for (const colony::Together& group : model.together()) {
    tables.loadings.emplace_back(group.markers.size(), 0.0);
  }
  return tables;
}

}  // namespace

namespace {

// ln of a gamma variate: with U uniform, G(shape) = G(shape + 1) U^(1/shape), which for small
// shapes is far below the least double (Devroye 1986, chapter IX.3).
double log_gamma_variate(double shape, inference::RandomBits& random) {
  const double whole = std::gamma_distribution<double>(shape + 1)(random);
  const double u = 1 - std::uniform_real_distribution<double>()(random);
  return std::log(whole) + std::log(u) / shape;
}

}  // namespace

std::vector<double> dirichlet(const std::vector<double>& shapes, inference::RandomBits& random) {
  // From this shape on a gamma variate stays far above the least double.
  constexpr double plain_shape = 0.1;
  const bool plain = std::all_of(shapes.begin(), shapes.end(),
                                 [](double shape) { return !(shape > 0) || shape >= plain_shape; });
  std::vector<double> out(shapes.size(), 0.0);
  double largest = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    if (!(shapes[i] > 0)) continue;
    out[i] = plain ? std::gamma_distribution<double>(shapes[i])(random)
                   : log_gamma_variate(shapes[i], random);
    largest = std::max(largest, out[i]);
  }
  double whole = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    if (!(shapes[i] > 0)) continue;
    if (!plain) out[i] = std::exp(out[i] - largest);
    whole += out[i];
  }
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    if (shapes[i] > 0) out[i] = std::max(out[i] / whole, least_drawn);
  }
  return out;
}

Tables believed(const colony::Model& model) {
  return make(
      model, [](const colony::MarkerRow& row) { return row.expect; },
      [](const std::vector<double>& frequencies, double) { return frequencies; });
}

Tables drawn(const colony::Model& model, inference::RandomBits& random) {
  return make(
      model,
      [&](const colony::MarkerRow& row) { return dirichlet_of(row.expect, row.worth, random); },
      [&](const std::vector<double>& frequencies, double worth) {
        return dirichlet_of(frequencies, worth, random);
      });
}

}  // namespace likelihet::odds
