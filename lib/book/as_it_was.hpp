// A book's evidence as it stood after some entry of its ledger. Nothing is ever erased from a book,
// so what came later can be taken off again.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <likelihet/book/book.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// A book's evidence as it is stored: documents as texts.
struct Stored {
  std::string model;
  std::optional<std::string> policy;  ///< nothing where there was none yet
  colony::Records records;
};

/// Takes off what the ledger's entries after number `entries` did: records added since, fields of
/// animals and clutches filled in since, and models and policies replaced since. Works on values;
/// linear in the ledger and the records.
Stored as_it_was(Stored now, const std::vector<LedgerEntry>& ledger, std::int64_t entries);

}  // namespace likelihet::book
