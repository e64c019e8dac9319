// From records and places to odds under suppositions.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <likelihet/odds/contradiction.hpp>
#include <likelihet/planning/supposed_book.hpp>

namespace likelihet::planning {

std::variant<std::unique_ptr<SupposedBook>, odds::Contradiction, odds::TooLarge> SupposedBook::make(
    const colony::Colony& colony, const SupposedQuestion& question,
    const std::vector<odds::GenotypePlace>& places, const std::vector<std::size_t>& loci) {
  odds::Scenario all = odds::scenario(colony, question.as_of);
  all.supposed = places;
  auto made = odds::prepare(all, odds::believed(colony.model()), question.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto clash = [&] {
    odds::Options options;
    options.as_of = question.as_of;
    options.memory_bytes = question.memory_bytes;
    return odds::explain(odds::scenario(colony, question.as_of), options);
  };
  std::unique_ptr<SupposedBook> out(new SupposedBook());
  out->prepared_ = std::get<std::unique_ptr<odds::Prepared>>(std::move(made));
  if (out->prepared_->plan->impossible()) return clash();
  out->model_ = &colony.model();
  out->loci_ = colony.model().loci().size();
  out->memory_bytes_ = question.memory_bytes;
  out->sort_targets(colony.animals().size(), loci);
  const std::array<odds::SupposedSet, 1> nothing;
  out->run(nothing, [&](std::size_t, const EveryonesOdds& odds) { out->recorded_ = odds; });
  if (std::isinf(out->recorded_->log_evidence)) return clash();
  return out;
}

// By their place in the network, which does not depend on the order of the records.
void SupposedBook::sort_targets(std::size_t animals, const std::vector<std::size_t>& loci) {
  const odds::DrawTargets all(*prepared_, animals, loci_);
  std::map<odds::DrawTarget, std::vector<std::size_t>> sorted;
  for (std::size_t a = 0; a < animals; ++a) {
    for (std::size_t l : loci) sorted[all.list[all.of[a * loci_ + l]]].push_back(a);
  }
  group_of_.assign(animals * loci_, SIZE_MAX);
  begin_.push_back(0);
  for (auto& [target, alike] : sorted) {
    for (std::size_t a : alike) group_of_[a * loci_ + target.locus] = groups_.size();
    targets_.push_back(target);
    begin_.push_back(begin_.back() + model_->loci()[target.locus].size());
    groups_.push_back({target.locus, std::move(alike)});
  }
}

void SupposedBook::run(
    std::span<const odds::SupposedSet> sets,
    const std::function<void(std::size_t set, const EveryonesOdds&)>& visit) const {
  std::vector<EveryonesOdds> now(odds::draws_side_by_side,
                                 EveryonesOdds(std::vector<double>(begin_.back()), &begin_));
  odds::DrawStep step;
  std::size_t left = 0;  // targets of this step that are still to come
  const auto hand_on = [&] {
    for (std::size_t k = 0; k < step.count; ++k) visit(step.first + k, now[k]);
  };
  odds::run_supposed(
      *prepared_, *model_, targets_, sets, memory_bytes_,
      [&](const odds::DrawStep& next) {
        step = next;
        for (std::size_t k = 0; k < step.count; ++k) now[k].log_evidence = step.log_evidence[k];
        left = targets_.size();
        if (left == 0) hand_on();
      },
      [&](std::size_t target, const odds::DrawStep&, std::span<const odds::DrawLanes> posterior) {
        for (std::size_t k = 0; k < step.count; ++k) {
          for (std::size_t g = 0; g < posterior.size(); ++g) {
            now[k].numbers_[begin_[target] + g] = posterior[g].lane[k];
          }
        }
        if (--left == 0) hand_on();
      });
}

std::vector<double> SupposedBook::log_chances(std::span<const odds::SupposedSet> sets) const {
  std::vector<double> out;
  odds::run_supposed(
      *prepared_, *model_, {}, sets, memory_bytes_,
      [&](const odds::DrawStep& step) {
        for (std::size_t k = 0; k < step.count; ++k) {
          out.push_back(step.log_evidence[k] - recorded_->log_evidence);
        }
      },
      [](std::size_t, const odds::DrawStep&, std::span<const odds::DrawLanes>) {});
  return out;
}

}  // namespace likelihet::planning
