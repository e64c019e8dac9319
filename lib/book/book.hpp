// The book: one SQLite file with a keeper's records and an append-only ledger of what was observed.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// What a change did, or with `rehearse` would do.
struct Change {
  std::size_t animals_added = 0;
  std::size_t animals_completed = 0;  ///< absent fields filled in
  std::size_t clutches_added = 0;
  std::size_t clutches_completed = 0;
  std::size_t observations_added = 0;
  std::size_t unchanged = 0;  ///< records that are in the book already, with the same content
  bool model_replaced = false;
};

enum class Mode {
  commit,    ///< all or nothing, in one transaction
  rehearse,  ///< finds every fault and counts, and writes nothing
};

/// An entry of the ledger: what happened to the book, in order.
struct LedgerEntry {
  std::int64_t number = 0;
  colony::Timestamp at;
  std::string what;    ///< "book made" | "model replaced" | "animal added" | "clutch completed" ...
  std::string id;      ///< of the record, or the model's name
  std::string detail;  ///< the model document that was replaced, or the fields filled in; or empty
};

/// An open book. Movable, not copyable; one thread at a time. Every member but the constructors may
/// throw BookError.
class Book {
 public:
  /// Makes a new book with this model. Throws BookError{exists} rather than overwrite.
  static Book create(const std::filesystem::path& file, const colony::Model& model);
  /// Opens one, migrating an older version in one transaction. Throws BookError.
  static Book open(const std::filesystem::path& file);

  Book(Book&&) noexcept;
  Book& operator=(Book&&) noexcept;
  ~Book();

  [[nodiscard]] std::shared_ptr<const colony::Model> model() const;
  /// Everything, in the order in which it was added; each `entered` set, each place "book: …".
  [[nodiscard]] colony::Records records() const;
  /// The colony of model() and records(); a book holds nothing that does not fit, so this throws
  /// BookError{damaged} where it doesn't.
  [[nodiscard]] colony::Colony colony() const;

  /// Adds records in one transaction. A record whose id is in the book with the same content
  /// changes nothing; absent fields of animals and clutches may be filled in; other content under a
  /// known id is a fault. Faults of the merged colony are reported with the places of the new
  /// records, and then nothing is written. A kill at any moment leaves the old state or the new
  /// one.
  std::variant<Change, colony::Faults> add(const colony::Records& records, Mode mode);

  /// Replaces the model if every record still fits it; the ledger keeps the old one's text. The
  /// same model again changes nothing.
  std::variant<Change, colony::Faults> replace_model(const colony::Model& model, Mode mode);

  [[nodiscard]] std::vector<LedgerEntry> ledger() const;

  /// Faults of a book: SQLite's integrity and foreign-key checks, the schema as this version writes
  /// it, the ledger unbroken, every record fitting the model. Empty: sound.
  [[nodiscard]] colony::Faults check() const;

 private:
  friend struct Opener;  // opens a book with a clock and limits of its own
  class State;
  explicit Book(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace likelihet::book
