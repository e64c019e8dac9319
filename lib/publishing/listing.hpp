// What may honestly be said of an animal in a listing: the number, its reason, its basis, and what
// would change it. A pure function of one state of a book, so that a claim can be derived again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::publishing {

/// One state of a book, from which listings are made. Points; everything must outlive the call.
struct Ground {
  const colony::Colony* colony = nullptr;
  const colony::Policy* policy = nullptr;
  /// Tables learned from just these records; nothing: not learned, and marks do not count.
  const std::vector<odds::Tables>* learned = nullptr;
  std::size_t memory_bytes = odds::Options{}.memory_bytes;
};

/// What the trade calls a number.
enum class Label : std::uint8_t {
  visual,   ///< the animal shows the trait and has two copies, or all it can have
  proven,   ///< certain, by a visual parent or a visual offspring
  certain,  ///< certain otherwise: every copy forced by the pedigree or by a result that cannot err
  possible,  ///< a number between
  none,      ///< certainly no single copy, and not visual
};

/// What a published number rests on.
enum class Basis : std::uint8_t { pedigree, results, marks };

/// A range of probabilities as it is published: never above what the evidence that is counted
/// gives. One number where low == high.
struct Published {
  double low = 0;
  double high = 0;
  double step = 0.01;  ///< what it was rounded down to
  friend bool operator==(const Published&, const Published&) = default;
};

/// What may be said of one allele. Probabilities are of exactly one copy.
struct Statement {
  std::size_t locus = 0;
  std::uint16_t allele = 0;
  Label label = Label::none;
  Basis basis = Basis::pedigree;
  Published published;
  double pedigree = 0;  ///< by descent, what was sold, sexes, appearances and broods alone
  double markless = 0;  ///< and by every result in the book
  /// And by marks with learned tables, with its central 95 % interval; only where marks count.
  std::optional<odds::Het> marked;
  std::string headline;  ///< "66 % possible het for ember"
  std::string reason;    ///< "both parents proven het, shows plain"
  /// Observations that the reason names: positions in the colony's. A claim lapses with them.
  std::vector<std::size_t> rests_on;
};

}  // namespace likelihet::publishing
