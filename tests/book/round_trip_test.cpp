// Random records: what goes in comes out, in any portions, once.
#include <algorithm>
#include <chrono>

#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace likelihet::book::round_trip_test {
namespace {

Change take(std::variant<Change, colony::Faults> outcome) {
  if (const auto* faults = std::get_if<colony::Faults>(&outcome)) {
    RC_FAIL(faults->front().place + ": " + faults->front().what);
  }
  return std::get<Change>(outcome);
}

RC_GTEST_PROP(round_trip, any_records_come_back_the_same_and_in_order, ()) {
  const colony::Records records = *any_herd();
  const Folder folder;
  {
    Book book = Opener::create(folder / "b", example_model(), test_settings());
    take(book.add(records, Mode::commit));
  }
  Book book = Opener::open(folder / "b", test_settings());
  RC_ASSERT(book.records() == records);
  RC_ASSERT(book.check().empty());
  const Change again = take(book.add(records, Mode::commit));
  RC_ASSERT(again.unchanged ==
            records.animals.size() + records.clutches.size() + records.observations.size());
  RC_ASSERT(book.records() == records);
}

RC_GTEST_PROP(round_trip, portions_come_to_the_same_as_all_at_once, ()) {
  const colony::Records records = *any_herd();
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  // Animals and clutches first and bare, then what is known of them; then observations one by one.
  colony::Records bare = records;
  bare.observations.clear();
  for (colony::AnimalRecord& animal : bare.animals) {
    animal = {animal.id, {}, {}, animal.clutch, {}, {}, {}, {}};
  }
  for (colony::ClutchRecord& clutch : bare.clutches) {
    clutch = {clutch.id, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
  }
  take(book.add(bare, Mode::commit));
  take(book.add({records.animals, records.clutches, {}}, Mode::commit));
  for (const colony::ObservationRecord& observation : records.observations) {
    take(book.add({{}, {}, {observation}}, Mode::commit));
  }
  RC_ASSERT(book.records() == records);
  RC_ASSERT(book.check().empty());
}

TEST(round_trip, extreme_numbers_come_back_exactly) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  colony::Records records = example_records();
  const std::vector<double> odds = {0.1 + 0.2, 1e-300, 5e-324, 1.0 / 3};
  records.animals[0].bought_as[0].trust = odds[3];
  records.clutches[0].sires[0].share = 1.7976931348623157e308;
  records.clutches[0].eggs = std::int64_t{9007199254740993};  // 2^53 + 1: no double
  std::get<colony::ScoreRecord>(records.observations[1].what).sure = odds[0];
  added(book, records);
  EXPECT_EQ(book.records(), records);
}

TEST(round_trip, ten_thousand_animals_are_added_in_seconds) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  const colony::Records records = large_herd(10'000);
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(added(book, records).observations_added, 10'000U);
  EXPECT_EQ(added(book, records).unchanged, 21'002U);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  EXPECT_LT(took.count(), 20) << "seconds, also in a slow build";
  EXPECT_EQ(book.records(), records);
}

}  // namespace
}  // namespace likelihet::book::round_trip_test
