// One animal's odds and evidence on one sheet of paper.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/odds/why.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// The account of one statement's number.
struct Evidence {
  std::size_t statement = 0;  ///< a position among the listing's
  odds::Account account;
};

/// An account for each statement whose allele the animal may have one copy of, with just the
/// evidence that the statement counts: without markers where they do not count, so that it ends at
/// `markerless`. At the model's own tables: where markers count, the account ends at other odds
/// than the published ones, which average over learned tables.
std::variant<std::vector<Evidence>, odds::Contradiction, odds::TooLarge> evidence_of(
    const Ground& ground, const Listing& listing);

/// One A4 page of HTML that fetches nothing and runs no script: odds, evidence with its factors,
/// method, cautions, and the code of the claim, readable and as a QR code that holds it alone. No
/// code: the page says that no claim was published. Long words and long lists are cut short, and
/// the page says so: it stays one page. All from the book is escaped.
std::string sheet(const colony::Colony& colony, const Listing& listing,
                  const std::vector<Evidence>& evidence, const std::optional<std::string>& code);

}  // namespace likelihet::publishing
