// The book with room for evidence that may be supposed: everyone's odds under many sets of it.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <variant>
#include <vector>

#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/supposed.hpp>

namespace likelihet::planning {

/// Animals whose odds at a locus are alike whatever is supposed.
struct AlikeAnimals {
  std::size_t locus = 0;
  std::vector<std::size_t> animals;
};

/// Everyone's odds under one set.
class EveryonesOdds {
 public:
  EveryonesOdds(std::vector<double> numbers, const std::vector<std::size_t>* begin)
      : numbers_(std::move(numbers)), begin_(begin) {}
  /// Over the genotypes of the group's locus; all 0 where the set is impossible.
  [[nodiscard]] std::span<const double> of(std::size_t group) const {
    return {numbers_.data() + (*begin_)[group], numbers_.data() + (*begin_)[group + 1]};
  }
  double log_evidence = 0;  ///< as odds::run_supposed() tells it

 private:
  friend class SupposedBook;
  std::vector<double> numbers_;
  const std::vector<std::size_t>* begin_;
};

/// What a plan of supposed evidence is asked of.
struct SupposedQuestion {
  std::optional<colony::Date> as_of;
  std::size_t memory_bytes = odds::Options{}.memory_bytes;
};

/// A network and a plan, made once for all sets. The colony must outlive it. At the model's
/// believed tables. Not movable for readers' spans; held by pointer.
class SupposedBook {
 public:
  /// `places`: where evidence may be supposed. Only genotypes at `loci` are read. Too large, or the
  /// smallest set of records found that cannot all be true.
  static std::variant<std::unique_ptr<SupposedBook>, odds::Contradiction, odds::TooLarge> make(
      const colony::Colony& colony, const SupposedQuestion& question,
      const std::vector<odds::GenotypePlace>& places, const std::vector<std::size_t>& loci);

  /// In an order that does not depend on that of the records.
  [[nodiscard]] const std::vector<AlikeAnimals>& groups() const { return groups_; }
  /// The group of an animal at one of the loci.
  [[nodiscard]] std::size_t group_of(std::size_t animal, std::size_t locus) const {
    return group_of_[animal * loci_ + locus];
  }
  /// Everyone's odds as recorded.
  [[nodiscard]] const EveryonesOdds& recorded() const { return *recorded_; }
  /// Everyone's odds under each set, in order.
  void run(std::span<const odds::SupposedSet> sets,
           const std::function<void(std::size_t set, const EveryonesOdds&)>& visit) const;
  /// ln P(set | recorded) of each, nats, for likelihoods that are chances; -infinity where it
  /// cannot be. Reads no odds.
  [[nodiscard]] std::vector<double> log_chances(std::span<const odds::SupposedSet> sets) const;

 private:
  SupposedBook() = default;
  void sort_targets(std::size_t animals, const std::vector<std::size_t>& loci);

  const colony::Model* model_ = nullptr;
  std::size_t loci_ = 0;
  std::size_t memory_bytes_ = 0;
  std::unique_ptr<odds::Prepared> prepared_;
  std::vector<odds::DrawTarget> targets_;
  std::vector<AlikeAnimals> groups_;
  std::vector<std::size_t> group_of_;
  std::vector<std::size_t> begin_;  // by group, one more at the end
  std::optional<EveryonesOdds> recorded_;
};

}  // namespace likelihet::planning
