// JSON for the few numbers, a plain list for the many.
#include <algorithm>
#include <limits>

#include <nlohmann/json.hpp>

#include <likelihet/learning/learned_text.hpp>

namespace likelihet::learning {

namespace {

using nlohmann::json;
constexpr int version = 1;

json of_convergence(const Convergence& of) {
  return {of.r_hat, of.bulk, of.tail};
}

// One number a row of each table of each marker.
bool same_shape(const std::vector<std::vector<std::vector<double>>>& animals,
                const odds::Tables& tables) {
  if (animals.size() != tables.rows.size()) return false;
  for (std::size_t m = 0; m < animals.size(); ++m) {
    if (animals[m].size() != tables.rows[m].size()) return false;
    for (std::size_t t = 0; t < animals[m].size(); ++t) {
      if (animals[m][t].size() != tables.rows[m][t].size()) return false;
    }
  }
  return true;
}

}  // namespace

std::string write_learned(const Learned& learned) {
  json out = {
      {"version", version},
      {"chains", learned.chains},
      {"sweeps", learned.sweeps},
      {"converged", learned.converged},
      {"worst", of_convergence({learned.worst_r_hat, learned.least_bulk, learned.least_tail})},
      {"trace", learned.trace},
      {"animals", learned.animals}};
  for (const Mode& mode : learned.modes) {
    out["modes"].push_back({{"log_posterior", mode.log_posterior},
                            {"starts", mode.starts},
                            {"tables", flat(mode.tables)}});
  }
  for (const Dependence& one : learned.dependences) {
    out["dependences"].push_back({one.first, one.second, one.animals, one.correlation, one.p});
  }
  if (learned.left_out) {
    out["left_out"] = {learned.left_out->clutches, learned.left_out->gain,
                       learned.left_out->standard_error};
  }
  for (const Summary& one : learned.summaries) {
    out["summaries"].push_back({one.believed, one.mode, one.mean, one.low, one.high,
                                one.convergence.r_hat, one.convergence.bulk, one.convergence.tail});
  }
  return out.dump();
}

std::vector<double> flat_draws(const Learned& learned, const colony::Model& model) {
  const auto all = parameters(model);
  std::vector<double> out;
  for (const odds::Tables& draw : learned.draws) {
    const auto numbers = flat(draw);
    for (std::size_t p = 0; p < all.size(); ++p) {
      if (all[p].open) out.push_back(numbers[p]);
    }
  }
  return out;
}

std::optional<std::vector<odds::Tables>> read_draws(const std::vector<double>& draws,
                                                    const colony::Model& model) {
  const auto all = parameters(model);
  const auto open = static_cast<std::size_t>(
      std::count_if(all.begin(), all.end(), [](const Parameter& p) { return p.open; }));
  const odds::Tables believed = odds::believed(model);
  auto numbers = flat(believed);
  std::vector<odds::Tables> out;
  if (open == 0) return out;
  if (draws.size() % open != 0) return std::nullopt;
  for (std::size_t next = 0; next < draws.size();) {
    for (std::size_t p = 0; p < all.size(); ++p) {
      if (!all[p].open) continue;
      numbers[p] = draws[next++];
      const bool loading = all[p].kind == Parameter::Kind::loading;
      if (!(numbers[p] >= 0 && numbers[p] <= (loading ? std::numeric_limits<double>::max() : 1))) {
        return std::nullopt;
      }
    }
    out.push_back(unflattened(numbers, believed));
  }
  return out;
}

namespace {

// Throws json::exception where something is missing or of another type.
std::optional<Learned> read(const json& in, const std::vector<double>& draws,
                            const colony::Model& model) {
  if (!in.is_object() || in.value("version", 0) != version) return std::nullopt;
  const auto all = parameters(model);
  auto tables = read_draws(draws, model);
  if (!tables || in.at("summaries").size() != all.size()) return std::nullopt;
  Learned out;
  out.draws = std::move(*tables);
  out.chains = in.at("chains");
  out.sweeps = in.at("sweeps");
  out.converged = in.at("converged");
  out.worst_r_hat = in.at("worst").at(0);
  out.least_bulk = in.at("worst").at(1);
  out.least_tail = in.at("worst").at(2);
  out.trace = in.at("trace").get<std::vector<double>>();
  out.animals = in.at("animals").get<std::vector<std::vector<std::vector<double>>>>();
  if (!same_shape(out.animals, odds::believed(model))) return std::nullopt;
  for (const json& mode : in.at("modes")) {
    const auto numbers = mode.at("tables").get<std::vector<double>>();
    if (numbers.size() != all.size()) return std::nullopt;
    out.modes.push_back(
        {unflattened(numbers, odds::believed(model)), mode.at("log_posterior"), mode.at("starts")});
  }
  for (const json& of : in.value("dependences", json::array())) {
    out.dependences.push_back({of.at(0), of.at(1), of.at(2), of.at(3), of.at(4)});
    const Dependence& one = out.dependences.back();
    if (one.first >= model.markers().size() || one.second >= model.markers().size()) {
      return std::nullopt;
    }
  }
  if (in.contains("left_out")) {
    const json& of = in.at("left_out");
    out.left_out = ClutchesLeftOut{of.at(0), of.at(1), of.at(2)};
  }
  for (std::size_t p = 0; p < all.size(); ++p) {
    const json& of = in.at("summaries").at(p);
    out.summaries.push_back(
        {all[p], of.at(0), of.at(1), of.at(2), of.at(3), of.at(4), {of.at(5), of.at(6), of.at(7)}});
  }
  return out;
}

}  // namespace

std::optional<Learned> read_learned(const std::string& text, const std::vector<double>& draws,
                                    const colony::Model& model) {
  try {
    return read(json::parse(text, nullptr, false), draws, model);
  } catch (const json::exception&) {
    return std::nullopt;
  }
}

}  // namespace likelihet::learning
