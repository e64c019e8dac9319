// EM to a mode, from a start that is near it.
#include <likelihet/audit/learned_mode.hpp>
#include <likelihet/learning/maximum.hpp>

namespace likelihet::audit {

std::variant<std::optional<odds::Tables>, odds::TooLarge> learned_mode(
    const odds::Scenario& scenario, const odds::Tables& start, std::size_t memory_bytes) {
  const colony::Model& model = scenario.colony->model();
  auto made = odds::prepare(scenario, odds::believed(model), memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  if (prepared.plan->impossible()) return std::nullopt;
  learning::Expecting expecting(prepared, model);
  learning::ClimbSettings settings;
  settings.tolerance = mode_tolerance;
  settings.most_steps = 2000;
  auto end = learning::climb(expecting, model, start, settings);
  if (!end) return std::nullopt;
  return std::move(end->tables);
}

odds::Tables first_start(const colony::Model& model) {
  return learning::off_the_saddle(model, odds::believed(model));
}

}  // namespace likelihet::audit
