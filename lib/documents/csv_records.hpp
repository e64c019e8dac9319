// Animals, clutches, scores and results as tables, one record a row.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

enum class CsvKind { animals, clutches, scores, results };

/// "animals" and so on, or nothing.
std::optional<CsvKind> csv_kind(std::string_view word);

/// Reads a table whose column names are the field names of the colony document (docs/documents.md
/// lists them). An animals table may name `dam` and `sire` in place of `clutch`: animals of the same
/// dam, sire, and hatch date make one clutch with an id of its own making. A clutches table has
/// `dam`, `sires` ("M02" or "M02:0.7 M05:0.3") and the other fields. A scores or results row without
/// an `id` gets one made from its content, so that reading the same file twice adds nothing. Empty
/// cells are absent fields; decimal commas are read as points where cells are not parted by commas.
/// Faults name file, row and column; an id that a spreadsheet turned into a date or a number
/// ("3-Feb", "2024-02-07", "1.2E+05") is a fault that says so.
std::variant<colony::Records, colony::Faults> read_csv_records(std::string_view text,
                                                               CsvKind kind,
                                                               const std::string& name);

/// Writes one kind of record as RFC 4180; what comes out reads back as the same records, except for
/// `bought_as`, appearances, broods and withdrawals, which tables do not hold.
std::string write_csv_records(const colony::Records& records, CsvKind kind);

}  // namespace likelihet::documents
