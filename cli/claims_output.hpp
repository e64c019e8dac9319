// Claims, as a book has them and as they stand today, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ground.hpp"
#include "terminal.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/publishing/claim_state.hpp>

namespace likelihet::cli {

/// A claim and what became of it. Those that ended before have no states: nobody relies on them.
struct ClaimNow {
  book::ClaimRecord record;
  publishing::Claim claim;
  std::vector<publishing::NumberState> states;
  bool just_ended = false;  ///< by this very command, so that what to send is still to be told

  [[nodiscard]] bool current() const { return !record.end && publishing::all_current(states); }
  [[nodiscard]] bool out_of_date() const { return !record.end && publishing::out_of_date(states); }
  [[nodiscard]] bool to_correct() const {
    return (!record.end || just_ended) && publishing::out_of_date(states);
  }
};

/// The book's claims in the order in which they were made; `animals` (positions) alone, or all
/// where it is empty. One computation of the odds for all of them. Throws Failure where a claim
/// cannot be read or odds cannot be had.
std::vector<ClaimNow> claims_now(const BookGround& state, const std::vector<std::size_t>& animals);

/// Throws Failure{failed} where a claim on one of these animals is out of date: nothing is to be
/// quoted of it until it is published anew.
void refuse_out_of_date(const std::vector<ClaimNow>& claims);

/// The code of the claim that stands for an animal (its id); nothing where none does.
std::optional<std::string> standing_code(const std::vector<ClaimNow>& claims,
                                         const std::string& animal);

/// "current", "out of date", "not checked", "withdrawn", "replaced".
std::string word_of(const ClaimNow& claim);

/// Each claim in a few lines, with the correction to send where it is out of date.
std::string claims_text(const std::vector<ClaimNow>& claims, const Terminal& terminal);

/// The "likelihet-claims" document.
std::string claims_json(const std::vector<ClaimNow>& claims);

}  // namespace likelihet::cli
