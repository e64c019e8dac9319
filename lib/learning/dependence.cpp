// Products of standardised levels, as drawn behind the readings and as drawn anew.
#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/dependence.hpp>

namespace likelihet::learning {

namespace {

// A level's distance from its row's mean level, in the row's standard deviations; 0 in a row of one
// level.
double standardised(const std::vector<double>& row, std::size_t level) {
  double mean = 0;
  double square = 0;
  for (std::size_t k = 0; k < row.size(); ++k) {
    mean += row[k] * static_cast<double>(k);
    square += row[k] * static_cast<double>(k * k);
  }
  const double variance = square - mean * mean;
  return variance > 0 ? (static_cast<double>(level) - mean) / std::sqrt(variance) : 0.0;
}

}  // namespace

DependenceCheck::DependenceCheck(const odds::Prepared& prepared, const colony::Model& model)
    : prepared_(&prepared), levels_(prepared.net, model) {
  // Scores in the order of ColonyNetwork::scored(), one for each marker of each animal.
  std::map<std::size_t, std::vector<std::size_t>> by_animal;
  std::vector<std::size_t> markers;
  for (const auto& scored : prepared.net.scored()) {
    for (const auto& score : prepared.net.term(scored.term).scores) {
      by_animal[scored.animal].push_back(markers.size());
      markers.push_back(score.marker);
    }
  }
  std::map<std::pair<std::size_t, std::size_t>, Pair> found;
  const auto marker = [&](std::size_t s) { return markers[s]; };
  for (const auto& [animal, scores] : by_animal) {
    for (std::size_t i = 0; i < scores.size(); ++i) {
      for (std::size_t j = 0; j < scores.size(); ++j) {
        if (marker(scores[i]) >= marker(scores[j])) continue;
        Pair& pair = found[{marker(scores[i]), marker(scores[j])}];
        pair.first = marker(scores[i]);
        pair.second = marker(scores[j]);
        pair.scores.emplace_back(scores[i], scores[j]);
      }
    }
  }
  for (auto& [key, pair] : found) {
    if (pair.scores.size() >= least_animals) pairs_.push_back(std::move(pair));
  }
}

void DependenceCheck::add(const Chain& chain, inference::RandomBits& random) {
  // Levels drawn behind the readings, and anew from the same rows, standardised; by score.
  std::vector<double> seen;
  std::vector<double> anew;
  const odds::Tables& tables = chain.tables_before();
  levels_.at(tables);
  std::vector<DrawnLevel> drawn;
  for (const auto& scored : prepared_->net.scored()) {
    levels_.draw(scored.term, cell_of(prepared_->net, scored, chain.genotypes()), random, drawn);
    const auto& scores = prepared_->net.term(scored.term).scores;
    for (std::size_t s = 0; s < scores.size(); ++s) {
      const auto& row = tables.rows[scores[s].marker][scores[s].table][drawn[s].row];
      seen.push_back(standardised(row, drawn[s].level));
      anew.push_back(standardised(
          row, std::discrete_distribution<std::size_t>(row.begin(), row.end())(random)));
    }
  }
  for (Pair& pair : pairs_) {
    double observed = 0;
    double drawn_anew = 0;
    for (const auto& [a, b] : pair.scores) {
      observed += seen[a] * seen[b];
      drawn_anew += anew[a] * anew[b];
    }
    pair.sum += observed / static_cast<double>(pair.scores.size());
    pair.as_far += std::abs(drawn_anew) >= std::abs(observed) ? 1 : 0;
  }
  ++draws_;
}

std::vector<Dependence> DependenceCheck::result() const {
  std::vector<Dependence> out;
  for (const Pair& pair : pairs_) {
    const auto draws = static_cast<double>(std::max<std::size_t>(draws_, 1));
    out.push_back({pair.first, pair.second, pair.scores.size(), pair.sum / draws,
                   static_cast<double>(pair.as_far + 1) / static_cast<double>(draws_ + 1)});
  }
  return out;
}

}  // namespace likelihet::learning
