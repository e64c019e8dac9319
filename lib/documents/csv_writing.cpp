// Records to rows of a table.
#include <utility>

#include <likelihet/base/shortest.hpp>
#include <likelihet/documents/csv_columns.hpp>
#include <likelihet/documents/csv_records.hpp>
#include <likelihet/documents/csv_sires.hpp>
#include <likelihet/documents/csv_table.hpp>
#include <likelihet/documents/written_fields.hpp>

namespace likelihet::documents {

namespace {

using CellTexts = std::vector<std::string>;

std::string cell(const std::optional<std::string>& text) {
  return text.value_or(std::string());
}

std::string cell(const std::optional<colony::Date>& date) {
  return date ? date->text() : std::string();
}

std::string cell(const std::optional<colony::Timestamp>& moment) {
  return moment ? moment->text() : std::string();
}

std::string cell(const std::optional<double>& number) {
  return number ? base::shortest(*number) : std::string();
}

std::string cell(const std::optional<bool>& truth) {
  return !truth ? "" : *truth ? "true" : "false";
}

CellTexts row_of(const colony::AnimalRecord& animal) {
  return {animal.id,           animal.sex ? word_for(*animal.sex) : "",
          cell(animal.origin), cell(animal.clutch),
          cell(animal.line),   cell(animal.hatched)};
}

CellTexts row_of(const colony::ClutchRecord& clutch) {
  return {clutch.id,
          cell(clutch.dam),
          sires_cell(clutch.sires),
          clutch.paternity ? word_for(*clutch.paternity) : "",
          cell(clutch.dam_origin),
          cell(clutch.sire_origin),
          cell(clutch.line),
          cell(clutch.laid),
          cell(clutch.hatched),
          clutch.eggs ? std::to_string(*clutch.eggs) : std::string()};
}

CellTexts row_of(const colony::ObservationRecord& observation, const colony::ScoreRecord& score) {
  return {observation.id,       score.animal,
          score.marker,         cell(score.level),
          cell(score.reason),   cell(score.scorer),
          cell(score.sure),     cell(score.blind),
          cell(observation.on), cell(written_recorded(observation))};
}

CellTexts row_of(const colony::ObservationRecord& observation, const colony::ResultRecord& result) {
  return {observation.id,
          result.animal,
          result.assay,
          result.report,
          cell(result.sample),
          cell(observation.on),
          cell(written_recorded(observation))};
}

template <class What>
void add_observations(CsvTable& table, const colony::Records& records) {
  for (const colony::ObservationRecord& observation : records.observations) {
    if (const auto* what = std::get_if<What>(&observation.what)) {
      table.rows.push_back(row_of(observation, *what));
    }
  }
}

}  // namespace

std::string write_csv_records(const colony::Records& records, CsvKind kind) {
  CsvTable table;
  table.header = columns_of(kind).written;
  switch (kind) {
    case CsvKind::animals:
      for (const auto& animal : records.animals) table.rows.push_back(row_of(animal));
      break;
    case CsvKind::clutches:
      for (const auto& clutch : records.clutches) table.rows.push_back(row_of(clutch));
      break;
    case CsvKind::scores:
      add_observations<colony::ScoreRecord>(table, records);
      break;
    case CsvKind::results:
      add_observations<colony::ResultRecord>(table, records);
      break;
  }
  return write_csv(table);
}

}  // namespace likelihet::documents
