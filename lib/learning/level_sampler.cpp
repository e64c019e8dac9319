// Levels of one marker alone, and of several at one strength.
#include <span>

#include <likelihet/inference/pick.hpp>
#include <likelihet/learning/level_sampler.hpp>

namespace likelihet::learning {

using inference::pick;

void LevelSampler::at(const odds::Tables& tables) {
  tables_ = &tables;
  for (auto& weights : weights_) weights.clear();
  shared_.clear();
  given_.reset();
}

const std::vector<double>& LevelSampler::weights(std::uint32_t term) {
  if (weights_.size() <= term) weights_.resize(term + 1);
  auto& out = weights_[term];
  if (!out.empty()) return out;
  const odds::Term::Score& score = net_->term(term).scores.front();
  const auto reading = net_->reading_of(score, *tables_);
  for (const auto& row : tables_->rows[score.marker][score.table]) {
    for (std::size_t k = 0; k < reading.size(); ++k) out.push_back(row[k] * reading[k]);
  }
  return out;
}

void LevelSampler::draw(std::uint32_t term, std::size_t cell, inference::RandomBits& random,
                        std::vector<DrawnLevel>& out) {
  out.clear();
  const auto& scores = net_->term(term).scores;
  if (scores.size() == 1) {
    const std::size_t row = scores.front().row_of[cell];
    const std::size_t levels = model_->markers()[scores.front().marker].levels.size();
    out.push_back({row, pick(std::span(weights(term)).subspan(row * levels, levels), random)});
    return;
  }
  if (!given_) given_.emplace(*model_, *tables_, net_->strengths());
  const SharedLevels& shared =
      shared_.try_emplace(term, scores, *net_, *tables_, *given_).first->second;
  const std::size_t strength = pick(shared.strengths(cell), random);
  for (std::size_t s = 0; s < scores.size(); ++s) {
    out.push_back({scores[s].row_of[cell], pick(shared.levels(s, cell, strength), random)});
  }
}

}  // namespace likelihet::learning
