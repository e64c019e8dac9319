// Which columns the table of each kind of record has.
#pragma once

#include <string>
#include <vector>

#include <likelihet/documents/csv_records.hpp>

namespace likelihet::documents {

/// Column names are field names of the colony document; csv_records.hpp says what each holds. One
/// list serves the reader and the writer, so that what is written can be read.
struct Columns {
  std::vector<std::string> written;    ///< in the order in which they are written
  std::vector<std::string> only_read;  ///< allowed beside them
  std::vector<std::string> required;   ///< must be there to be read
};

/// The order of `written` is that of the columns in csv_writing.cpp, which fills rows by position.
inline Columns columns_of(CsvKind kind) {
  switch (kind) {
    case CsvKind::animals:
      return {{"id", "sex", "origin", "clutch", "line", "hatched"}, {"dam", "sire"}, {"id"}};
    case CsvKind::clutches:
      return {{"id", "dam", "sires", "paternity", "dam_origin", "sire_origin", "line", "laid",
               "hatched", "eggs"},
              {},
              {"id"}};
    case CsvKind::scores:
      return {{"id", "animal", "marker", "level", "reason", "scorer", "sure", "blind", "on",
               "recorded"},
              {},
              {"animal", "marker", "level"}};
    case CsvKind::results:
      break;
  }
  return {{"id", "animal", "assay", "report", "sample", "on", "recorded"},
          {},
          {"animal", "assay", "report"}};
}

}  // namespace likelihet::documents
