// The rows of animals, clutches and observations.
#pragma once

#include <filesystem>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/colony/records.hpp>

// Readers give records in the order of entry, each place "book: ..."; `file` is for messages.
// Writers keep their statements prepared from one record to the next; none may outlive `database`,
// and the caller holds the transaction.
namespace likelihet::book {

/// Throws BookError{damaged} for words and rows that this version does not write. One query a
/// table, not one a record.
std::vector<colony::AnimalRecord> read_animals(const SQLite::Database& database,
                                               const std::filesystem::path& file);
std::vector<colony::ClutchRecord> read_clutches(const SQLite::Database& database,
                                                const std::filesystem::path& file);
std::vector<colony::ObservationRecord> read_observations(const SQLite::Database& database,
                                                         const std::filesystem::path& file);

/// A row is numbered after the last one, which keeps the order of entry; the caller holds the write
/// lock.
class AnimalWriter {
 public:
  explicit AnimalWriter(const SQLite::Database& database);
  /// Throws SQLite::Exception for an id that is there already.
  void add(const colony::AnimalRecord& animal);
  /// Fills in what is absent in the book; the first `known` entries of bought_as are there already.
  void complete(const colony::AnimalRecord& animal, std::size_t known);

 private:
  void add_bought_as(const colony::AnimalRecord& animal, std::size_t from);
  SQLite::Statement insert_, complete_, insert_odds_, insert_bought_as_;
};

/// References are checked at commit, so a clutch may come before its parents.
class ClutchWriter {
 public:
  explicit ClutchWriter(const SQLite::Database& database);
  void add(const colony::ClutchRecord& clutch);
  /// Fills in what is absent in the book; sires are written if `with_sires`.
  void complete(const colony::ClutchRecord& clutch, bool with_sires);

 private:
  void add_sires(const colony::ClutchRecord& clutch);
  SQLite::Statement insert_, complete_, insert_sire_;
};

/// Offspring are written before the observation: once that stands, none can be added.
class ObservationWriter {
 public:
  explicit ObservationWriter(const SQLite::Database& database);
  /// `observation.entered` must be set.
  void add(const colony::ObservationRecord& observation);

 private:
  SQLite::Statement insert_, insert_offspring_;
};

}  // namespace likelihet::book
