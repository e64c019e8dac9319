// Hands any bytes to every reader and checks what a reader promises of any input.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/csv_records.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::fuzz {

/// A value, or at least one fault that says something; throws std::logic_error otherwise.
template <class Value>
bool is_value(const std::variant<Value, colony::Faults>& read) {
  const auto* faults = std::get_if<colony::Faults>(&read);
  if (faults == nullptr) return true;
  if (faults->empty()) throw std::logic_error("neither a value nor a fault");
  if (faults->size() > 1000) throw std::logic_error("more than a thousand faults");
  for (const colony::Fault& fault : *faults) {
    if (fault.what.empty() || fault.mend.empty()) throw std::logic_error("a fault without words");
  }
  return false;
}

/// Reads the text as every document and every table. Whatever is read must be written, read back
/// and written again to the same bytes; std::logic_error otherwise. Returns how many readers took
/// it.
inline int read_anything(std::string_view text) {
  using namespace documents;
  int taken = 0;
  static_cast<void>(format_of(text));
  if (const auto model = read_model(text); is_value(model)) {
    const std::string written = write_model(std::get<0>(model));
    const auto again = read_model(written);
    if (!is_value(again) || write_model(std::get<0>(again)) != written) {
      throw std::logic_error("a model does not come back");
    }
    ++taken;
  }
  if (const auto records = read_colony(text); is_value(records)) {
    const std::string written = write_colony(std::get<0>(records));
    const auto again = read_colony(written);
    if (!is_value(again) || std::get<0>(again) != std::get<0>(records)) {
      throw std::logic_error("records do not come back");
    }
    ++taken;
  }
  for (const CsvKind kind :
       {CsvKind::animals, CsvKind::clutches, CsvKind::scores, CsvKind::results}) {
    const auto records = read_csv_records(text, kind, "table");
    if (!is_value(records)) continue;
    const std::string written = write_csv_records(std::get<0>(records), kind);
    const auto again = read_csv_records(written, kind, "table");
    if (!is_value(again) || write_csv_records(std::get<0>(again), kind) != written) {
      throw std::logic_error("a table does not come back");
    }
    ++taken;
  }
  return taken;
}

}  // namespace likelihet::fuzz
