// EM without each clutch's scores, and how likely they then are.
#include <algorithm>
#include <cmath>
#include <set>

#include <likelihet/learning/clutch_left_out.hpp>
#include <likelihet/learning/maximum.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::learning {

namespace {

constexpr std::size_t most_clutches = 40;

std::vector<std::size_t> telling_clutches(const odds::Scenario& whole,
                                          const odds::ColonyNetwork& net) {
  std::set<std::pair<std::string, std::size_t>> found;
  for (const auto& scored : net.scored()) {
    const auto clutch = whole.clutches[scored.animal];
    if (!clutch || net.term(scored.term).scores.size() < 2) continue;
    found.emplace(whole.colony->clutches()[*clutch].id, *clutch);
  }
  std::vector<std::size_t> all;
  all.reserve(found.size());
  for (const auto& [id, clutch] : found) all.push_back(clutch);
  if (all.size() <= most_clutches) return all;
  std::vector<std::size_t> some;
  for (std::size_t i = 0; i < most_clutches; ++i) {
    some.push_back(all[i * all.size() / most_clutches]);
  }
  return some;
}

odds::Scenario without_scores_of(const odds::Scenario& whole, std::size_t clutch) {
  odds::Scenario out = whole;
  std::erase_if(out.observations, [&](const colony::Observation* observation) {
    const auto* score = std::get_if<colony::Score>(&observation->what);
    return score != nullptr && whole.clutches[score->animal] == clutch;
  });
  return out;
}

class LeftOut {
 public:
  LeftOut(const odds::Scenario& rest, const odds::Prepared& whole, const odds::Tables& mode,
          const std::atomic<bool>* stop)
      : model_(rest.colony->model()), mode_(mode), stop_(stop), whole_(whole, model_) {}

  // ln P(the clutch's scores | the rest), tables from the rest.
  std::optional<double> log_score(const odds::Prepared& rest, bool together) {
    ClimbSettings settings;
    settings.together = together;
    settings.tolerance = 1e-4;
    settings.most_steps = 200;
    settings.stop = stop_;
    odds::Tables start = mode_;
    if (!together) start.loadings = odds::believed(model_).loadings;
    Expecting expecting(rest, model_);
    const auto end = climb(expecting, model_, std::move(start), settings);
    if (!end) return std::nullopt;
    const auto with = whole_.at(end->tables);
    const auto less = expecting.at(end->tables);
    if (!with || !less) return std::nullopt;
    return with->log_evidence - less->log_evidence;
  }

 private:
  const colony::Model& model_;
  const odds::Tables& mode_;
  const std::atomic<bool>* stop_;
  Expecting whole_;
};

}  // namespace

std::optional<ClutchesLeftOut> clutches_left_out(const odds::Scenario& whole,
                                                 const odds::Prepared& prepared,
                                                 const odds::Tables& mode, std::size_t memory_bytes,
                                                 const std::atomic<bool>* stop) {
  std::vector<double> gains;  // bits
  for (std::size_t clutch : telling_clutches(whole, prepared.net)) {
    const odds::Scenario rest = without_scores_of(whole, clutch);
    auto made = odds::prepare(rest, odds::believed(whole.colony->model()), memory_bytes);
    if (std::holds_alternative<odds::TooLarge>(made)) return std::nullopt;
    const auto& ready = *std::get<std::unique_ptr<odds::Prepared>>(made);
    LeftOut left_out(rest, prepared, mode, stop);
    const auto together = left_out.log_score(ready, true);
    const auto apart = left_out.log_score(ready, false);
    if (!together || !apart) return std::nullopt;
    gains.push_back((*together - *apart) / std::log(2.0));
  }
  if (gains.size() < 2) return std::nullopt;
  ClutchesLeftOut out{gains.size(), 0, 0};
  for (double gain : gains) out.gain += gain;
  const auto n = static_cast<double>(gains.size());
  double squares = 0;
  for (double gain : gains) squares += (gain - out.gain / n) * (gain - out.gain / n);
  out.standard_error = std::sqrt(n * squares / (n - 1));
  return out;
}

}  // namespace likelihet::learning
