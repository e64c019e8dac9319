// Columns line up, whatever the cells hold.
#include "table.hpp"

#include <gtest/gtest.h>

namespace likelihet::cli::table_test {
namespace {

TEST(Table, AlignsCells) {
  Table table({{"id"}, {"chance", Align::right}});
  table.add({"größe", "5 %"});
  table.add({"F01", "66.7 %"});
  EXPECT_EQ(table.text(Terminal::plain(80), 2),
            "  id     chance\n"
            "  größe     5 %\n"
            "  F01    66.7 %\n");
}

TEST(Table, BreaksTheLastColumnToFit) {
  Table table({{"day"}, {"evidence"}});
  table.add({"2024", "one two three four five six seven"});
  EXPECT_EQ(table.text(Terminal::plain(26), 0),
            "day   evidence\n"
            "2024  one two three four\n"
            "      five six seven\n");
}

TEST(Table, TakesShortRows) {
  Table table({{"a"}, {"b"}, {"c", Align::right}});
  EXPECT_TRUE(table.empty());
  table.add({"x"});
  EXPECT_FALSE(table.empty());
  EXPECT_EQ(table.text(Terminal::plain(80), 0), "a  b  c\nx\n");
}

}  // namespace
}  // namespace likelihet::cli::table_test
