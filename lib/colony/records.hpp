// A keeper's records as they were written: animals, clutches, observations. Nothing checked yet.
// Readers of documents, tables, books and command lines all end here, so that checks and merging
// are written once.
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

/// Where a record was read; equal to every other, so that records compare by content. Empty where
/// records were made by a program.
struct Place {
  std::string text;
  friend bool operator==(const Place&, const Place&) { return true; }
};

/// What a seller said of a founder's genotype, and how far the keeper trusts it. Keys that are left
/// out have probability 0.
struct BoughtAsRecord {
  std::string locus;
  Named<double> odds;           ///< genotype key -> probability
  std::optional<double> trust;  ///< in [0, 1]; not given = 1
  friend bool operator==(const BoughtAsRecord&, const BoughtAsRecord&) = default;
};

/// A founder, or with a `clutch` a hatchling. With a clutch it may have neither `origin` nor
/// `bought_as`: its genes are its parents'.
struct AnimalRecord {
  std::string id;
  std::optional<genetics::Sex> sex;       ///< as the keeper recorded it; not given = unknown
  std::optional<std::string> origin;      ///< of a founder; not given = all first alleles
  std::optional<std::string> clutch;      ///< that it hatched in
  std::optional<std::string> line;        ///< a word of the keeper's; not given = its clutch's
  std::optional<Date> hatched;            ///< not given = its clutch's
  std::vector<BoughtAsRecord> bought_as;  ///< of a founder, one a locus at most
  Place place;
  friend bool operator==(const AnimalRecord&, const AnimalRecord&) = default;
};

/// One of the males that may have fathered a clutch. Shares count against one another: 2 and 1 are
/// as 0.67 and 0.33.
struct SireRecord {
  std::string id;
  std::optional<double> share;  ///< relative, not given = 1
  friend bool operator==(const SireRecord&, const SireRecord&) = default;
};

/// Of several sires: one fathered the whole clutch, or each hatchling has its own.
enum class Paternity : std::uint8_t { single, mixed };

/// A clutch or a litter: what the hatchlings that name it have in common. A parent that is not
/// given is taken as unrelated to every other animal, one for the whole clutch.
struct ClutchRecord {
  std::string id;
  std::optional<std::string> dam;          ///< not given = an anonymous founder
  std::vector<SireRecord> sires;           ///< none = an anonymous founder
  std::optional<Paternity> paternity;      ///< not given = single
  std::optional<std::string> dam_origin;   ///< of an anonymous dam
  std::optional<std::string> sire_origin;  ///< of an anonymous sire
  std::optional<std::string> line;         ///< of hatchlings that give none
  std::optional<Date> laid;
  std::optional<Date> hatched;
  std::optional<std::int64_t> eggs;  ///< at least as many as the hatchlings recorded
  Place place;
  friend bool operator==(const ClutchRecord&, const ClutchRecord&) = default;
};

/// What an animal shows of a locus, once its look is settled. Evidence by the locus's penetrance,
/// not proof, unless the model's rows are 0 and 1.
struct AppearanceRecord {
  std::string animal, locus, shows;  ///< `shows`: one of the locus's appearances
  friend bool operator==(const AppearanceRecord&, const AppearanceRecord&) = default;
};

/// One reading of one marker. No `level` = could not be scored, `reason` says why: no evidence. A
/// level and a reason together are a fault.
struct ScoreRecord {
  std::string animal, marker;
  std::optional<std::string> level;   ///< one of the marker's
  std::optional<std::string> reason;  ///< only without a level
  std::optional<std::string> scorer;  ///< one of the model's
  std::optional<double> sure;         ///< P(the level read is there); not given = the scorer's
  std::optional<bool> blind;          ///< whether the scorer knew nothing of parents and odds
  friend bool operator==(const ScoreRecord&, const ScoreRecord&) = default;
};

/// What a laboratory reported. The report, not what it is taken to mean: the assay's rows say that.
struct ResultRecord {
  std::string animal, assay, report;  ///< `report`: one of the assay's
  std::optional<std::string> sample;  ///< the number on the bag
  friend bool operator==(const ResultRecord&, const ResultRecord&) = default;
};

/// Offspring counted but not recorded as animals. Counts are 0 or more. Offspring that are recorded
/// as animals must not be counted here too.
struct BroodRecord {
  std::string animal, locus, partner;  ///< `partner`: the genotype key of the other parent
  Named<std::int64_t> offspring;       ///< appearance -> how many
  friend bool operator==(const BroodRecord&, const BroodRecord&) = default;
};

/// From then on the observation `of` no longer counts; a withdrawal can be withdrawn too. Naming
/// itself, or one that leads back to it, is a fault.
struct WithdrawalRecord {
  std::string of;
  std::optional<std::string> why;
  friend bool operator==(const WithdrawalRecord&, const WithdrawalRecord&) = default;
};

/// One entry of the ledger. Of the three times, `recorded` decides what --as-of counts, else `on`,
/// else `entered`.
struct ObservationRecord {
  std::string id;  ///< unique among observations
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

/// What a colony document or a book holds, in the order written. In any order: an animal may stand
/// before its clutch, a withdrawal before what it takes back.
struct Records {
  std::vector<AnimalRecord> animals;
  std::vector<ClutchRecord> clutches;
  std::vector<ObservationRecord> observations;
  friend bool operator==(const Records&, const Records&) = default;
};

}  // namespace likelihet::colony
