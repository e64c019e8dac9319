// Animals, clutches, scores and results as tables, one record a row.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

/// Appearances, broods and withdrawals have no table: they go by document or command.
enum class CsvKind { animals, clutches, scores, results };

/// "animals" and so on, or nothing. Lower case only, as the command line gives it.
std::optional<CsvKind> csv_kind(std::string_view word);

/// Reads a table whose column names are the field names of the colony document; columns may stand
/// in any order, empty cells are absent fields, and a column that is not listed here is a fault.
///
///   animals   id*, sex, origin, clutch, line, hatched, and dam, sire in place of clutch
///   clutches  id*, dam, sires, paternity, dam_origin, sire_origin, line, laid, hatched, eggs
///   scores    id, animal*, marker*, level* (empty: not scored), reason, scorer, sure, blind, on,
///             recorded
///   results   id, animal*, assay*, report*, sample, on, recorded
///
/// `sires` is "M02" or "M02:0.7 M05:0.3"; an id with a space, a colon or a quote in it is quoted.
/// Animals of the same dam, sire and hatch date make one clutch, "DAMxSIRE:HATCHED"; a part that is
/// empty is left out ("F01x"). A score without an id is "score:ANIMAL:MARKER:SCORER:ON", a result
/// "result:ANIMAL:ASSAY:SAMPLE:ON"; the second such row of a file ends in ":2". In made ids a colon
/// of a part is "%3A" and a percent sign "%25". So reading the same file twice adds nothing, and a
/// level or report changed in the file is seen as a changed record, not as a second reading.
///
/// A decimal comma is read where cells are not parted by commas. Faults name "FILE row R column
/// NAME". Ids of animals, clutches and observations may not begin or end with a space, and one that
/// a spreadsheet turned into a date or a number ("3-Feb", "2024-02-07", "1.2E+05") is a fault that
/// says so. Dates are ISO 8601 alone: which of day and month comes first is not guessed.
std::variant<colony::Records, colony::Faults> read_csv_records(std::string_view text, CsvKind kind,
                                                               const std::string& name);

/// Writes one kind of record as RFC 4180. What comes out reads back as the same records, except for
/// what tables do not hold: `bought_as`, appearances, broods, withdrawals, empty texts, and ids
/// that are faults as above. `recorded` is written as write_colony does. Records of the other kinds
/// are left out. The header is written also where there are no records.
std::string write_csv_records(const colony::Records& records, CsvKind kind);

}  // namespace likelihet::documents
