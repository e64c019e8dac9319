// JSON for the few numbers, a plain list for the many.
#include <algorithm>

#include <nlohmann/json.hpp>

#include <likelihet/learning/learned_text.hpp>

namespace likelihet::learning {

namespace {

using nlohmann::json;
constexpr int version = 1;

json of_convergence(const Convergence& of) {
  return {of.r_hat, of.bulk, of.tail};
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
      if (!(numbers[p] >= 0 && numbers[p] <= 1)) return std::nullopt;
    }
    out.push_back(unflattened(numbers, believed));
  }
  return out;
}

std::optional<Learned> read_learned(const std::string& text, const std::vector<double>& draws,
                                    const colony::Model& model) {
  const json in = json::parse(text, nullptr, false);
  if (!in.is_object() || in.value("version", 0) != version) return std::nullopt;
  const auto all = parameters(model);
  auto tables = read_draws(draws, model);
  if (!tables || in["summaries"].size() != all.size()) return std::nullopt;
  Learned out;
  out.draws = std::move(*tables);
  out.chains = in["chains"];
  out.sweeps = in["sweeps"];
  out.converged = in["converged"];
  out.worst_r_hat = in["worst"][0];
  out.least_bulk = in["worst"][1];
  out.least_tail = in["worst"][2];
  out.trace = in["trace"].get<std::vector<double>>();
  out.animals = in["animals"].get<std::vector<std::vector<std::vector<double>>>>();
  for (const json& mode : in["modes"]) {
    out.modes.push_back(
        {unflattened(mode["tables"].get<std::vector<double>>(), odds::believed(model)),
         mode["log_posterior"], mode["starts"]});
  }
  for (const json& of : in.value("dependences", json::array())) {
    out.dependences.push_back({of[0], of[1], of[2], of[3], of[4]});
  }
  for (std::size_t p = 0; p < all.size(); ++p) {
    const json& of = in["summaries"][p];
    out.summaries.push_back({all[p], of[0], of[1], of[2], of[3], of[4], {of[5], of[6], of[7]}});
  }
  return out;
}

}  // namespace likelihet::learning
