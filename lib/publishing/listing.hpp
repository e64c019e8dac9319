// What may honestly be said of an animal in a listing: the number, its reason, its basis, and what
// would change it. A pure function of one state of a book, so that a claim can be derived again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/interval.hpp>
#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::publishing {

/// One state of a book, from which listings are made. Points; everything must outlive the call.
struct Ground {
  const colony::Colony* colony = nullptr;
  const colony::Policy* policy = nullptr;
  /// Tables learned from just these records; nothing: not learned, and markers do not count.
  const std::vector<odds::Tables>* learned = nullptr;
  std::size_t memory_bytes = odds::Options{}.memory_bytes;
  /// What became known up to the end of this day counts; nothing: all that is recorded. Tables
  /// learned from later records must not be given with it.
  std::optional<colony::Date> as_of = std::nullopt;
  /// The day that the listing is made on, and shows. Not given: as_of.
  std::optional<colony::Date> day = std::nullopt;
};

/// What the trade calls a number.
enum class Label : std::uint8_t {
  visual,   ///< the animal shows the trait and has two copies, or all it can have
  proven,   ///< certain, by a visual parent or a visual offspring
  certain,  ///< certain otherwise: every copy forced by the pedigree or by a result that cannot err
  possible,  ///< a number between
  none,      ///< certainly no single copy, and not visual
};

/// What a published number rests on.
enum class Basis : std::uint8_t { pedigree, results, markers };

/// A range of probabilities as it is published: never above what the evidence that is counted
/// gives. One number where low == high.
struct Published {
  double low = 0;
  double high = 0;
  double step = 0.01;  ///< what it was rounded down to
  friend bool operator==(const Published&, const Published&) = default;
};

/// What may be said of one allele. Probabilities are of exactly one copy.
struct Statement {
  std::size_t locus = 0;
  std::uint16_t allele = 0;
  Label label = Label::none;
  Basis basis = Basis::pedigree;
  Published published;
  double pedigree =
      0;  ///< by descent, the seller's description, sexes, appearances and broods alone
  double markerless = 0;  ///< and by every result in the book
  /// And by markers with learned tables, with its central 95 % interval; only where markers count.
  std::optional<odds::Het> marked;
  std::string headline;  ///< "66 % possible het for tarnbrook"
  std::string reason;    ///< "both parents proven het, shows plain"
  /// Observations that the reason names, the animal's readings where markers count: positions in
  /// the colony's. A claim lapses with them.
  std::vector<std::size_t> rests_on;
  bool absent = false;                    ///< certainly no copy
  std::string plain;                      ///< "Of animals with such records, about 6 in 10 ..."
  std::vector<std::string> would_change;  ///< what would move the number, and how far
};

/// A test's result on the animal itself.
struct ResultShown {
  std::size_t observation = 0;  ///< a position in the colony's
  std::size_t locus = 0;
  std::optional<colony::Date> on;  ///< the day it was taken, else the day it became known
  std::string assay;               ///< the keeper's own word for the test
  std::string report;
  /// Whether the report tells genotypes apart at all; a sample that gave no call does not.
  bool tells = true;
  /// The largest chance that an animal of another genotype than the one that the report fits best
  /// gets this report, mix-ups counted in.
  double false_report = 0;
  /// The chance that an animal of the genotype it fits best gets another report that tells.
  double missed = 0;
};

/// How past percentages at a locus came true: forecasts as they stood, made with markers, of
/// animals on which markers were read, once the truth was known.
struct Record {
  std::size_t forecasts = 0;
  double expected = 0;  ///< hets, the sum of the forecasts
  double observed = 0;  ///< the sum of the outcomes, each with its own probability
  /// What made the truths known, each with its number: different references, told apart.
  std::vector<std::pair<audit::Kind, std::size_t>> kinds;
  std::optional<double> skill;  ///< against pedigree alone: 1 - Brier score / that of pedigree
  std::optional<audit::Interval> skill_interval;  ///< 95 %
  std::optional<double> slope;                    ///< of calibration
};

/// What markers do for an animal at one locus.
struct MarkersShown {
  std::size_t locus = 0;
  std::vector<std::size_t> readings;  ///< its own, of markers that tell of the locus
  bool relatives = false;             ///< none of its own, but markers of relatives move its odds
  bool count = false;                 ///< whether they move the published number
  std::vector<std::string> missing;   ///< what they lack to count; empty where they do
  std::optional<Record> record;       ///< where the audit was asked
  std::string line;                   ///< all of this as a sentence
};

/// All that may be said of one animal.
struct Listing {
  std::size_t animal = 0;  ///< a position in the colony's
  std::optional<colony::Date> day;
  std::optional<colony::Date> as_of;
  /// Code of the claim that says just this; put in by who knows the book's claims.
  std::optional<std::string> claim;
  std::vector<Statement> statements;  ///< by locus, then by allele but the first
  std::vector<ResultShown> results;   ///< by day
  std::vector<MarkersShown> markers;  ///< of the loci where markers tell of it
  std::vector<std::string> record;    ///< how past percentages came true, in sentences
  std::vector<std::string> cautions;
  std::vector<colony::HealthPolicy> health;  ///< of the loci that it may carry something of
};

/// The listings of these animals (positions, in the order given), out of one computation of the
/// colony's odds; a second, over learned tables, and the audit's forecasts only where markers tell
/// of one of them, tables were learned and the policy lets markers count. The same records in
/// another order give the same numbers.
///
/// What is published (docs/method.md, "What a listing says"): without markers that count, the odds
/// by descent, looks and results, in whole percents; with them, from the lower end of the 95 %
/// interval to the mean, in the policy's steps, whichever way they point. All of it is rounded
/// down. Markers count at a locus once the audit's forecasts there, as they stood and of animals
/// that were read, are as many and as good as the policy asks.
std::variant<std::vector<Listing>, odds::Contradiction, odds::TooLarge> listings(
    const Ground& ground, const std::vector<std::size_t>& animals);

}  // namespace likelihet::publishing
