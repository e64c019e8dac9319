// All that a book held at one moment, for everything that is then said of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <likelihet/book/claim.hpp>
#include <likelihet/colony/colony.hpp>

namespace likelihet::book {

/// One state of a book, read in one transaction: whoever works from it alone never mixes records of
/// two moments, whatever others write meanwhile. Holds no lock and outlives the book.
struct Snapshot {
  Evidence evidence;      ///< records, model and policy, and the ledger's last number
  colony::Colony colony;  ///< of that model and those records
  std::optional<LearnedRecord> learned;
  std::vector<ClaimRecord> claims;  ///< in the order in which they were made
};

}  // namespace likelihet::book
