// Tables of text with named columns: RFC 4180 out; in, what spreadsheets really write. RFC 4180
// describes a custom, not what programs do; reading is wider than it, writing is not.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <likelihet/colony/fault.hpp>

namespace likelihet::documents {

/// A parsed table. Rows are numbered as a spreadsheet shows them: the header is row 1. A cell that
/// holds line breaks makes one row. Cells are text still; what each means is for csv_cells.hpp.
struct CsvTable {
  /// Names as written, letter case and spaces kept; all different and none empty.
  std::vector<std::string> header;
  std::vector<std::vector<std::string>> rows;  ///< each as wide as the header
  std::vector<std::size_t> row_numbers;        ///< of `rows`; blank rows are left out
  char separator = ',';                        ///< what stood between the cells that were read
};

/// Reads UTF-8 text with `,`, `;` or tab between cells (the one the first line has most of), LF or
/// CRLF or CR line ends, an optional byte-order mark, quoted cells with "" for a quote. Cells are
/// kept to the character, but for the apostrophe that write_csv() puts before what looks like a
/// formula: RFC 4180 counts spaces as part of them. A short row is filled up with
/// empty cells, empty cells beyond the last column are dropped, and rows without any text are left
/// out. Faults, each with `name`, row and column: no header, a repeated or empty column name, text
/// beyond the last column or after a closing quote, a quote that is never closed, text that is not
/// UTF-8. Over 100 columns are a fault too: such a text is no table of records. A row with more
/// cells than the header is one unless they are empty. Linear in the text.
std::variant<CsvTable, colony::Faults> read_csv(std::string_view text, const std::string& name);

/// Writes it as RFC 4180: commas, CRLF, quotes only where needed. A cell that a spreadsheet may
/// take for a formula (it begins with =, +, -, @, a tab or CR, and is not a number) gets an
/// apostrophe before it, as does one that begins so behind apostrophes of its own; read_csv() takes
/// one away again, so every text comes back as it was. Rows may be of any width; the separator of
/// the table is not looked at.
std::string write_csv(const CsvTable& table);

}  // namespace likelihet::documents
