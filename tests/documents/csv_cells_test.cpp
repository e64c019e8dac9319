// Numbers, sires, and the marks that spreadsheets leave on ids.
#include <documents/generated.hpp>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/base/shortest.hpp>
#include <likelihet/documents/csv_cells.hpp>
#include <likelihet/documents/csv_sires.hpp>

namespace likelihet::documents::csv_cells_test {
namespace {

using Sires = std::vector<colony::SireRecord>;

// Common practice of spreadsheets, no source: what becomes of 3-2, 2-24, 1E5 and long numbers.
TEST(MangledIds, AreRecognised) {
  for (const char* id :
       {"3-Feb", "03-Feb-24", "3-Feb-2024", "Feb-24", "3. Feb", "3. Feb. 2024", "02. Mrz", "1-mai",
        "Dez 23", "03.02.2024", "3.2.24", "2024-02-07", "2024/2/7", "2/7/2024", "07/02/24",
        "03-02-2024", "2024-02-07 00:00:00", "SEP-21", "1-Sept"}) {
    EXPECT_EQ(mangled_into(id), "a date") << id;
  }
  for (const char* id : {"1.2E+05", "1,2E+05", "1E+05", "1.23457e+18", "-4E-02", "0.1428571428"}) {
    EXPECT_EQ(mangled_into(id), "a number") << id;
  }
}

TEST(MangledIds, LeaveWhatAKeeperWritesAlone) {
  for (const char* id :
       {"F01",     "H0301", "23-C2-07", "23-2-7", "1E5",      "12E3", "2024-A-7",           "12",
        "12.1",    "C2024", "May",      "Mar",    "Feb-Rose", "M02",  "F01xM02:2024-06-01", "2024",
        "2024-02", "3/2",   "R4-12",    "",       "12.345"}) {
    EXPECT_EQ(mangled_into(id), std::nullopt) << id;
  }
  EXPECT_EQ(mangled_into(std::string(1'000'000, '1')), std::nullopt);
}

TEST(Numbers, AreReadWithAPointAndWhereAllowedWithAComma) {
  EXPECT_EQ(parse_number("0.9", false), 0.9);
  EXPECT_EQ(parse_number("-1e-3", false), -0.001);
  EXPECT_EQ(parse_number("0,9", true), 0.9);
  EXPECT_EQ(parse_number("0.9", true), 0.9);
  for (const char* text :
       {"0,9", "", " 1", "1 ", "1x", "nan", "inf", "-inf", "1e999", "95%", "0x1", "+1"}) {
    EXPECT_EQ(parse_number(text, false), std::nullopt) << text;
  }
  EXPECT_EQ(parse_number("1.000,5", true), std::nullopt);  // no markers of thousands
  EXPECT_EQ(parse_number("1,000,5", true), std::nullopt);
}

RC_GTEST_PROP(Numbers, ReadBackAsTheSameDouble, ()) {
  const double number = generated::number();
  RC_ASSERT(parse_number(base::shortest(number), false) == number);
}

TEST(SiresCell, IsReadAndWritten) {
  EXPECT_EQ(parse_sires("M02", false), (Sires{{"M02", std::nullopt}}));
  EXPECT_EQ(parse_sires(" M02:0.7  M05:0.3 ", false), (Sires{{"M02", 0.7}, {"M05", 0.3}}));
  EXPECT_EQ(parse_sires("M02:0,7 M05:0,3", true), (Sires{{"M02", 0.7}, {"M05", 0.3}}));
  EXPECT_EQ(parse_sires("\"M 0:2\":1 \"a\"\"b\"", false), (Sires{{"M 0:2", 1.0}, {"a\"b", {}}}));
  EXPECT_EQ(sires_cell({{"M 0:2", 1.0}, {"a\"b", {}}, {"M05", 0.25}}),
            "\"M 0:2\":1 \"a\"\"b\" M05:0.25");
  EXPECT_EQ(parse_sires("", false), Sires{});
  for (const char* cell :
       {"M02:", "M02:x", ":0.7", "\"M02", "\"\"", "\"M02\"x", "M02:0,7", "M02:1:2", "M02:nan"}) {
    EXPECT_EQ(parse_sires(cell, false), std::nullopt) << cell;
  }
}

RC_GTEST_PROP(SiresCell, ReadsBackWhatItWrites, ()) {
  const Sires sires = generated::several(4, [] {
    return colony::SireRecord{generated::id(), generated::maybe(generated::number)};
  });
  RC_ASSERT(parse_sires(sires_cell(sires), false) == sires);
}

}  // namespace
}  // namespace likelihet::documents::csv_cells_test
