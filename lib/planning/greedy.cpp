// Growing a set: one more test splits the combinations of reports of its part.
#include <algorithm>
#include <cmath>

#include <likelihet/planning/greedy.hpp>

namespace likelihet::planning {

namespace {

// A weighted mean, and the standard error of one over equal draws.
class Mean {
 public:
  void add(double weight, double value) {
    sum_ += weight * value;
    squares_ += weight * value * value;
  }
  [[nodiscard]] Estimate of(bool sampled, std::size_t draws) const {
    if (!sampled || draws < 2) return {sum_, 0};
    const double variance = std::max(squares_ - sum_ * sum_, 0.0);
    return {sum_, std::sqrt(variance / static_cast<double>(draws - 1))};
  }

 private:
  double sum_ = 0;
  double squares_ = 0;
};

}  // namespace

TestSet::TestSet(const TestGround& ground, const SupposedBook& recorded, std::uint64_t seed)
    : ground_(&ground), recorded_(&recorded), random_(seed) {
  const auto& candidates = *ground.candidates;
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    const TestCandidate& of = candidates[c];
    candidates_of_[part_of(of.test.animal, of.locus)].push_back(c);
    const auto odds = recorded.recorded().of(recorded.group_of(of.test.animal, of.locus));
    gains_.push_back({information_bits(odds, ground.classes[of.test.assay]), 0});
  }
}

bool TestSet::contains(std::size_t candidate) const {
  return std::find(chosen_.begin(), chosen_.end(), candidate) != chosen_.end();
}

bool TestSet::sampled() const {
  return std::any_of(parts_.begin(), parts_.end(),
                     [](const auto& entry) { return entry.second.tree.sampled(); });
}

TestSet::Part& TestSet::part(std::size_t number, const SupposedBook& recorded) {
  const auto [found, fresh] = parts_.try_emplace(number, Part{});
  if (!fresh) return found->second;
  found->second.tree = ReportTree(ground_->limits);
  for (std::size_t group = 0; group < recorded.groups().size(); ++group) {
    const AlikeAnimals& alike = recorded.groups()[group];
    if (part_of(alike.animals.front(), alike.locus) != number) continue;
    const auto odds = recorded.recorded().of(group);
    const auto count = static_cast<double>(alike.animals.size());
    found->second.entropy += count * entropy_bits(odds);
    found->second.worth += count * ground_->worth->of(alike.locus, odds);
  }
  return found->second;
}

std::optional<odds::TooLarge> TestSet::add(std::size_t candidate) {
  const TestCandidate& added = (*ground_->candidates)[candidate];
  const odds::GenotypePlace place{added.test.animal, added.locus};
  const std::size_t number = part_of(place.animal, place.locus);
  Part next = part(number, *recorded_);
  std::vector<std::vector<double>> genotypes;
  const auto keep = [&](const SupposedBook& book) {
    const std::size_t group = book.group_of(place.animal, place.locus);
    book.run(next.tree.sets(), [&](std::size_t, const EveryonesOdds& odds) {
      genotypes.emplace_back(odds.of(group).begin(), odds.of(group).end());
    });
  };
  keep(next.book ? *next.book : *recorded_);
  next.places.push_back(place);
  auto made = SupposedBook::make(*ground_->colony, ground_->question, next.places, ground_->loci);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  next.book = std::get<std::unique_ptr<SupposedBook>>(std::move(made));
  next.tree.add(place, ground_->classes[added.test.assay], genotypes, random_);
  bits_.value += gains_[candidate].value;
  // Draws of later steps are those of earlier ones, so errors may add up.
  bits_.standard_error += gains_[candidate].standard_error;
  chosen_.push_back(candidate);
  evaluate(number, next);
  parts_[number] = std::move(next);
  return std::nullopt;
}

void TestSet::evaluate(std::size_t number, Part& part) {
  const auto& candidates = candidates_of_[number];
  const SupposedBook& book = *part.book;
  std::vector<std::size_t> groups;
  for (std::size_t group = 0; group < book.groups().size(); ++group) {
    const AlikeAnimals& alike = book.groups()[group];
    if (part_of(alike.animals.front(), alike.locus) == number) groups.push_back(group);
  }
  // Candidates of alike animals have one gain between them.
  std::map<std::pair<std::size_t, std::size_t>, Mean> means;  // by group and assay
  std::vector<Mean*> mean_of;
  for (const std::size_t c : candidates) {
    const TestCandidate& of = (*ground_->candidates)[c];
    mean_of.push_back(&means[{book.group_of(of.test.animal, of.locus), of.test.assay}]);
  }
  double entropy = 0;
  double worth = 0;
  book.run(part.tree.sets(), [&](std::size_t set, const EveryonesOdds& odds) {
    const double weight = part.tree.branches()[set].weight;
    for (auto& [kind, mean] : means) {
      mean.add(weight, information_bits(odds.of(kind.first), ground_->classes[kind.second]));
    }
    for (const std::size_t group : groups) {
      const AlikeAnimals& alike = book.groups()[group];
      const double share = weight * static_cast<double>(alike.animals.size());
      entropy += share * entropy_bits(odds.of(group));
      worth += share * ground_->worth->of(alike.locus, odds.of(group));
    }
  });
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    gains_[candidates[i]] = mean_of[i]->of(part.tree.sampled(), part.tree.branches().size());
  }
  listing_bits_ += part.entropy - entropy;
  worth_ += worth - part.worth;
  part.entropy = entropy;
  part.worth = worth;
}

}  // namespace likelihet::planning
