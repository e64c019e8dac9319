// What an import means for a book: new, the same, completed, or against it.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/book/merging.hpp>

namespace likelihet::book::merging_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

const colony::Timestamp& later() {
  static const colony::Timestamp at = moment("2026-06-01T00:00:00Z");
  return at;
}

/// The example as a book holds it: entered, with the book's places.
colony::Records in_book() {
  colony::Records records = example_records();
  for (auto& animal : records.animals) {
    animal.place.text = "book: animal " + animal.id;
  }
  for (auto& observation : records.observations) {
    observation.entered = moment("2026-05-04T03:02:01Z");
  }
  return records;
}

Merged merged_with(const std::function<void(colony::Records&)>& change) {
  colony::Records incoming = example_records();
  change(incoming);
  return merge(in_book(), incoming, later());
}

/// The only fault of merging the example, changed, into itself.
colony::Fault fault_of(const std::function<void(colony::Records&)>& change) {
  Merged merged = merged_with(change);
  EXPECT_EQ(merged.faults.size(), 1U);
  EXPECT_EQ(merged.records, in_book());
  return merged.faults.empty() ? colony::Fault{} : merged.faults[0];
}

TEST(merging, into_nothing_everything_is_new) {
  const Merged merged = merge({}, example_records(), later());
  EXPECT_EQ(merged.records, example_records());
  EXPECT_EQ(merged.change().animals_added, 3U);
  EXPECT_EQ(merged.records.observations[0].entered, later());
}

TEST(merging, the_same_again_is_unchanged_and_keeps_its_entry) {
  const Merged merged = merged_with([](colony::Records&) {});
  EXPECT_EQ(merged.unchanged, 10U);
  EXPECT_THAT(merged.faults, IsEmpty());
  EXPECT_EQ(merged.records.observations[0].entered, moment("2026-05-04T03:02:01Z"));
}

