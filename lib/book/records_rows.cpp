// Reads and writes the tables of animals and clutches.
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include <likelihet/book/records_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/book/statements.hpp>

namespace likelihet::book {
namespace {

using colony::AnimalRecord;
using colony::BoughtAsRecord;
using colony::ClutchRecord;
using colony::Paternity;
using genetics::Sex;

std::optional<std::string> word(const std::optional<Sex>& sex) {
  return sex ? std::optional<std::string>(*sex == Sex::female ? "female" : "male") : std::nullopt;
}

std::optional<std::string> word(const std::optional<Paternity>& paternity) {
  return paternity
             ? std::optional<std::string>(*paternity == Paternity::single ? "single" : "mixed")
             : std::nullopt;
}

std::optional<Sex> sex_at(const Row& row, int at) {
  const auto text = row.maybe_text(at);
  if (text && *text != "female" && *text != "male") {
    row.refuse(at);
  }
  return text ? std::optional(*text == "female" ? Sex::female : Sex::male) : std::nullopt;
}

std::optional<Paternity> paternity_at(const Row& row, int at) {
  const auto text = row.maybe_text(at);
  if (text && *text != "single" && *text != "mixed") {
    row.refuse(at);
  }
  return text ? std::optional(*text == "single" ? Paternity::single : Paternity::mixed)
              : std::nullopt;
}

/// Positions of records by id, for the rows that belong to them.
template <class Record>
class Owners {
 public:
  Owners(std::vector<Record>& records, const std::filesystem::path& file)
      : records_(records), file_(file) {
    for (std::size_t i = 0; i < records.size(); ++i) {
      positions_.emplace(records[i].id, i);
    }
  }
  Record& operator[](const std::string& id) {
    const auto found = positions_.find(id);
    if (found == positions_.end()) {
      throw damaged(file_, "a row belongs to '" + id + "', which is not in the book");
    }
    return records_[found->second];
  }

