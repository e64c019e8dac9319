// Tables of text with named columns: RFC 4180 out; in, what spreadsheets really write.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <likelihet/colony/fault.hpp>

namespace likelihet::documents {

/// A parsed table. Rows are numbered as a spreadsheet shows them: the header is row 1. A cell that
/// holds line breaks makes one row.
struct CsvTable {
  std::vector<std::string> header;
  std::vector<std::vector<std::string>> rows;  ///< each as wide as the header
  std::vector<std::size_t> row_numbers;        ///< of `rows`; blank rows are left out
};

/// Reads UTF-8 text with `,`, `;` or tab between cells (found from the header), LF or CRLF or CR line
/// ends, an optional byte-order mark, quoted cells with "" for a quote. Faults, each with `name`,
/// row and column: no header, a repeated or empty column name, a row with more cells than columns,
/// a quote that is never closed, text that is not UTF-8.
std::variant<CsvTable, colony::Faults> read_csv(std::string_view text, const std::string& name);

/// Writes it as RFC 4180: commas, CRLF, quotes only where needed.
std::string write_csv(const CsvTable& table);

}  // namespace likelihet::documents
