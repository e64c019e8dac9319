// Makes random and large herds.
#include <string>
#include <utility>
#include <vector>

#include <book/example.hpp>
#include <book/random_herd.hpp>

namespace likelihet::book {
namespace {

using colony::Records;
using genetics::Sex;

template <class Value>
std::optional<Value> maybe(Value value) {
  return *rc::gen::arbitrary<bool>() ? std::optional<Value>(std::move(value)) : std::nullopt;
}

int below(int limit) {
  return *rc::gen::inRange(0, limit);
}

std::string id_of(const std::string& kind, std::size_t number) {
  static const std::vector<std::string> tails = {"",  " b",  "'", "\"", "%",
                                                 "ä", ";--", "/", "\\", "🦎"};
  return kind + std::to_string(number) + tails[static_cast<std::size_t>(below(10))];
}

std::string day_in(int year) {
  const int month = 1 + below(9);
  const int date = 10 + below(19);
  return std::to_string(year) + "-0" + std::to_string(month) + '-' + std::to_string(date);
}

/// A probability with all its digits.
double share() {
  return (1 + below(999'999'999)) / 1e9;
}

colony::AnimalRecord founder(std::size_t number, Sex sex) {
  colony::AnimalRecord animal;
  animal.id = id_of("F", number);
  animal.sex = maybe(sex);
  animal.origin = maybe(std::string("bought"));
  animal.line = maybe(std::string("north"));
  animal.hatched = maybe(day(day_in(2015)));
  if (*rc::gen::arbitrary<bool>()) {
    const double het = share();
    animal.bought_as.push_back({"tarnbrook", {{"+/e", het}, {"+/+", 1 - het}}, maybe(share())});
  }
  return animal;
}

/// A clutch of two earlier founders and up to four hatchlings.
void add_clutch(Records& records, std::size_t number, const std::string& dam,
                const std::string& sire) {
  colony::ClutchRecord clutch;
  clutch.id = id_of("C", number);
  clutch.dam = maybe(dam);
  if (*rc::gen::arbitrary<bool>()) {
    clutch.sires = {{sire, maybe(share() * 10)}};
    clutch.paternity = maybe(colony::Paternity::mixed);
  }
  clutch.laid = maybe(day(day_in(2021)));
  clutch.hatched = maybe(day(day_in(2022)));
  clutch.eggs = maybe(std::int64_t{4} + below(9));
  for (int i = below(5); i > 0; --i) {
    colony::AnimalRecord animal;
    animal.id = id_of("H", records.animals.size());
    animal.clutch = clutch.id;
    animal.sex = maybe(below(2) == 0 ? Sex::female : Sex::male);
    records.animals.push_back(animal);
  }
  records.clutches.push_back(std::move(clutch));
}

decltype(colony::ObservationRecord::what) any_observation(const Records& records) {
  const std::string& animal =
      records.animals[static_cast<std::size_t>(below(static_cast<int>(records.animals.size())))].id;
  switch (below(4)) {
    case 0:
      return colony::AppearanceRecord{animal, "tarnbrook", below(2) == 0 ? "plain" : "tarnbrook"};
    case 1:
      return colony::ScoreRecord{animal,
                                 "crown-fleck",
                                 maybe(std::string("strong")),
                                 {},
                                 maybe(std::string("ana")),
                                 maybe(share()),
                                 maybe(below(2) == 0)};
    case 2:
      return colony::ResultRecord{animal, "shed-pcr", "carrier", maybe(std::string("S-1"))};
    default:
      return colony::BroodRecord{
          animal, "tarnbrook", "e/e", {{"plain", 1 + below(9)}, {"tarnbrook", below(9)}}};
  }
}

void add_observations(Records& records, int count) {
  for (int i = 0; i < count; ++i) {
    colony::ObservationRecord observation{id_of("o", records.observations.size()),
                                          any_observation(records),
                                          maybe(day(day_in(2024))),
                                          maybe(moment(day_in(2025) + "T12:30:00.250+02:00")),
                                          {},
                                          {}};
    records.observations.push_back(std::move(observation));
  }
  if (count > 0 && *rc::gen::arbitrary<bool>()) {
    const std::string of = records.observations[static_cast<std::size_t>(below(count))].id;
    records.observations.push_back({"withdrawn",
                                    colony::WithdrawalRecord{of, maybe(std::string("line\nbreak"))},
                                    {},
                                    {},
                                    {},
                                    {}});
  }
}

}  // namespace

rc::Gen<Records> any_herd() {
  return rc::gen::exec([] {
    Records records;
    const auto pairs = static_cast<std::size_t>(1 + below(3));
    for (std::size_t i = 0; i < pairs; ++i) {
      records.animals.push_back(founder(2 * i, Sex::female));
      records.animals.push_back(founder(2 * i + 1, Sex::male));
    }
    for (std::size_t i = 0; i < pairs; ++i) {
      add_clutch(records, i, records.animals[2 * i].id, records.animals[2 * i + 1].id);
    }
    add_observations(records, below(12));
    return records;
  });
}

Records large_herd(std::size_t animals) {
  Records records;
  records.animals = {{"F", Sex::female, "bought", {}, {}, {}, {}, {}},
                     {"M", Sex::male, "bought", {}, {}, {}, {}, {}}};
  for (std::size_t i = 0; i < animals; ++i) {
    const std::string clutch = "C" + std::to_string(i / 10);
    const std::string hatchling = "H" + std::to_string(i);
    if (i % 10 == 0) {
      records.clutches.push_back(
          {clutch, "F", {{"M", {}}}, {}, {}, {}, {}, day("2024-01-01"), {}, 10, {}});
    }
    records.animals.push_back({hatchling, {}, {}, clutch, {}, {}, {}, {}});
    records.observations.push_back(
        {"r" + std::to_string(i),
         colony::ScoreRecord{hatchling, "crown-fleck", "strong", {}, "ana", {}, {}},
         day("2024-06-01"),
         {},
         {},
         {}});
  }
  return records;
}

}  // namespace likelihet::book
