// What a keeper has published from a book, and how it ended.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <likelihet/colony/date.hpp>
#include <likelihet/colony/model_description.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// What was learned from a book, kept beside its records. The book does not look into it.
struct LearnedRecord {
  std::string digest;    ///< of the model and the records that taught it
  std::string document;  ///< how it was learned, and what, in JSON
  std::vector<double> draws;
  bool sound = true;  ///< false: read from a book, and not what was put there
  friend bool operator==(const LearnedRecord&, const LearnedRecord&) = default;
};

/// A claim no longer stands: it was withdrawn, or another took its place.
struct ClaimEnd {
  colony::Timestamp at;
  std::optional<std::string> replaced_by;  ///< the code of the claim that took its place
  std::string why;                         ///< may be empty
  friend bool operator==(const ClaimEnd&, const ClaimEnd&) = default;
};

/// One published statement about an animal. Never changed; it may end once.
struct ClaimRecord {
  std::string code;    ///< unique in the book
  std::string animal;  ///< its id
  colony::Timestamp at;
  std::int64_t entries = 0;           ///< the ledger's last number when it was made
  std::string evidence;               ///< digest of all that it rests on
  std::optional<std::string> tables;  ///< digest of the learned tables that it counted
  std::string document;               ///< what was claimed, in JSON; the book does not look into it
  std::optional<ClaimEnd> end;
  friend bool operator==(const ClaimRecord&, const ClaimRecord&) = default;
};

/// Claims to be written together, and what they do to earlier ones.
struct Publication {
  /// The book's ledger must end here, else nothing is written: the numbers were derived from
  /// another state of it. Each claim's `entries` is this.
  std::int64_t entries = 0;
  std::vector<ClaimRecord> claims;
  std::optional<LearnedRecord> counted;  ///< tables that claims name, kept under `counted_digest`
  std::string counted_digest;
  std::vector<std::pair<std::string, ClaimEnd>> ends;  ///< by code: claims that end with it
};

/// A book's evidence as it stood after an entry of its ledger.
struct Evidence {
  std::int64_t entries = 0;  ///< the number of that entry
  colony::ModelDescription model;
  colony::Records records;
  colony::Policy policy;
};

}  // namespace likelihet::book
