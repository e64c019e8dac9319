// What an import would do to the records of a book. Works on records alone, without a database;
// whether the merged whole makes sense is for colony::Colony::make.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/book/book.hpp>
#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// A record of the book with absent fields filled in. Only animals and clutches are completed: an
/// observation is whole from the start.
struct Completion {
  std::size_t at = 0;  ///< its position among the merged records of its kind
  /// Parted by commas; goes into the ledger.
  std::string fields;     ///< the names of the fields filled in
  std::size_t known = 0;  ///< entries of its list (bought_as, sires) that the book has already
};

/// The records of a book and of a document as one, and how they differ from the book's. Records
/// beyond old_animals (and so on) are to be written; those before only if a completion names them.
struct Merged {
  colony::Records records;  ///< the book's first, then the new ones in the document's order
  std::size_t old_animals = 0, old_clutches = 0, old_observations = 0;  ///< how many are the book's
  std::vector<Completion> animals, clutches;
  std::size_t unchanged = 0;
  /// Nothing may be written unless it is empty.
  colony::Faults faults;  ///< other content under a known id; the first thousand
  std::size_t faults_left_out = 0;

  /// Adds what was only counted as a last fault, and returns them all.
  [[nodiscard]] colony::Faults take_faults();
  /// As if all of it were written; meaningless with faults.
  [[nodiscard]] Change change() const;
};

/// Puts `incoming` on top of the book's records, by id. A record that stands twice in `incoming`
/// with the same content counts once. Where contents differ, the book's (or the first) is kept and
/// the fault stands at the new record's place. New observations are `entered` at that moment. A
/// field that the document leaves out is never a difference for animals and clutches; for an
/// observation it is, but for `recorded`, which may be left out or be the time of entry that an
/// export wrote. Between two records of one document every field counts. An id or word that hides
/// something (colony::hidden_in) is a fault where it is new; what the book holds is not looked at.
/// Linear in the records of both.
Merged merge(colony::Records book, const colony::Records& incoming,
             const colony::Timestamp& entered);

}  // namespace likelihet::book
