// Evidence one step at a time.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include <likelihet/genetics/copies.hpp>
#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/percent.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::odds {

namespace {

// Animals joined to one by descent, however far.
std::vector<bool> relatives(const Scenario& scenario, std::size_t animal) {
  const auto& colony = *scenario.colony;
  std::vector<std::vector<std::size_t>> near(colony.animals().size());
  for (std::size_t a = 0; a < near.size(); ++a) {
    const auto clutch = scenario.clutches[a];
    if (!clutch) continue;
    const auto join = [&](std::size_t parent) {
      near[a].push_back(parent);
      near[parent].push_back(a);
    };
    if (colony.clutches()[*clutch].dam) join(*colony.clutches()[*clutch].dam);
    for (const auto& sire : scenario.sires_of(*clutch)) join(sire.animal);
    // Clutch-mates meet in an unnamed parent too.
    const auto& mates = colony.clutches()[*clutch].hatchlings;
    if (mates.front() != a) {
      near[a].push_back(mates.front());
      near[mates.front()].push_back(a);
    }
  }
  std::vector<bool> met(near.size(), false);
  std::vector<std::size_t> stack{animal};
  met[animal] = true;
  while (!stack.empty()) {
    const std::size_t a = stack.back();
    stack.pop_back();
    for (std::size_t b : near[a]) {
      if (met[b]) continue;
      met[b] = true;
      stack.push_back(b);
    }
  }
  return met;
}

// Own observations one by one, relatives' of one day together, by the day they became known; those
// without a day first, relatives before own on the same day.
std::vector<Step> in_order(const Scenario& all, std::size_t animal) {
  using Key = std::tuple<std::string, int, std::size_t>;
  std::map<Key, Step> steps;
  const auto related = relatives(all, animal);
  for (const auto* observation : all.observations) {
    const auto of = colony::animal_of(*observation);
    if (!of || !related[*of]) continue;
    const auto at = static_cast<std::size_t>(observation - all.colony->observations().data());
    const std::string day = observation->known ? observation->known->text() : std::string();
    const bool own = *of == animal;
    Step& step = steps[{day, own ? 1 : 0, own ? at : 0}];
    step.own = own;
    step.observations.push_back(at);
  }
  std::vector<Step> out;
  out.reserve(steps.size());
  for (auto& [key, step] : steps) out.push_back(std::move(step));
  return out;
}

// The Bayes factor; its logarithm is the weight of evidence (Good 1950, Probability and the
// Weighing of Evidence).
//
// Out of both sides' probabilities, so that 1 - 1e-20 is not taken for proof.
double odds_factor(const Chance& before, const Chance& after) {
  if (before.yes == after.yes && before.no == after.no) return 1;
  if (!(after.no > 0) || !(before.yes > 0)) return std::numeric_limits<double>::infinity();
  if (!(after.yes > 0) || !(before.no > 0)) return 0;
  return after.yes / after.no * (before.no / before.yes);
}

// 1 only where it is certain.
double told(const Chance& chance) {
  return chance.no > 0 ? std::min(chance.yes, std::nextafter(1.0, 0.0)) : chance.yes;
}

class Chain {
 public:
  Chain(Scenario all, const Question& question, std::size_t memory_bytes)
      : all_(std::move(all)),
        so_far_(all_),
        question_(question),
        tables_(believed(all_.colony->model())) {
    options_.memory_bytes = memory_bytes;
    so_far_.observations.clear();
  }

  std::variant<Account, Contradiction, TooLarge> run() {
    Account out;
    Chance now = chance();
    out.start = out.end = told(now);
    for (Step& step : in_order(all_, question_.animal)) {
      if (large_ || clash_) break;
      for (std::size_t o : step.observations) {
        so_far_.observations.push_back(&all_.colony->observations()[o]);
      }
      const Chance before = now;
      now = chance();
      step.before = out.end;
      step.after = out.end = told(now);
      step.factor = odds_factor(before, now);
      step.decibans = 10 * std::log10(step.factor);
      (step.own ? out.own_decibans : out.relatives_decibans) += step.decibans;
      // Relatives who changed nothing beyond rounding are no part of the account.
      if (step.own || !(std::abs(step.factor - 1) < 1e-11)) out.steps.push_back(step);
    }
    if (large_) return std::move(*large_);
    if (clash_) return explain(all_, options_);
    return out;
  }

 private:
  Chance chance() {
    auto made = prepare(so_far_, tables_, options_.memory_bytes);
    if (auto* large = std::get_if<TooLarge>(&made)) {
      large_ = std::move(*large);
      return {};
    }
    const auto& ready = *std::get<std::unique_ptr<Prepared>>(made);
    const auto beliefs = inference::infer(*ready.plan, ready.net.values(Layer::posterior, tables_));
    clash_ = !beliefs.possible;
    if (clash_) return {};
    const auto odds = genotype_odds(ready, beliefs, question_.animal, question_.locus);
    const auto copies = genetics::copy_chances(all_.colony->model().loci()[question_.locus], odds,
                                               question_.allele);
    return {copies.one, copies.not_one};
  }

  Scenario all_;
  Scenario so_far_;
  Question question_;
  Options options_;
  Tables tables_;
  std::optional<TooLarge> large_;
  bool clash_ = false;
};

}  // namespace

std::variant<Account, Contradiction, TooLarge> why(const colony::Colony& colony,
                                                   const Question& question,
                                                   const Options& options) {
  return why(scenario(colony, options.as_of), question, options.memory_bytes);
}

std::variant<Account, Contradiction, TooLarge> why(const Scenario& scenario,
                                                   const Question& question,
                                                   std::size_t memory_bytes) {
  return Chain(scenario, question, memory_bytes).run();
}

}  // namespace likelihet::odds
