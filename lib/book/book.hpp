// The book: one SQLite file with a keeper's records and an append-only ledger of what was observed.
// What was observed or claimed is never changed or erased, only withdrawn: the file itself refuses
// it, by triggers, so other programs cannot do it by accident either.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/book/claim.hpp>
#include <likelihet/book/snapshot.hpp>
#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// What a change did, or with `rehearse` would do. Counts of records. A record of the import is in
/// one of them at most.
struct Change {
  std::size_t animals_added = 0;
  std::size_t animals_completed = 0;  ///< absent fields filled in
  std::size_t clutches_added = 0;
  std::size_t clutches_completed = 0;
  std::size_t observations_added = 0;
  std::size_t unchanged = 0;  ///< records that are in the book already, with the same content
  bool model_replaced = false;
  bool policy_replaced = false;
};

/// One observation in the book, and the colony just before it and just after: of two neighbouring
/// states, so that the difference is this observation's alone.
struct Recorded {
  std::string id;
  Change change;  ///< nothing added where it was there already with this content
  colony::Colony before, after;
};

/// A rehearsal holds no write lock and works on a read-only file.
enum class Mode {
  commit,    ///< all or nothing, in one transaction
  rehearse,  ///< finds every fault and counts, and writes nothing
};

/// An entry of the ledger: what happened to the book, in order. Never changed once written;
/// `number` counts from 1 without gaps.
struct LedgerEntry {
  std::int64_t number = 0;
  /// By this machine's clock, in UTC; clocks may go back, `number` does not.
  colony::Timestamp at;
  std::string what;    ///< "book made" | "model replaced" | "animal added" | "clutch completed" ...
  std::string id;      ///< of the record, or the model's name
  std::string detail;  ///< the model document that was replaced, or the fields filled in; or empty
};

/// A book of an earlier version that was brought up to date when it was opened.
struct Migrated {
  int from = 0, to = 0;        ///< versions of the schema
  std::filesystem::path copy;  ///< of the book as it was, beside it
};

/// An open book. Movable, not copyable; one thread at a time. Every member but the constructors may
/// throw BookError. Nothing is kept in memory but the model: each call reads the file, since
/// another process may have written to it. Locks wait two seconds, then throw BookError{locked}.
class Book {
 public:
  /// Makes a new book with this model. Throws BookError{exists} rather than overwrite. After a
  /// failure further on the new file is removed. Taking the name is atomic, so two processes cannot
  /// both make it.
  static Book create(const std::filesystem::path& file, const colony::Model& model);
  /// Opens one, migrating an older version in one transaction after a copy of it was kept beside
  /// it. Throws BookError. Anything that is not a book is told from one before SQLite touches it; a
  /// book whose model cannot be read is damaged. A write-protected book is opened for reading.
  static Book open(const std::filesystem::path& file);

  /// What opening it changed: nothing for a book of this version.
  [[nodiscard]] std::optional<Migrated> migrated() const;

  Book(Book&&) noexcept;
  Book& operator=(Book&&) noexcept;
  ~Book();

  /// Read again only where the text has changed; those given out before stay as they were.
  [[nodiscard]] std::shared_ptr<const colony::Model> model() const;
  /// Everything, in the order in which it was added; each `entered` set, each place "book: …". One
  /// state of the book, whatever others write meanwhile.
  [[nodiscard]] colony::Records records() const;
  /// The colony of model() and records(); a book holds nothing that does not fit, so this throws
  /// BookError{damaged} where it doesn't.
  [[nodiscard]] colony::Colony colony() const;

  /// All of it at one moment. Throws BookError{damaged} as colony() does.
  [[nodiscard]] Snapshot snapshot() const;

  /// Adds records in one transaction. A record whose id is in the book with the same content
  /// changes nothing; absent fields of animals and clutches may be filled in; other content under a
  /// known id is a fault. Faults of the merged colony are reported with the places of the new
  /// records, and then nothing is written. A kill at any moment leaves the old state or the new
  /// one. Records are checked together with the whole book, so time is linear in the book, not in
  /// what is added.
  std::variant<Change, colony::Faults> add(const colony::Records& records, Mode mode);

  /// Adds one observation as add() does and tells both states, all in one transaction. With an
  /// empty id it gets the next free one of the form "o17".
  std::variant<Recorded, colony::Faults> record(colony::ObservationRecord observation);

  /// Replaces the model if every record and the policy still fit it; the ledger keeps the old one's
  /// text. The same model again changes nothing.
  std::variant<Change, colony::Faults> replace_model(const colony::Model& model, Mode mode);

  /// Nothing where nothing was learned yet.
  [[nodiscard]] std::optional<LearnedRecord> learned() const;
  /// Replaces what was learned before, in one transaction; the ledger says when.
  void keep_learned(const LearnedRecord& learned);

  /// What the keeper decided about publishing; the default where the book never had one.
  [[nodiscard]] colony::Policy policy() const;
  /// Replaces it if it fits the model; the ledger keeps the old one's text. The same policy again
  /// changes nothing.
  std::variant<Change, colony::Faults> replace_policy(const colony::Policy& policy, Mode mode);

  /// All evidence, as it stood after this entry of the ledger, or as it stands. One state of the
  /// book. Throws std::invalid_argument for an entry that the ledger does not have.
  [[nodiscard]] Evidence evidence(std::optional<std::int64_t> entries = std::nullopt) const;

  /// In the order in which they were made.
  [[nodiscard]] std::vector<ClaimRecord> claims() const;
  /// Tables that a claim counted, by their digest.
  [[nodiscard]] std::optional<LearnedRecord> counted_tables(const std::string& digest) const;
  /// Writes claims and ends others, in one transaction; their `at` is the moment of it, whatever
  /// they say. Returns the book as it is then. Nothing, and nothing written, where the ledger has
  /// gone on since: derive the numbers again. Throws std::invalid_argument for an end of what is no
  /// claim or has ended already, and where a claim names tables that are not given.
  std::optional<Snapshot> publish(const Publication& publication);

  /// By number, from the making of the book on.
  [[nodiscard]] std::vector<LedgerEntry> ledger() const;

  /// Faults of a book: SQLite's integrity and foreign-key checks, the schema as this version writes
  /// it, the ledger unbroken, every record fitting the model. Empty: sound. Reads the whole file.
  /// Damage that stops the reading is a fault too, not an exception; a lock or a failing disk still
  /// throws.
  [[nodiscard]] colony::Faults check() const;

 private:
  friend struct Opener;  // opens a book with a clock and limits of its own
  class State;
  explicit Book(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace likelihet::book
