// A colony: animals, clutches and observations that fit one model; checked once, then immutable.
// Where records refer to one another by id, a colony refers by position, so that nothing after it
// looks an id up or meets an unknown one.
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
/// reader renormalises within the sex). A claim, not evidence: it is mixed into the founder's prior
/// by how far it is trusted.
struct BoughtAs {
  /// Of the model; one claim a locus at most.
  std::size_t locus = 0;
  std::vector<double> odds;
  /// In [0, 1]; 0 leaves the prior as it was.
  double trust = 1;
};

/// An animal with its clutch's date and line where it has none of its own.
struct Animal {
  std::string id;
  /// As recorded, or else as its part in a clutch says (a dam is female, a sire is male).
  std::optional<genetics::Sex> sex;
  std::optional<std::size_t> clutch;  ///< empty for a founder
  /// Position among the model's origins; empty where none was given: all first alleles.
  std::optional<std::size_t> origin;  ///< of a founder
  std::string line;                   ///< its own, or its clutch's; may be empty
  std::optional<Date> hatched;        ///< its own, or its clutch's
  std::vector<BoughtAs> bought_as;
};

/// A male that may have fathered a clutch. Never one with a share of 0: those are dropped when the
/// colony is made.
struct Sire {
  std::size_t animal = 0;
  double share = 1;  ///< normalised: a clutch's shares sum to 1, each > 0
};

/// A clutch or a litter.
struct Clutch {
  std::string id;
  std::optional<std::size_t> dam;  ///< empty: an anonymous founder out of `dam_origin`
  std::vector<Sire> sires;         ///< empty: an anonymous founder out of `sire_origin`
  /// Matters with several sires only.
  Paternity paternity = Paternity::single;
  std::optional<std::size_t> dam_origin;
  std::optional<std::size_t> sire_origin;
  std::optional<Date> laid;
  std::optional<Date> hatched;
  /// Those recorded as animals; more may have hatched or been laid.
  std::vector<std::size_t> hatchlings;  ///< animals, in their order
};

/// An animal seen to show an appearance of a locus. Positions: of the animal, of the locus in the
/// model, of the appearance in the locus.
struct AppearanceSeen {
  std::size_t animal, locus, appearance;
};
/// One reading of a marker. Several readings of one marker on one animal all count; they look at
/// one true level.
struct Score {
  std::size_t animal, marker;
  std::optional<std::size_t> level;  ///< empty: could not be scored, no evidence
  double sure = 1;                   ///< the reading's own, else its scorer's, else 1
  std::optional<std::size_t> scorer;
  /// Whether the scorer knew neither parents nor odds; kept for the keeper, it changes no odds.
  std::optional<bool> blind;
  bool own_sure = false;  ///< whether the reading itself gave `sure`
};
/// A laboratory's report; `sample` is the number on the bag, perhaps empty. Two reports on one
/// animal count as independent, also from one sample.
struct Result {
  std::size_t animal, assay, report;
  std::string sample;
};
/// Offspring that were counted only. `animal` is one parent; the other is known by its genotype at
/// this locus alone. Without offspring it tells nothing.
struct Brood {
  std::size_t animal, locus, partner;  ///< partner: a genotype of the locus
  std::vector<std::pair<std::size_t, std::int64_t>> offspring;  ///< (appearance, count > 0)
};
/// An observation is never changed: it is taken back, and may be given again under another id.
struct Withdrawal {
  std::size_t of;  ///< an observation
};

/// One entry, checked: every position in it exists.
struct Observation {
  std::string id;
  std::variant<AppearanceSeen, Score, Result, Brood, Withdrawal> what;
  /// The day it was seen. Not before the animal hatched, where both are known.
  std::optional<Date> on;
  /// The day from which `--as-of` counts it: `recorded` where given, else `on`, else when it was
  /// entered in the book; empty where none is known (then it always counts).
  std::optional<Date> known;
};

/// Immutable once made. Positions in animals(), clutches() and observations() are those of the
/// records it was made from. Shares its model and owns the rest. Copies are deep but for the model.
class Colony {
 public:
  /// The colony, or every fault of the records, each placed by its record's `place` (a JSON Pointer
  /// or a row). Faults found: unknown ids with the nearest known one, two records of one id, cycles
  /// in the pedigree with the animals in them, an animal that is its own parent, a dam recorded as
  /// male or a sire as female, a founder's fields on a hatchling, genotype keys a sex can't have,
  /// markers read and results taken before hatching, parents younger than their offspring, more
  /// hatchlings than eggs, shares or odds out of range, withdrawals of nothing or in a circle. The
  /// records are only read. Throws std::invalid_argument without a model. All checks run, whatever
  /// the first ones found, and the first 1000 faults are kept. About linear in the records.
  static std::variant<Colony, Faults> make(std::shared_ptr<const Model> model,
                                           const Records& records);

  [[nodiscard]] const Model& model() const { return *model_; }
  [[nodiscard]] const std::shared_ptr<const Model>& shared_model() const { return model_; }
  [[nodiscard]] const std::vector<Animal>& animals() const { return animals_; }
  [[nodiscard]] const std::vector<Clutch>& clutches() const { return clutches_; }
  [[nodiscard]] const std::vector<Observation>& observations() const { return observations_; }
  /// The position of the record of this id, or nothing; constant time.
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
