// What was learned from a book is kept beside its records, replaced as a whole, and never mixed in.
#include <limits>

#include "book/example.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace likelihet::book::learned_test {
namespace {

using testing::IsEmpty;

TEST(learned, comes_back_to_the_last_bit) {
  const Folder folder;
  Book book = make_example(folder / "b");
  EXPECT_FALSE(book.learned());
  const LearnedRecord first{"0123456789abcdef",
                            R"({"version":1})",
                            {0.1, 1e-300, -0.0, 1.0 / 3, std::numeric_limits<double>::min()}};
  book.keep_learned(first);
  EXPECT_EQ(book.learned(), first);
  EXPECT_EQ(Opener::open(folder / "b", test_settings()).learned(), first);
}

TEST(learned, is_replaced_as_a_whole_and_the_ledger_says_when) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const std::size_t before = book.ledger().size();
  book.keep_learned({"one", "{}", {1, 2, 3}});
  book.keep_learned({"two", "[]", {}});
  EXPECT_EQ(book.learned(), (LearnedRecord{"two", "[]", {}}));
  ASSERT_EQ(book.ledger().size(), before + 2);
  EXPECT_EQ(book.ledger().back().what, "learned");
  EXPECT_EQ(book.ledger().back().id, "two");
}

TEST(learned, changes_no_record_and_leaves_the_book_sound) {
  const Folder folder;
  Book book = make_example(folder / "b");
  book.keep_learned({"one", "{}", std::vector<double>(100'000, 0.25)});
  EXPECT_EQ(book.records(), example_records());
  EXPECT_THAT(book.check(), IsEmpty());
  EXPECT_EQ(book.learned()->draws.size(), 100'000U);
}

}  // namespace
}  // namespace likelihet::book::learned_test
