// Which observations count, as of a day. A ledger is only ever added to; what counts is worked out
// anew from all of it.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::colony {

/// Positions in colony.observations() of those that count as of `as_of` (the whole of that day
/// included; no day: now): known by then, no withdrawal, and not withdrawn by one that itself
/// counts as of that day. Ascending. A withdrawal that is itself withdrawn takes nothing back.
/// Linear in the observations. Without `as_of` days play no part; with it, observations of unknown
/// day count on any.
std::vector<std::size_t> counting(const Colony& colony, const std::optional<Date>& as_of);

/// The days on which what counts may change, ascending, without repeats. Of withdrawals too.
/// Observations without a day add none.
std::vector<Date> days_of_change(const Colony& colony);

}  // namespace likelihet::colony
