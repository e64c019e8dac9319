// Tells documents from tables, and one kind of table from another.
#include "document_input.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>
#include <utility>
#include <vector>

#include "failure.hpp"

#include <likelihet/colony/hidden_characters.hpp>
#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/csv_table.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::cli {
namespace {

template <class Value>
Value accepted_or_fail(std::variant<Value, colony::Faults> read) {
  if (auto* faults = std::get_if<colony::Faults>(&read)) {
    throw Failure(ExitStatus::input, std::move(*faults));
  }
  return std::get<Value>(std::move(read));
}

bool ends_with_ignoring_case(std::string_view name, std::string_view ending) {
  return name.size() >= ending.size() &&
         std::equal(ending.rbegin(), ending.rend(), name.rbegin(), [](char a, char b) {
           return a == static_cast<char>(std::tolower(static_cast<unsigned char>(b)));
         });
}

bool looks_like_a_table(std::string_view text, std::string_view name) {
  if (ends_with_ignoring_case(name, ".csv") || ends_with_ignoring_case(name, ".tsv")) return true;
  if (name != "-") return false;
  const auto start = text.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  return start != std::string_view::npos && text[start] != '{' && text[start] != '[';
}

/// By the columns that only one kind has.
documents::CsvKind kind_of_header(const std::vector<std::string>& header, const std::string& name) {
  using documents::CsvKind;
  const auto has = [&](std::string_view column) {
    return std::find(header.begin(), header.end(), column) != header.end();
  };
  if (has("marker")) return CsvKind::scores;
  if (has("assay")) return CsvKind::results;
  if (has("sires") || has("eggs") || has("laid") || has("paternity")) return CsvKind::clutches;
  if (has("id")) return CsvKind::animals;
  throw Failure(ExitStatus::input, name + " row 1", "the columns do not tell what the rows are",
                "name the columns as docs/documents.md does, or say --as animals, clutches, scores "
                "or results");
}

colony::Records records_of_table(const std::string& text, const std::string& name,
                                 std::optional<documents::CsvKind> kind) {
  if (!kind) kind = kind_of_header(accepted_or_fail(documents::read_csv(text, name)).header, name);
  return accepted_or_fail(documents::read_csv_records(text, *kind, name));
}

}  // namespace

colony::Model model_of(const std::string& text) {
  colony::Model model =
      accepted_or_fail(colony::Model::make(accepted_or_fail(documents::read_model(text))));
  if (auto hidden = colony::hidden_faults(model.description()); !hidden.empty()) {
    throw Failure(ExitStatus::input, std::move(hidden));
  }
  return model;
}

Imported imported(const std::string& text, const std::string& name,
                  std::optional<documents::CsvKind> kind) {
  if (kind || looks_like_a_table(text, name)) {
    return records_of_table(text, name == "-" ? "standard input" : name, kind);
  }
  const documents::Format format = documents::format_of(text);
  if (format == documents::Format::model) return model_of(text);
  if (format == documents::Format::policy) return accepted_or_fail(documents::read_policy(text));
  return accepted_or_fail(documents::read_colony(text));
}

}  // namespace likelihet::cli
