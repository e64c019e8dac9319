// What a change did to a book, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "moves.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/colony/colony.hpp>

namespace likelihet::cli {

/// What the book did, and for one recorded observation what it did to the odds.
struct ChangeTold {
  book::Change change;
  bool written = true;                     ///< false for a rehearsal
  std::optional<std::string> observation;  ///< the id of the one observation recorded
  std::optional<MovesTold> moves;          ///< absent where no odds were computed
};

/// "1 animal", "12 animals", "no animals".
std::string counted(std::size_t count, std::string_view one, std::string_view many);

/// "4 animals and 1 clutch added, 2 records already there". Without a line end. "nothing to change"
/// where all counts are 0.
std::string change_text(const ChangeTold& told);

/// The "likelihet-change" document. Counts are always there; `moved` and `surprise` only where odds
/// were computed, moves without the text's limit of twenty.
std::string change_json(const ChangeTold& told);

}  // namespace likelihet::cli
