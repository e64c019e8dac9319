// Sums with some genotypes held, over the sum without.
#include <algorithm>
#include <bit>
#include <cmath>

#include <likelihet/planning/kept_sets.hpp>

namespace likelihet::planning {

KeptSets::KeptSets(const SupposedBook& book, const KeepGoal& goal, std::vector<std::size_t> animals,
                   std::vector<std::size_t> alike)
    : book_(&book), goal_(&goal), animals_(std::move(animals)), alike_(std::move(alike)) {
  for (const std::size_t animal : animals_) {
    const auto odds = book.recorded().of(book.group_of(animal, goal.locus));
    double sum = 0;
    for (std::size_t g = 0; g < odds.size(); ++g) sum += goal.meets[g] ? odds[g] : 0.0;
    chances_.push_back(std::min(sum, 1.0));
  }
}

std::vector<std::size_t> KeptSets::likeness(const Set& set) const {
  std::vector<std::size_t> out;
  for (const std::size_t position : set) out.push_back(alike_[position]);
  std::sort(out.begin(), out.end());
  return out;
}

odds::Supposition KeptSets::held(std::size_t position, bool meets) const {
  odds::Supposition out{{animals_[position], goal_->locus}, {}};
  for (const bool good : goal_->meets) out.likelihood.push_back(good == meets ? 1.0 : 0.0);
  return out;
}

void KeptSets::prepare(const std::vector<Set>& sets) {
  std::map<std::vector<std::size_t>, odds::SupposedSet> wanted;
  for (const Set& set : sets) {
    auto key = likeness(set);
    if (none_.contains(key) || wanted.contains(key)) continue;
    odds::SupposedSet held_out;
    for (const std::size_t position : set) held_out.push_back(held(position, false));
    wanted.emplace(std::move(key), std::move(held_out));
  }
  std::vector<odds::SupposedSet> asked;
  asked.reserve(wanted.size());
  for (const auto& [key, set] : wanted) asked.push_back(set);
  const auto logs = book_->log_chances(asked);
  std::size_t next = 0;
  for (const auto& [key, set] : wanted) {
    none_.emplace(key, set.empty() ? 1.0 : std::min(std::exp(logs[next]), 1.0));
    ++next;
  }
}

double KeptSets::none(const Set& set) {
  prepare({set});
  return none_.at(likeness(set));
}

std::vector<double> KeptSets::counts(const Set& set) const {
  std::vector<odds::SupposedSet> asked;
  const std::size_t combinations = std::size_t{1} << set.size();
  for (std::size_t c = 0; c < combinations; ++c) {
    auto& one = asked.emplace_back();
    for (std::size_t i = 0; i < set.size(); ++i) one.push_back(held(set[i], ((c >> i) & 1U) != 0));
  }
  const auto logs = book_->log_chances(asked);
  std::vector<double> out(set.size() + 1, 0.0);
  for (std::size_t c = 0; c < combinations; ++c) {
    out[static_cast<std::size_t>(std::popcount(c))] += std::exp(logs[c]);
  }
  return out;
}

}  // namespace likelihet::planning
