// What a keeper has decided about publishing odds and paying for tests: the policy. A document of
// its own, kept in the book; nothing in it changes any odds.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/model_description.hpp>

namespace likelihet::colony {

/// When markers may move a published percentage. The defaults are the strict ones.
struct MarkerPolicy {
  bool count = true;            ///< false: never, whatever the audit says
  std::size_t forecasts = 20;   ///< resolved forecasts needed, 1 or more
  double skill_above = 0;       ///< below the 95 % interval of the skill against pedigree
  double slope_at_least = 0.8;  ///< of calibration
  friend bool operator==(const MarkerPolicy&, const MarkerPolicy&) = default;
};

/// What an animal is worth to its keeper, by its genotype at one locus: the gain of a test is what
/// better decisions between keeping and selling are worth. In the currency of the policy.
struct WorthPolicy {
  std::string locus;
  Named<double> kept;  ///< genotype key -> worth of such an animal held back; not named = 0
  double sold = 0;     ///< what selling it now brings, whatever its genotype; 0 or more
  friend bool operator==(const WorthPolicy&, const WorthPolicy&) = default;
};

/// What an assay costs here, in place of the model's price.
struct PricePolicy {
  std::string assay;
  double price = 0;  ///< 0 or more
  friend bool operator==(const PricePolicy&, const PricePolicy&) = default;
};

/// How well a health note is supported; shown beside it.
enum class Grade { study, reports, unknown };

/// What is said of health wherever the locus is listed or paired, beside the model's `caution`.
struct HealthPolicy {
  std::string locus;
  std::string note;
  Grade grade = Grade::unknown;  ///< a published study; keepers' reports; not known
  std::optional<std::string> source;
  friend bool operator==(const HealthPolicy&, const HealthPolicy&) = default;
};

/// The whole document. Default: what a book without a policy goes by.
struct Policy {
  std::string name;
  MarkerPolicy markers;
  /// Published percentages are multiples of it, rounded down: never up. In (0, 0.25].
  double step = 0.05;
  /// One test in so many is for an animal drawn by lot, so that the audit sees unselected ones; 0:
  /// none.
  std::size_t random_one_in = 5;
  std::optional<std::string> currency;
  std::vector<PricePolicy> prices;
  std::vector<WorthPolicy> worth;
  std::vector<HealthPolicy> health;
  friend bool operator==(const Policy&, const Policy&) = default;
};

/// Everything in the policy that is out of range or does not fit the model: unknown loci, assays
/// and genotypes with the nearest known ones, things named twice. Places are JSON Pointers into the
/// policy document. Empty: it fits.
Faults policy_faults(const Policy& policy, const Model& model);

/// What a test costs: the policy's price, else the model's; nothing where neither gives one.
std::optional<double> price_of(const Policy& policy, const Assay& assay);

}  // namespace likelihet::colony
