// The known word nearest to a mistyped one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace likelihet::colony {

/// The candidate with the smallest edit distance (insertions, deletions, substitutions and swaps of
/// neighbours, each 1: Damerau 1964, CACM 7:171, optimal string alignment), ignoring ASCII case.
/// Nothing if even the nearest is further than a third of the longer word, rounded up, or if there
/// are no candidates; ties go to the alphabetically first. Words over 200 bytes are not compared.
/// The distances are those of Levenshtein 1966, Soviet Physics Doklady 10:707, with the swap added;
/// counted in bytes, so a letter outside ASCII weighs more. Stops a comparison as soon as it must
/// lose.
std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates);

/// "did you mean 'F01'?" or, without a near one, "known are 'a', 'b', … (12 more)" or "none is
/// known". Eight are listed at most, in the order given.
std::string suggestion(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace likelihet::colony
