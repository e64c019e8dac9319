// What was learned from a book is kept beside its records, replaced as a whole, and never mixed in.
#include <limits>
#include <string>

#include "book/example.hpp"
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
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

// One byte of the row, whichever, turned into another.
TEST(learned, no_flipped_byte_passes_for_what_was_learned) {
  const Folder folder;
  const auto file = folder / "b";
  const LearnedRecord learned{
      "0123456789abcdef", R"({"version":1,"rows":[]})", {0.1, 0.2, 1.0 / 3, 0.5}};
  { make_example(file).keep_learned(learned); }
  const std::size_t sizes[] = {16 + 1 + 64, learned.document.size(), 8 * learned.draws.size()};
  const char* const columns[] = {"digest", "document", "draws"};
  std::size_t flipped = 0;
  for (std::size_t column = 0; column < 3; ++column) {
    for (std::size_t at = 0; at < sizes[column]; ++at) {
      { Opener::open(file, test_settings()).keep_learned(learned); }
      SQLite::Database raw(file.string(), SQLite::OPEN_READWRITE);
      const std::string name = columns[column];
      SQLite::Statement read(raw, "SELECT CAST(" + name + " AS BLOB) FROM learned");
      ASSERT_TRUE(read.executeStep());
      std::string bytes = read.getColumn(0).getString();
      read.reset();
      bytes[at] = static_cast<char>(bytes[at] ^ 1);
      SQLite::Statement write(
          raw, "UPDATE learned SET " + name + (column < 2 ? " = CAST(? AS TEXT)" : " = ?"));
      write.bindNoCopy(1, bytes.data(), static_cast<int>(bytes.size()));
      write.exec();
      ++flipped;
      const Book book = Opener::open(file, test_settings());
      EXPECT_FALSE(book.learned()->sound) << name << ' ' << at;
      const auto faults = book.check();
      ASSERT_EQ(faults.size(), 1U) << name << ' ' << at;
      EXPECT_EQ(faults[0].place, "book: learned tables");
    }
  }
  EXPECT_EQ(flipped, 81U + 23 + 32);
}

// Rows that an earlier version kept have no seal and are used as before.
TEST(learned, of_an_earlier_version_are_read) {
  const Folder folder;
  { make_example(folder / "b").keep_learned({"0123456789abcdef", "{}", {0.5}}); }
  {
    SQLite::Database raw((folder / "b").string(), SQLite::OPEN_READWRITE);
    raw.exec("UPDATE learned SET digest = '0123456789abcdef'");
  }
  const Book book = Opener::open(folder / "b", test_settings());
  EXPECT_EQ(book.learned(), (LearnedRecord{"0123456789abcdef", "{}", {0.5}}));
  EXPECT_THAT(book.check(), IsEmpty());
}

}  // namespace
}  // namespace likelihet::book::learned_test
