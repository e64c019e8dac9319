// Strengths and levels given readings.
#include <map>

#include <likelihet/learning/shared_levels.hpp>

namespace likelihet::learning {

SharedLevels::SharedLevels(const std::vector<odds::Term::Score>& scores,
                           const odds::ColonyNetwork& net, const odds::Tables& tables,
                           const odds::GivenStrength& given)
    : scores_(&scores), net_(&net), given_(&given) {
  const std::size_t points = net.strengths().weight.size();
  for (const odds::Term::Score& score : scores) {
    const auto& reading = readings_.emplace_back(net.reading_of(score, tables));
    const std::size_t rows = tables.rows[score.marker][score.table].size();
    auto& sums = sums_.emplace_back(rows * points, 0.0);
    for (std::size_t r = 0; r < rows; ++r) {
      for (std::size_t k = 0; k < reading.size(); ++k) {
        const auto chance = given.at(score.marker, score.table, r, k);
        for (std::size_t q = 0; q < points; ++q) sums[r * points + q] += chance[q] * reading[k];
      }
    }
  }
}

std::vector<double> SharedLevels::strengths(std::size_t cell) const {
  std::vector<double> out = net_->strengths().weight;
  for (std::size_t s = 0; s < scores_->size(); ++s) {
    const double* sums = sums_[s].data() + (*scores_)[s].row_of[cell] * out.size();
    for (std::size_t q = 0; q < out.size(); ++q) out[q] *= sums[q];
  }
  return out;
}

std::vector<double> SharedLevels::levels(std::size_t s, std::size_t cell, std::size_t q) const {
  const odds::Term::Score& score = (*scores_)[s];
  std::vector<double> out = readings_[s];
  for (std::size_t k = 0; k < out.size(); ++k) {
    out[k] *= given_->at(score.marker, score.table, score.row_of[cell], k)[q];
  }
  return out;
}

void SharedLevels::count(std::span<const double> joint, Counts& counts) const {
  // Genotypes with the same rows count as one.
  std::map<std::vector<std::size_t>, std::pair<std::size_t, double>> by_rows;
  for (std::size_t cell = 0; cell < joint.size(); ++cell) {
    if (!(joint[cell] > 0)) continue;
    std::vector<std::size_t> rows;
    for (const auto& score : *scores_) rows.push_back(score.row_of[cell]);
    by_rows.try_emplace(rows, cell, 0.0).first->second.second += joint[cell];
  }
  for (const auto& [rows, of] : by_rows) {
    const auto& [cell, chance] = of;
    auto strength = strengths(cell);
    double whole = 0;
    for (double p : strength) whole += p;
    if (!(whole > 0)) continue;
    for (std::size_t s = 0; s < scores_->size(); ++s) {
      const odds::Term::Score& score = (*scores_)[s];
      const double* sums = sums_[s].data() + rows[s] * strength.size();
      auto& by_strength = counts.by_strength[score.marker][score.table][rows[s]];
      std::vector<double> level_chance(readings_[s].size(), 0.0);
      for (std::size_t k = 0; k < level_chance.size(); ++k) {
        const auto given = given_->at(score.marker, score.table, rows[s], k);
        for (std::size_t q = 0; q < strength.size(); ++q) {
          if (!(strength[q] > 0)) continue;
          const double share = chance * strength[q] / whole * given[q] * readings_[s][k] / sums[q];
          by_strength[k * strength.size() + q] += share;
          level_chance[k] += share;
        }
        counts.rows[score.marker][score.table][rows[s]][k] += level_chance[k];
      }
      count_readings(score, level_chance, counts);
    }
  }
}

void count_readings(const odds::Term::Score& score, const std::vector<double>& level_chance,
                    Counts& counts) {
  for (const odds::Reading& one : score.readings) {
    if (!one.scorer) continue;
    for (std::size_t k = 0; k < level_chance.size(); ++k) {
      auto& of = counts.scorers[*one.scorer];
      (k == one.level ? of.right : of.wrong) += level_chance[k];
    }
  }
}

}  // namespace likelihet::learning