TEST(merging, fields_left_out_of_the_document_are_no_change) {
  const Merged merged = merged_with([](colony::Records& records) {
    records.animals[0] = {"F01", {}, {}, {}, {}, {}, {}, {}};
    records.clutches[0] = {"C03", {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
  });
  EXPECT_EQ(merged.unchanged, 10U);
  EXPECT_EQ(merged.records, in_book());
}

TEST(merging, another_value_is_a_fault_with_field_and_both_values) {
  const colony::Fault fault =
      fault_of([](colony::Records& records) { records.animals[0].sex = genetics::Sex::male; });
  EXPECT_EQ(fault.place, "/animals/0");
  EXPECT_EQ(fault.what, "animal F01 is in the book with sex female, not male");
  EXPECT_THAT(fault.mend, HasSubstr("agree with the book"));
}

TEST(merging, every_field_of_an_animal_is_compared) {
  using Record = colony::AnimalRecord;
  const std::vector<std::pair<std::string, std::function<void(Record&)>>> changes = {
      {"origin bought, not wild", [](Record& r) { r.origin = "wild"; }},
      {"line north, not south", [](Record& r) { r.line = "south"; }},
      {"hatched 2021-06-30, not 2021-07-01", [](Record& r) { r.hatched = day("2021-07-01"); }},
      {"bought_as for tarnbrook", [](Record& r) { r.bought_as[0].trust = 0.8; }},
      {"bought_as for tarnbrook", [](Record& r) { r.bought_as[0].odds[0].second = 0.6; }}};
  for (const auto& [words, change] : changes) {
    EXPECT_THAT(
        fault_of([&change = change](colony::Records& records) { change(records.animals[0]); }).what,
        HasSubstr(words));
  }
  EXPECT_THAT(fault_of([](colony::Records& r) { r.animals[2].clutch = "C04"; }).what,
              HasSubstr("clutch C03, not C04"));
}

TEST(merging, every_field_of_a_clutch_is_compared) {
  using Record = colony::ClutchRecord;
  const std::vector<std::pair<std::string, std::function<void(Record&)>>> changes = {
      {"dam F01, not F02", [](Record& r) { r.dam = "F02"; }},
      {"sires M02 with share 1, not M03 with share 1", [](Record& r) { r.sires[0].id = "M03"; }},
      {"sires",
       [](Record& r) {
         r.sires.push_back({"M03", {}});
       }},
      {"laid 2024-04-02, not 2024-04-03", [](Record& r) { r.laid = day("2024-04-03"); }},
      {"hatched", [](Record& r) { r.hatched = day("2024-06-02"); }},
      {"eggs 7, not 8", [](Record& r) { r.eggs = 8; }}};
  for (const auto& [words, change] : changes) {
    EXPECT_THAT(fault_of([&change = change](colony::Records& records) {
                  change(records.clutches[0]);
                }).what,
                HasSubstr(words));
  }
}

TEST(merging, a_share_or_trust_that_is_the_default_may_be_left_out) {
  const Merged merged =
      merged_with([](colony::Records& records) { records.clutches[0].sires[0].share.reset(); });
  EXPECT_EQ(merged.unchanged, 10U);
}

TEST(merging, odds_for_another_locus_may_be_added) {
  const Merged merged = merged_with([](colony::Records& records) {
    records.animals[0].bought_as.insert(records.animals[0].bought_as.begin(),
                                        {"brackmoor", {{"+/W", 1.0}}, {}});
  });
  ASSERT_EQ(merged.animals.size(), 1U);
  EXPECT_EQ(merged.animals[0].known, 1U);
  EXPECT_EQ(merged.animals[0].fields, "bought_as for brackmoor");
  ASSERT_EQ(merged.records.animals[0].bought_as.size(), 2U);
  EXPECT_EQ(merged.records.animals[0].bought_as[1].locus, "brackmoor");
  EXPECT_EQ(merged.records.animals[0].place.text, "/animals/0");
}

TEST(merging, an_observation_is_the_same_or_a_fault) {
  using Records = colony::Records;
  const std::vector<std::pair<std::string, std::function<void(Records&)>>> changes = {
      {"shows plain, not tarnbrook",
       [](Records& r) { std::get<0>(r.observations[0].what).shows = "tarnbrook"; }},
      {"on 2024-01-10, not absent", [](Records& r) { r.observations[0].on.reset(); }},
      {"level strong, not absent",
       [](Records& r) { std::get<1>(r.observations[1].what).level.reset(); }},
      {"sure 0.9, not 0.8", [](Records& r) { std::get<1>(r.observations[1].what).sure = 0.8; }},
      {"on absent, not 2024-06-11", [](Records& r) { r.observations[1].on = day("2024-06-11"); }},
      {"report carrier, not clear",
       [](Records& r) { std::get<2>(r.observations[2].what).report = "clear"; }},
      {"recorded",
       [](Records& r) { r.observations[2].recorded = moment("2024-07-03T18:30:01+02:00"); }},
      {"offspring plain 7, tarnbrook 0, not plain 8, tarnbrook 0",
       [](Records& r) { std::get<3>(r.observations[3].what).offspring[0].second = 8; }},
      {"why wrong animal, not smudged",
       [](Records& r) { std::get<4>(r.observations[4].what).why = "smudged"; }}};
  for (const auto& [words, change] : changes) {
    const colony::Fault fault = fault_of(change);
    EXPECT_THAT(fault.what, HasSubstr(words));
    EXPECT_THAT(fault.mend, HasSubstr("withdrawal"));
  }
}

TEST(merging, another_kind_of_observation_is_told_first) {
  const Merged merged = merged_with([](colony::Records& records) {
    records.observations[0].what = colony::WithdrawalRecord{"o2", {}};
  });
  ASSERT_FALSE(merged.faults.empty());
  EXPECT_THAT(merged.faults[0].what, HasSubstr("kind appearance, not withdrawal"));
}

TEST(merging, an_observation_without_recorded_is_the_same_as_one_with_it) {
  const Merged merged =
      merged_with([](colony::Records& records) { records.observations[2].recorded.reset(); });
  EXPECT_EQ(merged.unchanged, 10U);
}

TEST(merging, the_time_of_entry_stands_for_recorded_where_nothing_else_does) {
  const auto with_entry = [](std::size_t at) {
    return [at](colony::Records& records) {
      records.observations[at].recorded = moment("2026-05-04T03:02:01Z");
    };
  };
  EXPECT_EQ(merged_with(with_entry(1)).unchanged, 10U);     // neither `on` nor `recorded`
  EXPECT_EQ(merged_with(with_entry(0)).faults.size(), 1U);  // it has `on`
  EXPECT_EQ(merged_with(with_entry(2)).faults.size(), 1U);  // it was recorded at another time
  EXPECT_EQ(merged_with([](colony::Records& records) {
              records.observations[1].recorded = moment("2026-05-04T03:02:02Z");
            }).faults.size(),
            1U);
}

TEST(merging, a_record_that_stands_twice_counts_once) {
  colony::Records twice = example_records();
  twice.animals.push_back(twice.animals[0]);
  twice.observations.push_back(twice.observations[3]);
  const Merged fresh = merge({}, twice, later());
  EXPECT_EQ(fresh.records, example_records());
  EXPECT_THAT(fresh.faults, IsEmpty());
  EXPECT_EQ(merge(in_book(), twice, later()).unchanged, 10U);
}

TEST(merging, a_record_that_stands_twice_with_other_content_is_a_fault) {
  colony::Records twice = example_records();
  twice.animals.push_back(twice.animals[0]);
  twice.animals.back().line = "south";
  twice.animals.back().place.text = "/animals/3";
  const Merged merged = merge({}, twice, later());
  ASSERT_EQ(merged.faults.size(), 1U);
  EXPECT_EQ(merged.faults[0].place, "/animals/3");
  EXPECT_EQ(merged.faults[0].what,
            "animal F01 is there twice with other content: line north at /animals/0, south here");
}

TEST(merging, thousands_of_faults_are_counted_and_the_first_thousand_told) {
  colony::Records book;
  colony::Records incoming;
  for (int i = 0; i < 1500; ++i) {
    book.animals.push_back({std::to_string(i), {}, {}, {}, "north", {}, {}, {}});
    incoming.animals.push_back({std::to_string(i), {}, {}, {}, "south", {}, {}, {}});
  }
  Merged merged = merge(book, incoming, later());
  const colony::Faults faults = merged.take_faults();
  ASSERT_EQ(faults.size(), 1001U);
  EXPECT_THAT(faults.back().what, HasSubstr("500 more"));
}

// Two ids that print alike: the second is refused where it comes in, and stays readable where an
// earlier version let it in.
TEST(merging, a_new_id_hides_nothing) {
  colony::Records incoming;
  colony::AnimalRecord twin;
  twin.id = example_records().animals[0].id + "\u200B";
  twin.place.text = "/animals/0";
  incoming.animals = {twin};
  const Merged merged = merge(in_book(), incoming, later());
  ASSERT_EQ(merged.faults.size(), 1U);
  EXPECT_EQ(merged.faults[0].place, "/animals/0/id");
  EXPECT_THAT(merged.faults[0].what, HasSubstr("U+200B"));
}

TEST(merging, an_id_of_the_book_may_hide_something) {
  colony::Records book = in_book();
  colony::AnimalRecord old;
  old.id = "H1 ";
  book.animals.push_back(old);
  colony::Records incoming;
  incoming.animals = {old};
  EXPECT_THAT(merge(book, incoming, later()).faults, IsEmpty());
  incoming.animals[0].sex = genetics::Sex::male;
  const Merged completed = merge(book, incoming, later());
  EXPECT_THAT(completed.faults, IsEmpty());
  EXPECT_EQ(completed.animals.size(), 1U);
  incoming.animals[0].line = "tarn ";
  EXPECT_EQ(merge(book, incoming, later()).faults.size(), 1U);
}

}  // namespace
}  // namespace likelihet::book::merging_test
