// Day by day through the ledger, without markers.
#include <algorithm>
#include <set>

#include <likelihet/audit/markerless.hpp>
#include <likelihet/audit/truths.hpp>
#include <likelihet/colony/family.hpp>
#include <likelihet/odds/contradiction.hpp>

namespace likelihet::audit {

namespace {

// Days on which anything but scores became known or was taken back, up to `as_of`.
std::vector<colony::Date> telling_days(const colony::Colony& colony,
                                       const std::optional<colony::Date>& as_of) {
  std::set<colony::Date> days;
  for (const auto& observation : colony.observations()) {
    if (!observation.known || (as_of && *as_of < *observation.known)) continue;
    if (std::holds_alternative<colony::Score>(observation.what)) continue;
    days.insert(*observation.known);
  }
  return {days.begin(), days.end()};
}

class Search {
 public:
  Search(const colony::Colony& colony, const TruthSettings& settings)
      : colony_(colony), settings_(settings) {}

  std::variant<std::vector<Truth>, odds::Contradiction, odds::TooLarge> run() {
    const odds::Scenario end = odds::scenario(colony_, settings_.as_of);
    const auto events = events_of(colony_);
    const auto last = odds_of(end, events);
    if (too_large_) return std::move(*too_large_);
    if (last.empty() && !events.empty()) {
      odds::Options options;
      options.memory_bytes = settings_.memory_bytes;
      return odds::explain(without_scores(end), options);
    }
    for (std::size_t e = 0; e < events.size(); ++e) {
      if (!known(last[e])) continue;
      waiting_.push_back(events[e]);
      waiting_odds_.push_back(last[e]);
    }
    go_through_days();
    if (too_large_) return std::move(*too_large_);
    return std::move(found_);
  }

 private:
  [[nodiscard]] bool known(double p) const { return p >= settings_.yes || p <= settings_.no; }

  std::vector<double> odds_of(const odds::Scenario& scenario, const std::vector<Event>& events) {
    auto made = event_odds(without_scores(scenario), odds::believed(colony_.model()), events,
                           settings_.memory_bytes);
    if (auto* large = std::get_if<odds::TooLarge>(&made)) {
      too_large_ = std::move(*large);
      return {};
    }
    return std::move(std::get<std::vector<double>>(made));
  }

  void go_through_days() {
    const auto days = telling_days(colony_, settings_.as_of);
    if (days.empty()) return settle(std::nullopt, waiting_odds_);
    const auto before = colony::Date::of_days(days.front().days() - 1);
    settle(std::nullopt, odds_of(odds::scenario(colony_, before), waiting_));
    for (const auto& day : days) {
      if (too_large_ || waiting_.empty()) return;
      settle(day, odds_of(odds::scenario(colony_, day), waiting_));
    }
  }

  // Moves what is known at `now` from waiting to found; a day that contradicts itself makes nothing
  // known.
  void settle(const std::optional<colony::Date>& day, const std::vector<double>& now) {
    if (now.empty()) return;
    std::size_t kept = 0;
    for (std::size_t w = 0; w < waiting_.size(); ++w) {
      if (known(now[w])) {
        found_.push_back(
            {waiting_[w], waiting_odds_[w], day, day ? kind_of(waiting_[w], *day) : Kind::test});
        continue;
      }
      waiting_[kept] = waiting_[w];
      waiting_odds_[kept++] = waiting_odds_[w];
    }
    waiting_.resize(kept);
    waiting_odds_.resize(kept);
  }

  [[nodiscard]] Kind kind_of(const Event& event, const colony::Date& day) const {
    Kind kind = Kind::relatives;
    std::vector<bool> offspring;
    for (const auto& observation : colony_.observations()) {
      if (observation.known != day) continue;
      const auto animal = colony::animal_of(observation);
      if (!animal) continue;
      if (*animal == event.animal) {
        if (const auto* result = std::get_if<colony::Result>(&observation.what)) {
          if (colony_.model().assays()[result->assay].locus == event.locus) return Kind::test;
        }
        const auto* look = std::get_if<colony::AppearanceSeen>(&observation.what);
        if (look != nullptr && look->locus == event.locus) kind = Kind::visual;
        const auto* brood = std::get_if<colony::Brood>(&observation.what);
        if (brood != nullptr && brood->locus == event.locus && kind != Kind::visual) {
          kind = Kind::breeding;
        }
        continue;
      }
      if (kind != Kind::relatives || std::holds_alternative<colony::Score>(observation.what)) {
        continue;
      }
      if (offspring.empty()) offspring = colony::with_descendants(colony_, {event.animal});
      if (offspring[*animal]) kind = Kind::breeding;
    }
    return kind;
  }

  const colony::Colony& colony_;
  const TruthSettings& settings_;
  std::vector<Event> waiting_;
  std::vector<double> waiting_odds_;  // in the end
  std::vector<Truth> found_;
  std::optional<odds::TooLarge> too_large_;
};

}  // namespace

std::variant<std::vector<Truth>, odds::Contradiction, odds::TooLarge> truths(
    const colony::Colony& colony, const TruthSettings& settings) {
  return Search(colony, settings).run();
}

}  // namespace likelihet::audit
