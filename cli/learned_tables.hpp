// What a book holds of learned tables, and whether they still fit its records.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <likelihet/book/book.hpp>
#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::cli {

/// Which tables a computation uses, and why.
enum class TablesUsed {
  belief,             ///< nothing was learned
  belief_as_stale,    ///< the book changed since it was learned from
  belief_as_damaged,  ///< what the book holds as learned is not what was learned
  belief_as_of,       ///< an earlier day is asked for, of which later records must not tell
  learned,
};

/// In a sentence's part: "as assumed", "as assumed: the book changed since it was learned from".
std::string words_of(TablesUsed used);

/// The digest of what a book would be learned from now.
std::string digest_of(const book::Snapshot& book);

struct Chosen {
  TablesUsed used = TablesUsed::belief;
  std::vector<odds::Tables> draws;  ///< where they are learned
};

/// `asked` is "belief", "learned" or empty: then learned where they are fresh and no earlier day
/// is asked for. Throws Failure{input} where learned tables are asked for and there are none, or
/// they are stale; Failure{failed} where they are damaged.
Chosen choose_tables(const book::Snapshot& book, const std::string& asked, bool earlier_day);

/// What a command that always uses belief says where `odds` would use learned tables; else nothing.
/// A line, wrapped to `width`.
std::string belief_note(const book::Snapshot& book, bool earlier_day, std::size_t width);

}  // namespace likelihet::cli
