// The sires of a clutch in one cell: "M02" or "M02:0.7 M05:0.3".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

/// Sires parted by spaces, each an id and perhaps a colon and its share. An id that holds a space,
/// a colon or a quote is quoted, a quote in it doubled: `"M 02":0.7`. Nothing if the cell is not
/// so. An empty cell, or one of spaces, is no sires. Shares are read as numbers of any size;
/// whether they make sense is checked with the colony.
std::optional<std::vector<colony::SireRecord>> parse_sires(std::string_view cell,
                                                           bool decimal_comma);

/// The cell that parse_sires reads back as these sires. Shares have a point, since tables are
/// written with commas between cells.
std::string sires_cell(const std::vector<colony::SireRecord>& sires);

}  // namespace likelihet::documents
