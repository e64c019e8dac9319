// A colony: animals, clutches and observations that fit one model; checked once, then immutable.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::colony {

/// A founder's genotype as it was sold. `odds` has one entry a genotype of the locus, in state
/// order; on an autosome it sums to 1, on a sex chromosome the keys of each sex are as written (the
/// reader renormalises within the sex).
struct BoughtAs {
  std::size_t locus = 0;
  std::vector<double> odds;
  double trust = 1;
};

/// An animal with its clutch's date and line where it has none of its own.
struct Animal {
  std::string id;
  /// As recorded, or else as its part in a clutch says (a dam is female, a sire is male).
  std::optional<genetics::Sex> sex;
  std::optional<std::size_t> clutch;  ///< empty for a founder
  std::optional<std::size_t> origin;  ///< of a founder
  std::string line;                   ///< its own, or its clutch's; may be empty
  std::optional<Date> hatched;        ///< its own, or its clutch's
  std::vector<BoughtAs> bought_as;
};

/// A male that may have fathered a clutch.
struct Sire {
  std::size_t animal = 0;
  double share = 1;  ///< normalised: a clutch's shares sum to 1, each > 0
};

/// A clutch or a litter.
struct Clutch {
  std::string id;
  std::optional<std::size_t> dam;  ///< empty: an anonymous founder out of `dam_origin`
  std::vector<Sire> sires;         ///< empty: an anonymous founder out of `sire_origin`
  Paternity paternity = Paternity::single;
  std::optional<std::size_t> dam_origin;
  std::optional<std::size_t> sire_origin;
  std::optional<Date> laid;
  std::optional<Date> hatched;
  std::vector<std::size_t> hatchlings;  ///< animals, in their order
};

/// An animal seen to show an appearance of a locus.
struct AppearanceSeen {
  std::size_t animal, locus, appearance;
};
/// One reading of a marker.
struct Score {
  std::size_t animal, marker;
  std::optional<std::size_t> level;  ///< empty: could not be scored, no evidence
  double sure = 1;                   ///< the reading's own, else its scorer's, else 1
  std::optional<std::size_t> scorer;
  std::optional<bool> blind;
};
/// A laboratory's report; `sample` is the number on the bag, perhaps empty.
struct Result {
  std::size_t animal, assay, report;
  std::string sample;
};
/// Offspring that were counted only.
struct Brood {
  std::size_t animal, locus, partner;  ///< partner: a genotype of the locus
  std::vector<std::pair<std::size_t, std::int64_t>> offspring;  ///< (appearance, count > 0)
};
struct Withdrawal {
  std::size_t of;  ///< an observation
};

struct Observation {
  std::string id;
  std::variant<AppearanceSeen, Score, Result, Brood, Withdrawal> what;
  std::optional<Date> on;
  /// The day from which `--as-of` counts it: `recorded` where given, else `on`, else when it was
  /// entered in the book; empty where none is known (then it always counts).
  std::optional<Date> known;
};

/// Immutable once made. Positions in animals(), clutches() and observations() are those of the
/// records it was made from.
class Colony {
 public:
  /// The colony, or every fault of the records, each placed by its record's `place` (a JSON Pointer
  /// or a row). Faults found: unknown ids with the nearest known one, two records of one id, cycles
  /// in the pedigree with the animals in them, an animal that is its own parent, a dam recorded as
  /// male or a sire as female, a founder's fields on a hatchling, genotype keys a sex can't have,
  /// marks read and results taken before hatching, parents younger than their young, more
  /// hatchlings than eggs, shares or odds out of range, withdrawals of nothing or in a circle.
  static std::variant<Colony, Faults> make(std::shared_ptr<const Model> model,
                                           const Records& records);

  [[nodiscard]] const Model& model() const { return *model_; }
  [[nodiscard]] const std::shared_ptr<const Model>& shared_model() const { return model_; }
  [[nodiscard]] const std::vector<Animal>& animals() const { return animals_; }
  [[nodiscard]] const std::vector<Clutch>& clutches() const { return clutches_; }
  [[nodiscard]] const std::vector<Observation>& observations() const { return observations_; }
  [[nodiscard]] std::optional<std::size_t> find_animal(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_clutch(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_observation(std::string_view id) const;

 private:
  Colony() = default;
  std::shared_ptr<const Model> model_;
  std::vector<Animal> animals_;
  std::vector<Clutch> clutches_;
  std::vector<Observation> observations_;
  std::unordered_map<std::string, std::size_t> animal_ids_, clutch_ids_, observation_ids_;
};

/// The animal an observation speaks of; nothing for a withdrawal.
std::optional<std::size_t> animal_of(const Observation& observation);

}  // namespace likelihet::colony
