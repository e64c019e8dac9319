// Leaving out one clutch at a time.
#include <algorithm>
#include <map>

#include <likelihet/audit/clutch_left_out.hpp>
#include <likelihet/audit/learned_draws.hpp>
#include <likelihet/audit/markerless.hpp>
#include <likelihet/colony/family.hpp>

namespace likelihet::audit {

bool may_inform(const colony::Observation& observation, const std::vector<bool>& family,
                const std::vector<bool>& group,
                const std::vector<std::optional<colony::Date>>& first) {
  const auto animal = colony::animal_of(observation);
  if (!animal || !family[*animal]) return true;
  const bool score = std::holds_alternative<colony::Score>(observation.what);
  const bool look = std::holds_alternative<colony::AppearanceSeen>(observation.what);
  if (!group[*animal] || !(score || look)) return false;
  const auto& day = first[*animal];
  return !day || (observation.known && *observation.known < *day);
}

namespace {

class LeavingOut {
 public:
  LeavingOut(const colony::Colony& colony, const TruthSettings& settings, Forecasts& out)
      : colony_(colony),
        model_(colony.model()),
        settings_(settings),
        out_(out),
        whole_(odds::scenario(colony, settings.as_of)),
        first_(colony.animals().size()),
        learned_(model_, drawing(settings)) {
    for (const Truth& truth : out.truths) {
      auto& day = first_[truth.event.animal];
      if (truth.known_on && (!day || *truth.known_on < *day)) day = truth.known_on;
    }
  }

  static DrawSettings drawing(const TruthSettings& settings) {
    DrawSettings out;
    out.memory_bytes = settings.memory_bytes;
    out.seed = settings.seed;
    return out;
  }

  std::optional<odds::TooLarge> run(const std::vector<std::size_t>& open) {
    std::map<std::size_t, std::vector<std::size_t>> by_cluster;
    for (std::size_t t : open) {
      by_cluster[cluster_of(colony_, out_.truths[t].event.animal)].push_back(t);
    }
    if (by_cluster.empty()) return std::nullopt;
    taken(learned_.odds(whole_, whole_, {}));  // where the clutches are left out from
    for (const auto& [cluster, truths] : by_cluster) {
      if (!too_large_) forecast(cluster, truths);
    }
    return std::move(too_large_);
  }

 private:
  template <class Value>
  Value taken(std::variant<Value, odds::TooLarge> made) {
    if (auto* large = std::get_if<odds::TooLarge>(&made)) {
      too_large_ = std::move(*large);
      return {};
    }
    return std::move(std::get<Value>(made));
  }

  void forecast(std::size_t cluster, const std::vector<std::size_t>& truths) {
    std::vector<bool> group(colony_.animals().size(), false);
    std::vector<std::size_t> members;
    for (std::size_t a = 0; a < group.size(); ++a) {
      group[a] = cluster_of(colony_, a) == cluster;
      if (group[a]) members.push_back(a);
    }
    const auto family = colony::with_descendants(colony_, members);
    odds::Scenario rest = whole_;
    std::erase_if(rest.observations, [&](const colony::Observation* observation) {
      const auto animal = colony::animal_of(*observation);
      return animal && family[*animal];
    });
    odds::Scenario informed = whole_;
    std::erase_if(informed.observations, [&](const colony::Observation* observation) {
      return !may_inform(*observation, family, group, first_);
    });
    std::vector<Event> events;
    events.reserve(truths.size());
    for (std::size_t t : truths) events.push_back(out_.truths[t].event);
    const auto pedigree = taken(event_odds(without_scores(informed), odds::believed(model_), events,
                                           settings_.memory_bytes));
    const auto scored = taken(learned_.odds(rest, informed, events));
    for (std::size_t i = 0; i < truths.size(); ++i) add(truths[i], i, pedigree, scored);
  }

  void add(std::size_t truth, std::size_t i, const std::vector<double>& pedigree,
           const std::vector<double>& scored) {
    const bool told = pedigree.empty() || scored.empty() || pedigree[i] >= settings_.yes ||
                      pedigree[i] <= settings_.no;
    if (told) {
      out_.refused.push_back({truth, Scheme::clutch_left_out, Refusal::others_tell});
      return;
    }
    out_.forecasts.push_back({truth, Basis::pedigree, Scheme::clutch_left_out, pedigree[i]});
    out_.forecasts.push_back({truth, Basis::scored, Scheme::clutch_left_out, scored[i]});
  }

  const colony::Colony& colony_;
  const colony::Model& model_;
  const TruthSettings& settings_;
  Forecasts& out_;
  odds::Scenario whole_;
  std::vector<std::optional<colony::Date>> first_;  // by animal: of any of its truths
  LearnedDraws learned_;
  std::optional<odds::TooLarge> too_large_;
};

}  // namespace

std::optional<odds::TooLarge> forecast_left_out(const colony::Colony& colony,
                                                const TruthSettings& settings,
                                                const std::vector<std::size_t>& open,
                                                Forecasts& out) {
  return LeavingOut(colony, settings, out).run(open);
}

}  // namespace likelihet::audit
