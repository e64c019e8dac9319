// Claims are kept with what they rest on, end once, and are never changed.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace likelihet::book::claims_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

ClaimRecord claim(const Book& book, const std::string& code) {
  return {code,         "H0301",      moment("2026-05-04T03:02:01Z"), book.evidence().entries,
          "0123456789", std::nullopt, R"({"published":0.66})",        std::nullopt};
}

Publication publication(const Book& book, const std::vector<std::string>& codes) {
  Publication made;
  made.entries = book.evidence().entries;
  for (const std::string& code : codes) made.claims.push_back(claim(book, code));
  return made;
}

TEST(claims, come_back_in_their_order_and_the_ledger_says_when) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const Publication made = publication(book, {"B", "A"});
  EXPECT_TRUE(book.publish(made));
  EXPECT_EQ(Opener::open(folder / "b", test_settings()).claims(), made.claims);
  EXPECT_EQ(book.ledger().back().what, "claim published");
  EXPECT_EQ(book.ledger().back().id, "A");
  EXPECT_EQ(book.records(), example_records());
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(claims, are_not_written_where_the_book_has_gone_on) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const Publication made = publication(book, {"A"});
  colony::Records more;
  more.animals.push_back({"F09", {}, {}, {}, {}, {}, {}, {}});
  added(book, more);
  EXPECT_FALSE(book.publish(made));
  EXPECT_THAT(book.claims(), IsEmpty());
}

TEST(claims, end_once_with_a_reason) {
  const Folder folder;
  Book book = make_example(folder / "b");
  ASSERT_TRUE(book.publish(publication(book, {"A"})));
  Publication made = publication(book, {"B"});
  const ClaimEnd replaced{moment("2026-05-04T03:02:01Z"), "B", "new evidence"};
  made.ends = {{"A", replaced}};
  ASSERT_TRUE(book.publish(made));
  EXPECT_EQ(book.claims()[0].end, replaced);
  EXPECT_FALSE(book.claims()[1].end);
  EXPECT_EQ(book.ledger().back().what, "claim replaced");
  Publication again;
  again.entries = book.evidence().entries;
  again.ends = {{"A", {moment("2026-05-04T03:02:01Z"), {}, "twice"}}};
  EXPECT_THROW(book.publish(again), std::invalid_argument);
  again.ends[0].first = "nowhere";
  EXPECT_THROW(book.publish(again), std::invalid_argument);
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(claims, keep_the_tables_that_they_counted_once) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const LearnedRecord tables{"digest", "{}", {0.1, 0.2}};
  for (const std::string code : {"A", "B"}) {
    Publication made = publication(book, {code});
    made.claims[0].tables = "digest";
    EXPECT_THROW(book.publish(made), std::invalid_argument);
    made.counted = tables;
    made.counted_digest = "digest";
    EXPECT_TRUE(book.publish(made));
  }
  book.keep_learned({"other", "[]", {0.5}});
  EXPECT_EQ(book.counted_tables("digest"), tables);
  EXPECT_FALSE(book.counted_tables("other"));
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(claims, of_an_animal_that_is_not_there_are_refused_by_the_file) {
  const Folder folder;
  Book book = make_example(folder / "b");
  Publication made = publication(book, {"A"});
  made.claims[0].animal = "nobody";
  EXPECT_THROW(book.publish(made), BookError);
  EXPECT_THAT(book.claims(), IsEmpty());
}

TEST(claims, cannot_be_changed_or_erased_by_raw_statements) {
  const Folder folder;
  const auto file = folder / "b";
  {
    Book book = make_example(file);
    Publication made = publication(book, {"A", "B"});
    made.counted = LearnedRecord{"digest", "{}", {0.1}};
    made.counted_digest = "digest";
    made.claims[0].tables = "digest";
    ASSERT_TRUE(book.publish(made));
    Publication end;
    end.entries = book.evidence().entries;
    end.ends = {{"A", {moment("2026-05-04T03:02:01Z"), {}, "wrong"}}};
    ASSERT_TRUE(book.publish(end));
  }
  EXPECT_THAT(run_raw(file, "UPDATE claims SET document = '{}'"), HasSubstr("never changed"));
  EXPECT_THAT(run_raw(file, "DELETE FROM claims"), HasSubstr("never erased"));
  EXPECT_THAT(run_raw(file, "UPDATE claim_ends SET why = 'x'"), HasSubstr("ends once"));
  EXPECT_THAT(run_raw(file, "DELETE FROM claim_ends"), HasSubstr("ends once"));
  EXPECT_THAT(run_raw(file, "INSERT OR REPLACE INTO claim_ends VALUES ('A', 'x', NULL, 'y')"),
              HasSubstr("ends once"));
  EXPECT_THAT(run_raw(file, "UPDATE counted_tables SET draws = x'00'"), HasSubstr("are kept"));
  EXPECT_THAT(run_raw(file, "DELETE FROM counted_tables"), HasSubstr("are kept"));
  EXPECT_THAT(run_raw(file, "INSERT OR REPLACE INTO counted_tables VALUES ('digest', '', x'')"),
              HasSubstr("are kept"));
}

TEST(claims, that_the_ledger_does_not_know_are_found_by_check) {
  const Folder folder;
  { make_example(folder / "b"); }
  EXPECT_EQ(run_raw(folder / "b",
                    "INSERT INTO claims VALUES (1, 'X', 'F01', '2026-05-04T03:02:01Z', 1, 'e', "
                    "NULL, '{}')"),
            "");
  const auto faults = Opener::open(folder / "b", test_settings()).check();
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].place, "book: claim X");
}

}  // namespace
}  // namespace likelihet::book::claims_test
