// Tables of text: RFC 4180 section 2 rule by rule, and what spreadsheets write beside it.
#include <documents/generated.hpp>
#include <documents/samples.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/csv_table.hpp>

namespace likelihet::documents::csv_table_test {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(const std::string& text) {
  const CsvTable table = value_of(read_csv(text, "t.csv"));
  Rows rows{table.header};
  rows.insert(rows.end(), table.rows.begin(), table.rows.end());
  return rows;
}

colony::Faults faults_in(const std::string& text) {
  return faults_of(read_csv(text, "t.csv"));
}

// RFC 4180 section 2, rules 1 to 7, with the examples given there (the header line is ours in all
// but rule 3).
TEST(Rfc4180, Rule1EachRecordOnItsLine) {
  EXPECT_EQ(rows_of("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Rows{{"a", "b", "c"}, {"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(Rfc4180, Rule2TheLastLineBreakIsOptional) {
  EXPECT_EQ(rows_of("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx"),
            (Rows{{"a", "b", "c"}, {"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(Rfc4180, Rule3AHeader) {
  EXPECT_EQ(rows_of("field_name,field_name_2,field_name_3\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Rows{{"field_name", "field_name_2", "field_name_3"},
                  {"aaa", "bbb", "ccc"},
                  {"zzz", "yyy", "xxx"}}));
}
TEST(Rfc4180, Rule4SpacesArePartOfAField) {
  EXPECT_EQ(rows_of("a,b,c\r\naaa, bbb ,ccc\r\n"),
            (Rows{{"a", "b", "c"}, {"aaa", " bbb ", "ccc"}}));
}
TEST(Rfc4180, Rule5QuotedFields) {
  EXPECT_EQ(rows_of("a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"a", "b", "c"}, {"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(Rfc4180, Rule6LineBreaksAndCommasInQuotes) {
  EXPECT_EQ(rows_of("a,b,c\r\n\"aaa\",\"b \r\nbb\",\"c,cc\"\r\nzzz,yyy,xxx"),
            (Rows{{"a", "b", "c"}, {"aaa", "b \r\nbb", "c,cc"}, {"zzz", "yyy", "xxx"}}));
}
TEST(Rfc4180, Rule7AQuoteInQuotesIsDoubled) {
  EXPECT_EQ(rows_of("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\""),
            (Rows{{"a", "b", "c"}, {"aaa", "b\"bb", "ccc"}}));
}

// Common practice of spreadsheets, no source: separators by locale, line ends by system, a marker.
TEST(CsvTable, ReadsWhatSpreadsheetsWrite) {
  const Rows expected{{"id", "sure"}, {"F01", "0,9"}};
  EXPECT_EQ(rows_of("id;sure\nF01;0,9\n"), expected);
  EXPECT_EQ(rows_of("\xEF\xBB\xBFid\tsure\rF01\t0,9\r"), expected);
  EXPECT_EQ(rows_of("\xEF\xBB\xBF\"id\",\"sure\"\r\n\"F01\",\"0,9\"\r\n"), expected);
  EXPECT_EQ(rows_of("\"i,d\";sure\nF01;5\" tub\n"), (Rows{{"i,d", "sure"}, {"F01", "5\" tub"}}));
  EXPECT_EQ(rows_of("id\nF01\n"), (Rows{{"id"}, {"F01"}}));
  EXPECT_EQ(value_of(read_csv("id;sure\n", "t.csv")).separator, ';');
  EXPECT_EQ(value_of(read_csv("id\n", "t.csv")).separator, ',');
}

TEST(CsvTable, NumbersRowsAsASpreadsheetShowsThem) {
  const CsvTable table =
      value_of(read_csv("id,why\r\nF01,\"two\r\nlines\"\r\n\r\n,\r\nM02,x\r\n", "t.csv"));
  EXPECT_EQ(table.rows, (Rows{{"F01", "two\r\nlines"}, {"M02", "x"}}));
  EXPECT_EQ(table.row_numbers, (std::vector<std::size_t>{2, 5}));
}

TEST(CsvTable, FillsUpShortRowsAndDropsEmptyCellsBeyondTheLastColumn) {
  EXPECT_EQ(rows_of("a,b,c\n1\n1,2,3,,\n"),
            (Rows{{"a", "b", "c"}, {"1", "", ""}, {"1", "2", "3"}}));
}

TEST(CsvTable, RefusesATableWithoutAHeader) {
  const colony::Faults empty{{"t.csv", "the table is empty", "give a first row of column names"}};
  EXPECT_EQ(faults_in(""), empty);
  EXPECT_EQ(faults_in("\xEF\xBB\xBF\r\n"), empty);
}

TEST(CsvTable, NamesRowAndColumnOfEachFault) {
  EXPECT_EQ(faults_in("id,,id\nF01,\"x\"y,z\n1,2,3,4\nM02,\xE4,\n"),
            (colony::Faults{
                {"t.csv row 1 column 2", "the column has no name",
                 "name it, or remove the column up to the end of the table"},
                {"t.csv row 1 column 3", "a second column named 'id'",
                 "keep one of the two, or rename it"},
                {"t.csv row 2 column 2", "text after the closing quote of 'x'",
                 "quote the whole cell; write a quote inside it twice"},
                {"t.csv row 3 column 4", "'4' stands beyond the last column",
                 "the table has 3 columns: quote a cell that holds the separator, or name the "
                 "column"},
                {"t.csv row 4 column 2", "the cell is not UTF-8: '?'",
                 "save the table again as \"CSV UTF-8\""}}));
}

TEST(CsvTable, SaysWhereAQuoteWasOpened) {
  EXPECT_EQ(faults_in("id,why\nF01,\"never closed\nM02,x\n"),
            (colony::Faults{{"t.csv row 2 column why",
                             "a quote is opened and never closed: 'never closed?M02,x?'",
                             "close it; write a quote inside a quoted cell twice"}}));
}

// A text in UTF-16, which spreadsheets call "Unicode text".
TEST(CsvTable, RefusesUtf16) {
  const std::string utf16("\xFF\xFEi\0d\0\n\0", 8);
  ASSERT_FALSE(faults_in(utf16).empty());
  EXPECT_EQ(faults_in(utf16).front().mend, "save the table again as \"CSV UTF-8\"");
}

TEST(CsvTable, RefusesTooManyColumnsAndCountsFaults) {
  EXPECT_EQ(faults_in(std::string(1'000'000, ',')).at(0).what, "1000001 columns");
  std::string text = "id\n";
  for (int i = 0; i < 3000; ++i) text += "a,b\n";
  const colony::Faults faults = faults_in(text);
  ASSERT_EQ(faults.size(), 1001U);
  EXPECT_EQ(faults.back().what, "2000 more faults were found");
}

TEST(CsvTable, WritesAsRfc4180) {
  EXPECT_EQ(write_csv({{"id", "why"}, {{"F01", "a,b"}, {"a \"b\"", "two\nlines"}}, {}}),
            "id,why\r\nF01,\"a,b\"\r\n\"a \"\"b\"\"\",\"two\nlines\"\r\n");
}

// What a spreadsheet would take for a formula is quoted and not changed; numbers stay numbers.
TEST(CsvTable, QuotesFormulasAndLeavesNegativeNumbersAlone) {
  EXPECT_EQ(
      write_csv({{"a"}, {{"=1+1"}, {"@sum"}, {"\tx"}, {"-0.5"}, {"-1e-7"}, {"+/e"}, {"-x,y"}}, {}}),
      "a\r\n'=1+1\r\n'@sum\r\n\"'\tx\"\r\n-0.5\r\n-1e-7\r\n'+/e\r\n\"'-x,y\"\r\n");
}

// More semicolons than commas in the first line, and still commas part it.
TEST(CsvTable, OtherSeparatorsInCellsAreQuoted) {
  CsvTable table;
  table.header = {"a;", "b;;", "c\td"};
  table.rows = {{"1", "x;y", "\t"}};
  EXPECT_EQ(write_csv(table), "\"a;\",\"b;;\",\"c\td\"\r\n1,\"x;y\",\"'\t\"\r\n");
  const auto again = read_csv(write_csv(table), "t.csv");
  EXPECT_EQ(std::get<CsvTable>(again).header, table.header);
  EXPECT_EQ(std::get<CsvTable>(again).rows, table.rows);
}

RC_GTEST_PROP(CsvTable, ReadsBackWhatItWrites, ()) {
  CsvTable table;
  const int columns = *rc::gen::inRange(1, 5);
  for (int i = 0; i < columns; ++i) {
    table.header.push_back("h" + std::to_string(i) + generated::text(0, 2));
  }
  for (int row = 0; row < *rc::gen::inRange(0, 5); ++row) {
    table.rows.emplace_back();
    for (int i = 0; i < columns; ++i) {
      table.rows.back().push_back((i == 0 ? "x" : "") + generated::text(0, 4));
    }
  }
  const auto again = read_csv(write_csv(table), "t.csv");
  RC_ASSERT(faults_of(again) == colony::Faults{});
  RC_ASSERT(std::get<CsvTable>(again).header == table.header);
  RC_ASSERT(std::get<CsvTable>(again).rows == table.rows);
}

TEST(csv_table, what_was_made_harmless_reads_back_as_it_was) {
  const std::vector<std::string> texts = {"=1+1", "'=1+1", "''=1+1", "'",      "'abc",
                                          "-0.5", "'-0.5", "+",      "+5",     "@x",
                                          "\rx",  "-",     "'+/e",   "O'Brien"};
  CsvTable table;
  table.header = {"a", "b"};
  for (const std::string& text : texts) table.rows.push_back({"x", text});
  const auto again = read_csv(write_csv(table), "t.csv");
  ASSERT_TRUE(std::holds_alternative<CsvTable>(again));
  EXPECT_EQ(std::get<CsvTable>(again).rows, table.rows);
}

}  // namespace
}  // namespace likelihet::documents::csv_table_test
