// One pass over the days on which truths became known.
#include <map>

#include <likelihet/audit/as_it_stood.hpp>
#include <likelihet/audit/learned_draws.hpp>
#include <likelihet/audit/markerless.hpp>

namespace likelihet::audit {

std::optional<odds::TooLarge> forecast_as_it_stood(const colony::Colony& colony,
                                                   const TruthSettings& settings,
                                                   const std::vector<std::size_t>& open,
                                                   Forecasts& out) {
  std::map<colony::Date, std::vector<std::size_t>> by_day;
  for (std::size_t t : open) by_day[*out.truths[t].known_on].push_back(t);
  const colony::Model& model = colony.model();
  DrawSettings drawing;
  drawing.memory_bytes = settings.memory_bytes;
  drawing.seed = settings.seed;
  LearnedDraws learned(model, drawing);
  for (const auto& [day, truths] : by_day) {
    const odds::Scenario eve = odds::scenario(colony, colony::Date::of_days(day.days() - 1));
    std::vector<Event> events;
    events.reserve(truths.size());
    for (std::size_t t : truths) events.push_back(out.truths[t].event);
    auto bare =
        event_odds(without_scores(eve), odds::believed(model), events, settings.memory_bytes);
    if (auto* large = std::get_if<odds::TooLarge>(&bare)) return std::move(*large);
    auto marked = learned.odds(eve, eve, events);
    if (auto* large = std::get_if<odds::TooLarge>(&marked)) return std::move(*large);
    const auto& pedigree = std::get<std::vector<double>>(bare);
    const auto& scored = std::get<std::vector<double>>(marked);
    for (std::size_t i = 0; i < truths.size(); ++i) {
      if (pedigree.empty() || scored.empty()) {
        out.refused.push_back({truths[i], Scheme::as_it_stood, Refusal::others_tell});
        continue;
      }
      out.forecasts.push_back({truths[i], Basis::pedigree, Scheme::as_it_stood, pedigree[i]});
      out.forecasts.push_back({truths[i], Basis::scored, Scheme::as_it_stood, scored[i]});
    }
  }
  return std::nullopt;
}

}  // namespace likelihet::audit
