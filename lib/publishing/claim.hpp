// A claim: what was published of one animal on one day, as plain values that outlive the records.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <likelihet/book/claim.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// One published number. Everything by its id, since positions change as a book grows.
struct ClaimedNumber {
  std::string locus;
  std::string allele;
  Label label = Label::none;
  Basis basis = Basis::pedigree;
  Published published;
  double value = 0;      ///< what was rounded down: the odds without markers, or the mean with them
  std::string headline;  ///< as it was worded
  std::string reason;
  std::vector<std::string> rests_on;  ///< ids of observations that the reason names
  friend bool operator==(const ClaimedNumber&, const ClaimedNumber&) = default;
};

struct Claim {
  std::string animal;
  colony::Date day;
  std::vector<ClaimedNumber> numbers;  ///< by locus, then allele, as in the listing
  friend bool operator==(const Claim&, const Claim&) = default;

  [[nodiscard]] bool counts_markers() const;
};

/// What this listing claims. Its `day` must be set; throws std::invalid_argument if not.
Claim claim_of(const colony::Colony& colony, const Listing& listing);

/// The "likelihet-claim" document, version 1, in one line; numbers read back as the same double.
std::string write_claim(const Claim& claim);
/// Nothing where the text is not what write_claim() writes.
std::optional<Claim> read_claim(std::string_view text);

/// The code of a claim: 80 bits of SHA-256 over all that it is, in Crockford's base 32 (no I, L, O,
/// U) in groups of four: "7K3Q-9D2M-XP4T-A8WZ". Another claim, or one byte of this one changed,
/// gives another code: a chance of 2^-80 aside, and finding one on purpose takes about 2^80 trials.
std::string code_of(const book::ClaimRecord& claim);

/// A code as people type it: letters of any case, dashes and spaces anywhere, O for 0, I and L for
/// 1. The form of code_of(), or nothing where it can be none.
std::optional<std::string> code_from(std::string_view typed);

}  // namespace likelihet::publishing
