// Whether a claim is what the book's evidence gave when it was made.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/book/claim.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/publishing/claim.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// The evidence of a claim, found again in the book.
struct EvidenceThen {
  book::Evidence evidence;  ///< as it was after the claim's `entries`
  /// Tables that the claim counted, as the book keeps them; nothing where it names none, or where
  /// they are gone.
  std::optional<book::LearnedRecord> tables;
  /// When the ledger says that the claim was published; nothing where it does not.
  std::optional<colony::Timestamp> published;
};

/// What was looked at, in turn. Each is true where it holds; those after the first that fails are
/// false, since they were not reached.
struct Verification {
  bool code = false;      ///< the code is that of the claim as the book has it
  bool evidence = false;  ///< the evidence is that which the claim names, to the byte
  bool derived = false;   ///< the same numbers come out of it again
  std::string what;       ///< in words, what fails; empty where all holds
  /// What the evidence gives, where it was derived again.
  std::vector<ClaimedNumber> again;

  [[nodiscard]] bool holds() const { return code && evidence && derived; }
};

/// The digest of evidence that a claim names.
std::string digest_of(const book::Evidence& evidence, const std::optional<std::string>& tables);

/// Derives a claim again. Numbers must agree within 1e-9, ranges, labels and what they rest on
/// wholly. Odds and, where markers counted, the audit behind them are computed anew.
std::variant<Verification, odds::TooLarge> verify(const book::ClaimRecord& claim,
                                                  const EvidenceThen& then,
                                                  std::size_t memory_bytes);

}  // namespace likelihet::publishing
