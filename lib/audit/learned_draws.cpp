// A chain, and an average.
#include <algorithm>
#include <cmath>
#include <map>

#include <likelihet/audit/learned_draws.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/odds/table_draws.hpp>

namespace likelihet::audit {

namespace {

// At the model's own tables: draws have the same zeros.
bool possible(const odds::Prepared& prepared, const colony::Model& model) {
  if (prepared.plan->impossible()) return false;
  const auto values = prepared.net.values(odds::Layer::posterior, odds::believed(model));
  return std::isfinite(inference::log_evidence(*prepared.plan, values));
}

}  // namespace

std::variant<std::vector<odds::Tables>, odds::TooLarge> learned_draws(
    const odds::Scenario& scenario, odds::Tables start, const DrawSettings& settings) {
  const colony::Model& model = scenario.colony->model();
  auto made = odds::prepare(scenario, odds::believed(model), settings.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  std::vector<odds::Tables> out;
  if (prepared.plan->impossible()) return out;
  learning::Chain chain(prepared, model, std::move(start), settings.seed, 0);
  for (std::size_t sweep = 0; sweep < settings.settling; ++sweep) {
    if (!chain.step()) return out;
  }
  while (out.size() < settings.draws) {
    for (std::size_t sweep = 0; sweep < settings.apart; ++sweep) {
      if (!chain.step()) return std::vector<odds::Tables>{};
    }
    out.push_back(chain.tables());
  }
  return out;
}

std::variant<std::vector<double>, odds::TooLarge> average_odds(
    const odds::Scenario& scenario, const std::vector<odds::Tables>& tables,
    const std::vector<Event>& events, std::size_t memory_bytes) {
  const colony::Model& model = scenario.colony->model();
  auto made = odds::prepare(scenario, odds::believed(model), memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  if (tables.empty() || !possible(prepared, model)) return std::vector<double>{};
  const std::size_t loci = model.loci().size();
  const odds::DrawTargets targets(prepared, scenario.colony->animals().size(), loci);
  std::multimap<std::size_t, std::size_t> asked;  // target -> event
  for (std::size_t e = 0; e < events.size(); ++e) {
    asked.emplace(targets.of[events[e].animal * loci + events[e].locus], e);
  }
  std::vector<double> out(events.size(), 0.0);
  std::size_t next = 0;
  odds::run_draws(
      prepared, model, odds::Layer::posterior, targets, tables.size(), memory_bytes,
      [&]() -> const odds::Tables& { return tables[next++]; }, [](const odds::DrawStep&) {},
      [&](std::size_t target, const odds::DrawStep& step,
          std::span<const odds::DrawLanes> posterior) {
        const auto [from, to] = asked.equal_range(target);
        for (auto at = from; at != to; ++at) {
          const Event& event = events[at->second];
          const auto& genotypes = model.loci()[event.locus].genotypes();
          for (std::size_t g = 0; g < posterior.size(); ++g) {
            if (genotypes[g].copies(event.allele) != 1) continue;
            for (std::size_t k = 0; k < step.count; ++k) out[at->second] += posterior[g].lane[k];
          }
        }
      });
  for (double& p : out) p = std::min(p / static_cast<double>(tables.size()), 1.0);
  return out;
}

}  // namespace likelihet::audit
