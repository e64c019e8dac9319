// The sires of a clutch in one cell, in and out.
#include <array>
#include <charconv>
#include <cstddef>
#include <utility>

#include <likelihet/base/shortest.hpp>
#include <likelihet/documents/csv_cells.hpp>
#include <likelihet/documents/csv_sires.hpp>

namespace likelihet::documents {

namespace {

// Reads a quoted id from its opening quote on; false if it is never closed.
bool read_quoted_id(std::string_view cell, std::size_t& at, std::string& id) {
  for (++at; at < cell.size(); ++at) {
    if (cell[at] != '"') {
      id += cell[at];
    } else if (at + 1 < cell.size() && cell[at + 1] == '"') {
      id += '"';
      ++at;
    } else {
      ++at;
      return true;
    }
  }
  return false;
}

std::size_t end_of_word(std::string_view cell, std::size_t at, std::string_view ends) {
  const std::size_t end = cell.find_first_of(ends, at);
  return end == std::string_view::npos ? cell.size() : end;
}

}  // namespace

std::optional<std::vector<colony::SireRecord>> parse_sires(std::string_view cell,
                                                           bool decimal_comma) {
  std::vector<colony::SireRecord> sires;
  for (std::size_t at = 0; at < cell.size();) {
    if (cell[at] == ' ') {
      ++at;
      continue;
    }
    colony::SireRecord sire;
    if (cell[at] == '"') {
      if (!read_quoted_id(cell, at, sire.id)) return std::nullopt;
    } else {
      const std::size_t end = end_of_word(cell, at, " :");
      sire.id = cell.substr(at, end - at);
      at = end;
    }
    if (at < cell.size() && cell[at] == ':') {
      const std::size_t end = end_of_word(cell, at, " ");
      sire.share = parse_number(std::string(cell.substr(at + 1, end - at - 1)), decimal_comma);
      if (!sire.share) return std::nullopt;
      at = end;
    }
    const bool ended = at == cell.size() || cell[at] == ' ';
    if (sire.id.empty() || !ended) return std::nullopt;
    sires.push_back(std::move(sire));
  }
  return sires;
}

std::string sires_cell(const std::vector<colony::SireRecord>& sires) {
  std::string cell;
  for (const colony::SireRecord& sire : sires) {
    if (!cell.empty()) cell += ' ';
    if (sire.id.find_first_of(" :\"") == std::string::npos) {
      cell += sire.id;
    } else {
      cell += '"';
      for (const char c : sire.id) cell += c == '"' ? std::string("\"\"") : std::string(1, c);
      cell += '"';
    }
    if (sire.share) cell += ':' + base::shortest(*sire.share);
  }
  return cell;
}

}  // namespace likelihet::documents