 private:
  std::vector<Record>& records_;
  std::unordered_map<std::string_view, std::size_t> positions_;
  const std::filesystem::path& file_;
};

void read_bought_as(const SQLite::Database& database, const std::filesystem::path& file,
                    std::vector<AnimalRecord>& animals) {
  Owners owners(animals, file);
  SQLite::Statement entries(database,
                            "SELECT animal, locus, trust FROM bought_as ORDER BY animal, place");
  const Row entry(entries, file);
  while (entries.executeStep()) {
    owners[entry.text(0)].bought_as.push_back({entry.text(1), {}, entry.maybe_number(2)});
  }
  SQLite::Statement odds(database,
                         "SELECT animal, entry, genotype, probability FROM bought_as_odds "
                         "ORDER BY animal, entry, place");
  const Row odd(odds, file);
  while (odds.executeStep()) {
    std::vector<BoughtAsRecord>& list = owners[odd.text(0)].bought_as;
    const auto place = static_cast<std::size_t>(odd.whole(1));
    if (place >= list.size()) {
      odd.refuse(1);
    }
    list[place].odds.emplace_back(odd.text(2), odd.number(3));
  }
}

void read_sires(const SQLite::Database& database, const std::filesystem::path& file,
                std::vector<ClutchRecord>& clutches) {
  Owners owners(clutches, file);
  SQLite::Statement query(database,
                          "SELECT clutch, animal, share FROM clutch_sires ORDER BY clutch, place");
  const Row row(query, file);
  while (query.executeStep()) {
    owners[row.text(0)].sires.push_back({row.text(1), row.maybe_number(2)});
  }
}

}  // namespace

std::vector<AnimalRecord> read_animals(const SQLite::Database& database,
                                       const std::filesystem::path& file) {
  SQLite::Statement query(
      database, "SELECT id, sex, origin, clutch, line, hatched FROM animals ORDER BY sequence");
  const Row row(query, file);
  std::vector<AnimalRecord> animals;
  while (query.executeStep()) {
    AnimalRecord animal;
    animal.id = row.text(0);
    animal.sex = sex_at(row, 1);
    animal.origin = row.maybe_text(2);
    animal.clutch = row.maybe_text(3);
    animal.line = row.maybe_text(4);
    animal.hatched = row.date(5);
    animal.place.text = "book: animal " + animal.id;
    animals.push_back(std::move(animal));
  }
  read_bought_as(database, file, animals);
  return animals;
}

std::vector<ClutchRecord> read_clutches(const SQLite::Database& database,
                                        const std::filesystem::path& file) {
  SQLite::Statement query(database,
                          "SELECT id, dam, paternity, dam_origin, sire_origin, line, laid, "
                          "hatched, eggs FROM clutches ORDER BY sequence");
  const Row row(query, file);
  std::vector<ClutchRecord> clutches;
  while (query.executeStep()) {
    ClutchRecord clutch;
    clutch.id = row.text(0);
    clutch.dam = row.maybe_text(1);
    clutch.paternity = paternity_at(row, 2);
    clutch.dam_origin = row.maybe_text(3);
    clutch.sire_origin = row.maybe_text(4);
    clutch.line = row.maybe_text(5);
    clutch.laid = row.date(6);
    clutch.hatched = row.date(7);
    clutch.eggs = row.maybe_whole(8);
    clutch.place.text = "book: clutch " + clutch.id;
    clutches.push_back(std::move(clutch));
  }
  read_sires(database, file, clutches);
  return clutches;
}

AnimalWriter::AnimalWriter(const SQLite::Database& database)
    : insert_(database,
              "INSERT INTO animals (sequence, id, sex, origin, clutch, line, hatched) VALUES "
              "((SELECT coalesce(max(sequence), 0) + 1 FROM animals), ?, ?, ?, ?, ?, ?)"),
      complete_(database,
                "UPDATE animals SET sex = coalesce(sex, ?2), origin = coalesce(origin, ?3), "
                "clutch = coalesce(clutch, ?4), line = coalesce(line, ?5), "
                "hatched = coalesce(hatched, ?6) WHERE id = ?1"),
      insert_odds_(database,
                   "INSERT INTO bought_as_odds (animal, entry, place, genotype, probability) "
                   "VALUES (?, ?, ?, ?, ?)"),
      insert_bought_as_(
          database, "INSERT INTO bought_as (animal, place, locus, trust) VALUES (?, ?, ?, ?)") {}

void AnimalWriter::add(const AnimalRecord& animal) {
  run(insert_, animal.id, word(animal.sex), animal.origin, animal.clutch, animal.line,
      animal.hatched);
  add_bought_as(animal, 0);
}

void AnimalWriter::complete(const AnimalRecord& animal, std::size_t known) {
  run(complete_, animal.id, word(animal.sex), animal.origin, animal.clutch, animal.line,
      animal.hatched);
  add_bought_as(animal, known);
}

void AnimalWriter::add_bought_as(const AnimalRecord& animal, std::size_t from) {
  for (std::size_t entry = from; entry < animal.bought_as.size(); ++entry) {
    const BoughtAsRecord& bought = animal.bought_as[entry];
    const auto at = static_cast<std::int64_t>(entry);
    std::int64_t place = 0;
    for (const auto& [genotype, probability] : bought.odds) {
      run(insert_odds_, animal.id, at, place++, genotype, probability);
    }
    run(insert_bought_as_, animal.id, at, bought.locus, bought.trust);
  }
}

ClutchWriter::ClutchWriter(const SQLite::Database& database)
    : insert_(database,
              "INSERT INTO clutches (sequence, id, dam, paternity, dam_origin, sire_origin, line, "
              "laid, hatched, eggs) VALUES "
              "((SELECT coalesce(max(sequence), 0) + 1 FROM clutches), ?, ?, ?, ?, ?, ?, ?, ?, ?)"),
      complete_(database,
                "UPDATE clutches SET dam = coalesce(dam, ?2), "
                "paternity = coalesce(paternity, ?3), dam_origin = coalesce(dam_origin, ?4), "
                "sire_origin = coalesce(sire_origin, ?5), line = coalesce(line, ?6), "
                "laid = coalesce(laid, ?7), hatched = coalesce(hatched, ?8), "
                "eggs = coalesce(eggs, ?9) WHERE id = ?1"),
      insert_sire_(database,
                   "INSERT INTO clutch_sires (clutch, place, animal, share) VALUES (?, ?, ?, ?)") {}

void ClutchWriter::add(const ClutchRecord& clutch) {
  run(insert_, clutch.id, clutch.dam, word(clutch.paternity), clutch.dam_origin, clutch.sire_origin,
      clutch.line, clutch.laid, clutch.hatched, clutch.eggs);
  add_sires(clutch);
}

void ClutchWriter::complete(const ClutchRecord& clutch, bool with_sires) {
  run(complete_, clutch.id, clutch.dam, word(clutch.paternity), clutch.dam_origin,
      clutch.sire_origin, clutch.line, clutch.laid, clutch.hatched, clutch.eggs);
  if (with_sires) {
    add_sires(clutch);
  }
}

void ClutchWriter::add_sires(const ClutchRecord& clutch) {
  std::int64_t place = 0;
  for (const colony::SireRecord& sire : clutch.sires) {
    run(insert_sire_, clutch.id, place++, sire.id, sire.share);
  }
}

}  // namespace likelihet::book
