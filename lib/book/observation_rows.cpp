// Reads and writes the tables of observations.
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

#include <likelihet/book/records_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/book/statements.hpp>

namespace likelihet::book {
namespace {

using colony::AppearanceRecord;
using colony::BroodRecord;
using colony::ObservationRecord;
using colony::ResultRecord;
using colony::ScoreRecord;
using colony::WithdrawalRecord;

/// A row of `observations` but for the id and the times: one column each, most of them absent.
struct Columns {
  std::string kind;
  std::optional<std::string> animal, locus, shows, marker, level, reason, scorer;
  std::optional<double> sure;
  std::optional<bool> blind;
  std::optional<std::string> assay, report, sample, partner, withdraws, why;
};

Columns columns_of(const AppearanceRecord& seen) {
  Columns columns;
  columns.kind = "appearance";
  columns.animal = seen.animal;
  columns.locus = seen.locus;
  columns.shows = seen.shows;
  return columns;
}

Columns columns_of(const ScoreRecord& score) {
  Columns columns;
  columns.kind = "score";
  columns.animal = score.animal;
  columns.marker = score.marker;
  columns.level = score.level;
  columns.reason = score.reason;
  columns.scorer = score.scorer;
  columns.sure = score.sure;
  columns.blind = score.blind;
  return columns;
}

Columns columns_of(const ResultRecord& result) {
  Columns columns;
  columns.kind = "result";
  columns.animal = result.animal;
  columns.assay = result.assay;
  columns.report = result.report;
  columns.sample = result.sample;
  return columns;
}

Columns columns_of(const BroodRecord& brood) {
  Columns columns;
  columns.kind = "brood";
  columns.animal = brood.animal;
  columns.locus = brood.locus;
  columns.partner = brood.partner;
  return columns;
}

Columns columns_of(const WithdrawalRecord& withdrawal) {
  Columns columns;
  columns.kind = "withdrawal";
  columns.withdraws = withdrawal.of;
  columns.why = withdrawal.why;
  return columns;
}

// The columns of the queries below, by position.
enum Column : int {
  id,
  kind,
  animal,
  locus,
  shows,
  marker,
  level,
  reason,
  scorer,
  sure,
  blind,
  assay,
  report,
  sample,
  partner,
  withdraws,
  why,
  seen_on,
  recorded,
  entered
};
constexpr const char* column_names =
    "id, kind, animal, locus, shows, marker, level, reason, scorer, sure, blind, assay, report, "
    "sample, partner, withdraws, why, seen_on, recorded, entered";

ScoreRecord score_of(const Row& row) {
  const auto blinded = row.maybe_whole(blind);
  return {row.text(animal),
          row.text(marker),
          row.maybe_text(level),
          row.maybe_text(reason),
          row.maybe_text(scorer),
          row.maybe_number(sure),
          blinded ? std::optional(*blinded != 0) : std::nullopt};
}

decltype(ObservationRecord::what) what_of(const Row& row) {
  const std::string word = row.text(kind);
  if (word == "appearance") {
    return AppearanceRecord{row.text(animal), row.text(locus), row.text(shows)};
  }
  if (word == "score") {
    return score_of(row);
  }
  if (word == "result") {
    return ResultRecord{row.text(animal), row.text(assay), row.text(report),
                        row.maybe_text(sample)};
  }
  if (word == "brood") {
    return BroodRecord{row.text(animal), row.text(locus), row.text(partner), {}};
  }
  if (word != "withdrawal") {
    row.refuse(kind);
  }
  return WithdrawalRecord{row.text(withdraws), row.maybe_text(why)};
}

void read_offspring(const SQLite::Database& database, const std::filesystem::path& file,
                    std::vector<ObservationRecord>& observations) {
  std::unordered_map<std::string_view, BroodRecord*> broods;
  for (ObservationRecord& observation : observations) {
    if (auto* brood = std::get_if<BroodRecord>(&observation.what)) {
      broods.emplace(observation.id, brood);
    }
  }
  SQLite::Statement query(database,
                          "SELECT observation, appearance, count FROM brood_offspring "
                          "ORDER BY observation, place");
  const Row row(query, file);
  while (query.executeStep()) {
    const auto found = broods.find(row.text(0));
    if (found == broods.end()) {
      row.refuse(0);
    }
    found->second->offspring.emplace_back(row.text(1), row.whole(2));
  }
}

}  // namespace

std::vector<ObservationRecord> read_observations(const SQLite::Database& database,
                                                 const std::filesystem::path& file) {
  SQLite::Statement query(
      database, std::string("SELECT ") + column_names + " FROM observations ORDER BY sequence");
  const Row row(query, file);
  std::vector<ObservationRecord> observations;
  while (query.executeStep()) {
    std::string name = row.text(id);
    colony::Place place{"book: observation " + name};
    observations.push_back({std::move(name), what_of(row), row.date(seen_on), row.moment(recorded),
                            row.moment(entered), std::move(place)});
  }
  read_offspring(database, file, observations);
  return observations;
}

ObservationWriter::ObservationWriter(const SQLite::Database& database)
    : insert_(database, std::string("INSERT INTO observations (sequence, ") + column_names +
                            ") VALUES ((SELECT coalesce(max(sequence), 0) + 1 FROM observations), "
                            "?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"),
      insert_offspring_(database,
                        "INSERT INTO brood_offspring (observation, place, appearance, count) "
                        "VALUES (?, ?, ?, ?)") {}

void ObservationWriter::add(const ObservationRecord& observation) {
  if (const auto* brood = std::get_if<BroodRecord>(&observation.what)) {
    std::int64_t place = 0;
    for (const auto& [appearance, count] : brood->offspring) {
      run(insert_offspring_, observation.id, place++, appearance, count);
    }
  }
  const Columns c = std::visit([](const auto& what) { return columns_of(what); }, observation.what);
  run(insert_, observation.id, c.kind, c.animal, c.locus, c.shows, c.marker, c.level, c.reason,
      c.scorer, c.sure, c.blind, c.assay, c.report, c.sample, c.partner, c.withdraws, c.why,
      observation.on, observation.recorded, observation.entered);
}

}  // namespace likelihet::book
