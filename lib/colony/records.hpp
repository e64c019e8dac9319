// A keeper's records as they were written: animals, clutches, observations. Nothing checked yet.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/colony/date.hpp>
#include <likelihet/colony/model_description.hpp>
#include <likelihet/genetics/sex.hpp>

// Each struct mirrors an object of the colony document (docs/documents.md). `place` says where the
// record came from, for faults ("/animals/3", "rack.csv row 7", "book: animal F01"); it is no part
// of the record, so comparisons leave it out.
namespace likelihet::colony {

/// Where a record was read; equal to every other, so that records compare by content.
struct Place {
  std::string text;
  friend bool operator==(const Place&, const Place&) { return true; }
};

/// What a seller said of a founder's genotype, and how far the keeper trusts it.
struct BoughtAsRecord {
  std::string locus;
  Named<double> odds;         ///< genotype key -> probability
  std::optional<double> trust;  ///< in [0, 1]; not given = 1
  friend bool operator==(const BoughtAsRecord&, const BoughtAsRecord&) = default;
};

struct AnimalRecord {
  std::string id;
  std::optional<genetics::Sex> sex;
  std::optional<std::string> origin;
  std::optional<std::string> clutch;
  std::optional<std::string> line;
  std::optional<Date> hatched;
  std::vector<BoughtAsRecord> bought_as;
  Place place;
  friend bool operator==(const AnimalRecord&, const AnimalRecord&) = default;
};

struct SireRecord {
  std::string id;
  std::optional<double> share;  ///< relative, not given = 1
  friend bool operator==(const SireRecord&, const SireRecord&) = default;
};

enum class Paternity : std::uint8_t { single, mixed };

struct ClutchRecord {
  std::string id;
  std::optional<std::string> dam;
  std::vector<SireRecord> sires;
  std::optional<Paternity> paternity;
  std::optional<std::string> dam_origin;
  std::optional<std::string> sire_origin;
  std::optional<std::string> line;
  std::optional<Date> laid;
  std::optional<Date> hatched;
  std::optional<std::int64_t> eggs;
  Place place;
  friend bool operator==(const ClutchRecord&, const ClutchRecord&) = default;
};

struct AppearanceRecord {
  std::string animal, locus, shows;
  friend bool operator==(const AppearanceRecord&, const AppearanceRecord&) = default;
};

/// One reading of one marker. No `level` = could not be scored, `reason` says why: no evidence.
struct ScoreRecord {
  std::string animal, marker;
  std::optional<std::string> level;
  std::optional<std::string> reason;
  std::optional<std::string> scorer;
  std::optional<double> sure;
  std::optional<bool> blind;
  friend bool operator==(const ScoreRecord&, const ScoreRecord&) = default;
};

struct ResultRecord {
  std::string animal, assay, report;
  std::optional<std::string> sample;
  friend bool operator==(const ResultRecord&, const ResultRecord&) = default;
};

/// Offspring counted but not recorded as animals.
struct BroodRecord {
  std::string animal, locus, partner;
  Named<std::int64_t> offspring;  ///< appearance -> how many
  friend bool operator==(const BroodRecord&, const BroodRecord&) = default;
};

struct WithdrawalRecord {
  std::string of;
  std::optional<std::string> why;
  friend bool operator==(const WithdrawalRecord&, const WithdrawalRecord&) = default;
};

struct ObservationRecord {
  std::string id;
  std::variant<AppearanceRecord, ScoreRecord, ResultRecord, BroodRecord, WithdrawalRecord> what;
  std::optional<Date> on;             ///< the day it was seen
  std::optional<Timestamp> recorded;  ///< when it was written down, where the document says so
  std::optional<Timestamp> entered;   ///< when it came into the book; set by the book alone
  Place place;

  /// The same observation: everything but `entered` and `place`.
  friend bool operator==(const ObservationRecord& a, const ObservationRecord& b) {
    return a.id == b.id && a.what == b.what && a.on == b.on && a.recorded == b.recorded;
  }
};

/// What a colony document or a book holds, in the order written.
struct Records {
  std::vector<AnimalRecord> animals;
  std::vector<ClutchRecord> clutches;
  std::vector<ObservationRecord> observations;
  friend bool operator==(const Records&, const Records&) = default;
};

}  // namespace likelihet::colony
