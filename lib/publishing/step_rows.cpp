// Rows of an account.
#include "step_rows.hpp"

#include <algorithm>
#include <cmath>

#include "rounding.hpp"
#include <fmt/format.h>

#include <likelihet/odds/percent.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::publishing {
namespace {

// Steps that follow one another.
struct StepRun {
  std::size_t first = 0;  // among those that tell something
  std::size_t count = 1;
  double factor = 1;
  double weight = 0;  // decibans, whichever way; infinite once something is settled
};

std::vector<const odds::Step*> telling(const odds::Account& account) {
  constexpr double nothing = 1e-11;
  std::vector<const odds::Step*> steps;
  for (const odds::Step& step : account.steps) {
    if (!(std::abs(step.factor - 1) < nothing)) steps.push_back(&step);
  }
  return steps;
}

// Joins the lightest neighbours until few enough are left; of equals the first.
std::vector<StepRun> runs_of(const std::vector<const odds::Step*>& steps, std::size_t most) {
  std::vector<StepRun> runs;
  for (std::size_t s = 0; s < steps.size(); ++s) {
    runs.push_back({s, 1, steps[s]->factor, std::abs(steps[s]->decibans)});
  }
  while (runs.size() > most && runs.size() > 1) {
    const auto together = [&](std::size_t r) { return runs[r].weight + runs[r + 1].weight; };
    std::size_t least = 0;
    for (std::size_t r = 1; r + 1 < runs.size(); ++r) {
      if (together(r) < together(least)) least = r;
    }
    runs[least].count += runs[least + 1].count;
    runs[least].factor *= runs[least + 1].factor;
    runs[least].weight = together(least);
    runs.erase(runs.begin() + static_cast<std::ptrdiff_t>(least) + 1);
  }
  return runs;
}

std::string chance_words(double chance) {
  constexpr double tenth = 0.001;
  if (chance == 0) return "0 %";
  const double down = rounded_down(chance, tenth);
  return in_percent({down, down, tenth});
}

std::string start_words(double chance) {
  constexpr double far = 1000;
  if (chance == 0) return "ruled out from the start";
  if (chance >= 1) return "certain from the start";
  const double odds = chance / (1 - chance);
  if (odds > far) return "start over 1,000 : 1";
  if (odds < 1 / far) return "start under 1 : 1,000";
  // What three digits round to a thousand is one.
  const auto digits = [](double figure) { return fmt::format("{:.4g}", std::round(figure)); };
  const auto figure = [&](double value) {
    return value >= far - 0.5 ? digits(value) : fmt::format("{:.3g}", value);
  };
  return odds >= 1 ? fmt::format("start at {} : 1", figure(odds))
                   : fmt::format("start at 1 : {}", figure(1 / odds));
}

std::string what_of(const colony::Colony& colony, const odds::Step& step) {
  if (step.own || step.observations.size() == 1) {
    const auto& seen = colony.observations()[step.observations.front()];
    return step.own ? odds::words_of(colony, seen) : odds::describe(colony, seen);
  }
  return fmt::format("{} records of relatives", step.observations.size());
}

std::string day_of(const colony::Colony& colony, const odds::Step& step) {
  const auto& first = colony.observations()[step.observations.front()];
  if (step.own && first.on) return first.on->text();
  return first.known ? first.known->text() : first.on ? first.on->text() : std::string();
}

StepRow row_of(const colony::Colony& colony, const std::vector<const odds::Step*>& steps,
               const StepRun& run) {
  StepRow row;
  // What was seen early may be known late, so days need not follow one another.
  for (std::size_t s = run.first; s < run.first + run.count; ++s) {
    const std::string day = day_of(colony, *steps[s]);
    if (day.empty()) continue;
    if (row.from.empty() || day < row.from) row.from = day;
    if (row.until < day) row.until = day;
  }
  if (row.until == row.from) row.until.clear();
  if (row.from.empty()) row.from = "undated";
  row.what = run.count == 1 ? what_of(colony, *steps[run.first])
                            : fmt::format("{} pieces of evidence together", run.count);
  row.factor = odds::factor_in_words(run.factor);
  row.chance = chance_words(steps[run.first + run.count - 1]->after);
  return row;
}

}  // namespace

std::vector<StepRow> step_rows(const colony::Colony& colony, const odds::Account& account,
                               std::size_t most) {
  std::vector<StepRow> rows{{"", "", "from descent, seller's descriptions and sexes alone",
                             start_words(account.start), chance_words(account.start)}};
  const auto steps = telling(account);
  for (const StepRun& run : runs_of(steps, most)) rows.push_back(row_of(colony, steps, run));
  return rows;
}

}  // namespace likelihet::publishing
