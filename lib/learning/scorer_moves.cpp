// Along the ridge of rows and reliability.
#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>

#include <likelihet/base/log_odds.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/scorer_moves.hpp>

namespace likelihet::learning {

namespace {

constexpr double nowhere = -std::numeric_limits<double>::infinity();

// P(read | another level there), with `levels` of them.
double elsewhere(double sure, std::size_t levels) {
  return (1 - sure) / static_cast<double>(levels - 1);
}

bool all_possible(const std::vector<double>& prior) {
  return std::all_of(prior.begin(), prior.end(), [](double count) { return count > 0; });
}

}  // namespace

ScorerMoves::ScorerMoves(const odds::ColonyNetwork& net, const colony::Model& model,
                         const Counts& prior)
    : net_(&net), model_(&model), prior_(&prior) {
  std::set<std::uint32_t> terms;
  for (const auto& scored : net.scored()) terms.insert(scored.term);
  for (std::size_t s = 0; s < model.scorers().size(); ++s) {
    if (!open({prior.scorers[s].right, prior.scorers[s].wrong})) continue;
    Scorer of{s, {}, {}};
    std::set<std::pair<std::size_t, std::size_t>> tables;
    bool shared = false;
    for (std::uint32_t t : terms) {
      for (const odds::Term::Score& score : net.term(t).scores) {
        const bool mine = std::any_of(score.readings.begin(), score.readings.end(),
                                      [&](const odds::Reading& r) { return r.scorer == s; });
        if (!mine) continue;
        tables.emplace(score.marker, score.table);
        shared = shared || net.term(t).scores.size() > 1;
      }
    }
    if (shared || tables.empty()) continue;
    for (std::uint32_t t : terms) {
      const auto& score = net.term(t).scores.front();
      if (net.term(t).scores.size() == 1 && tables.contains({score.marker, score.table})) {
        of.terms.push_back(t);
      }
    }
    for (const auto& [m, table] : tables) {
      if (odds::membership(model, m)) continue;
      for (std::size_t r = 0; r < prior.rows[m][table].size(); ++r) {
        if (all_possible(prior.rows[m][table][r])) of.rows.push_back({m, table, r});
      }
    }
    scorers_.push_back(std::move(of));
  }
}

// False where some row would leave its simplex.
bool ScorerMoves::moved(const Scorer& of, double sure, odds::Tables& tables) const {
  const double before = tables.scorers[of.scorer];
  for (const Row& at : of.rows) {
    auto& row = tables.rows[at.marker][at.table][at.row];
    const double old_error = elsewhere(before, row.size());
    const double new_error = elsewhere(sure, row.size());
    if (!(before > old_error) || !(sure > new_error)) return false;
    for (double& p : row) {
      p = (old_error + (before - old_error) * p - new_error) / (sure - new_error);
      if (!(p >= odds::least_drawn)) return false;
    }
  }
  tables.scorers[of.scorer] = sure;
  return true;
}

// ln of the density given genotypes, levels summed out, in the log odds of the scorer and with each
// row measured in units of what is read: that is the map's Jacobian.
double ScorerMoves::log_density(const Scorer& of, const ReadingCounts& animals,
                                const odds::Tables& tables) const {
  const double sure = tables.scorers[of.scorer];
  const Readings& belief = prior_->scorers[of.scorer];
  double sum = belief.right * std::log(sure) + belief.wrong * std::log1p(-sure);
  for (const Row& at : of.rows) {
    const auto& row = tables.rows[at.marker][at.table][at.row];
    const auto& prior = prior_->rows[at.marker][at.table][at.row];
    for (std::size_t k = 0; k < row.size(); ++k) sum += (prior[k] - 1) * std::log(row[k]);
    sum -= static_cast<double>(row.size() - 1) * std::log(sure - elsewhere(sure, row.size()));
  }
  for (std::uint32_t t : of.terms) {
    if (t >= animals.size() || animals[t].empty()) continue;
    const odds::Term::Score& score = net_->term(t).scores.front();
    const double weight = model_->markers()[score.marker].weight;
    std::vector<double> reading;
    const double scale = weight * odds::read_score(*model_, score, tables, reading);
    const auto chance =
        odds::row_likelihood(tables.rows[score.marker][score.table], reading, weight);
    for (std::size_t r = 0; r < chance.size(); ++r) {
      if (animals[t][r] > 0) sum += animals[t][r] * (std::log(chance[r]) + scale);
    }
  }
  return sum;
}

void ScorerMoves::move(const ReadingCounts& animals, odds::Tables& tables,
                       inference::RandomBits& random) const {
  std::uniform_real_distribution<double> unit;
  std::normal_distribution<double> normal;
  constexpr int tries = 3;
  for (const Scorer& of : scorers_) {
    double here = log_density(of, animals, tables);
    for (int i = 0; i < tries; ++i) {
      // Steps of many sizes: how far the ridge goes is not known ahead.
      const double scale = std::exp(std::log(0.01) + unit(random) * std::log(200.0));
      const double sure = tables.scorers[of.scorer];
      const double to = base::logistic(base::logit(sure) + scale * normal(random));
      const double chance = unit(random);
      odds::Tables proposed = tables;
      if (!(to < 1) || !moved(of, to, proposed)) continue;
      const double there = log_density(of, animals, proposed);
      if (!(there > nowhere) || !(std::log(chance) < there - here)) continue;
      tables = std::move(proposed);
      here = there;
    }
  }
}

}  // namespace likelihet::learning
