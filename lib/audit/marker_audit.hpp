// What a marker was worth: for one locus, in one context.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/marker_readings.hpp>
#include <likelihet/audit/marker_subjects.hpp>
#include <likelihet/audit/truths.hpp>

namespace likelihet::audit {

/// At a cut: the marker is positive where its level is `at_least` or higher. `naive`: among animals
/// whose truth is known alone. `corrected`: all animals, by their chance to be hets
/// (level_mixture.hpp). The direction is fixed: higher levels speak for hets.
struct CutAudit {
  std::size_t at_least = 1;
  struct Both {
    Estimate naive;
    Estimate corrected;
  };
  Both sensitivity, specificity, positive_ratio, negative_ratio;
  /// Of known animals, by Mantel and Haenszel over clutches; nothing where no clutch tells.
  std::optional<Estimate> odds_ratio_within;
  Estimate odds_ratio_pooled;  ///< corrected
};

/// The same marker in part of the animals: their odds ratio at the lowest cut, corrected.
struct GroupAudit {
  enum class By : std::uint8_t { line, scorer, season, blinding, carriers_of };
  By by = By::line;
  std::string name;
  std::size_t animals = 0;
  std::size_t known = 0;
  double log_odds_ratio = 0;
  double variance = 0;
  Estimate odds_ratio;
};

struct Tested {
  double p = 1;
  double adjusted = 1;  ///< over all markers of the audit (Benjamini and Hochberg 1995)
};

/// By fixed rules (verdict.hpp).
enum class Verdict : std::uint8_t {
  predicts,
  no_evidence_yet,
  does_not_predict,
  only_in_some_lines,
  explained_by_another_trait,
  only_unblinded
};

/// A marker goes with another trait where the p of that is below this: smaller than for the marker
/// itself, since every other trait is tried.
inline constexpr double other_trait_significant = 0.01;

/// Another trait whose hets show the marker.
struct OtherTrait {
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  double p = 1;     ///< that the marker does not follow it, given this trait
  double left = 1;  ///< that nothing of this trait is left once it is taken into account
};

struct MarkerAudit {
  std::size_t marker = 0;
  std::size_t table = 0;  ///< 0: the marker's own rows; 1 + c: context c
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  std::size_t animals = 0;  ///< with a level, and not showing two copies
  std::size_t known = 0;    ///< of them, with a known truth
  std::size_t masked = 0, not_scorable = 0, too_late = 0;
  std::vector<double> known_carriers, known_others;          ///< animals by level
  std::vector<double> estimated_carriers, estimated_others;  ///< P(level | class), corrected
  std::vector<CutAudit> cuts;
  double bits = 0;  ///< of information on being het, at the share of hets seen
  std::optional<Interval> bits_interval;  ///< bootstrap by clutch
  std::size_t clutches = 0;               ///< in which animals were scored
  std::size_t informative_clutches = 0;
  double within_clutch_z = 0;
  Tested pooled, within_clutch;
  std::optional<Tested> adds_to_others;      ///< nothing where no other marker was read
  std::optional<std::size_t> nearest_other;  ///< the marker that leaves least of it
  std::optional<double> lines_differ;        ///< p of homogeneity over lines
  std::optional<double> blinding_differs;    ///< p of homogeneity, blind against not
  std::vector<GroupAudit> groups;
  std::optional<OtherTrait> other;
  Verdict verdict = Verdict::no_evidence_yet;
  std::string why;
};

/// What markers are audited against: readings, and what everything but markers says.
struct MarkerBackground {
  std::vector<MarkerReadings> readings;
  MarkerlessTable markerless;
  double yes = 0.99;
  double no = 0.01;
};

/// Readings after an animal's own test, look or offspring told its truth are left out; records of
/// relatives alone blind no one.
std::variant<MarkerBackground, odds::TooLarge> marker_background(const colony::Colony& colony,
                                                                 const std::vector<Truth>& truths,
                                                                 const TruthSettings& settings);

/// Every marker at every locus that its rows read (all loci where they read none), in the order of
/// marker, context, locus and allele, with verdicts. `resamples` are behind the interval of `bits`;
/// none below 40.
std::vector<MarkerAudit> audit_markers(const colony::Colony& colony,
                                       const MarkerBackground& background, std::size_t resamples,
                                       std::uint64_t seed);

}  // namespace likelihet::audit
