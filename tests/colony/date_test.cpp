// Dates and timestamps against ISO 8601 and RFC 3339.
#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/colony/date.hpp>

namespace likelihet::colony::date_test {
namespace {

using likelihet::colony::Date;
using likelihet::colony::Timestamp;

TEST(Date, ReadsADayThatExists) {
  const auto date = Date::parse("2024-02-29");
  ASSERT_TRUE(date);
  EXPECT_EQ(date->text(), "2024-02-29");
  EXPECT_TRUE(Date::parse("0001-01-01"));
  EXPECT_TRUE(Date::parse("9999-12-31"));
}

TEST(Date, RefusesWhatIsNoDay) {
  for (const char* text : {"",
                           "2024",
                           "2024-02",
                           "2024-02-30",
                           "2023-02-29",
                           "1900-02-29",
                           "2024-13-01",
                           "2024-00-10",
                           "2024-01-00",
                           "2024-04-31",
                           "24-2-3",
                           "2024-2-03",
                           "2024/02/03",
                           "20240203",
                           " 2024-02-03",
                           "2024-02-03 ",
                           "2024-02-03T00:00:00Z",
                           "0000-01-01",
                           "-001-01-01",
                           "+024-01-01",
                           "2024-0a-01",
                           "10000-01-01"}) {
    EXPECT_FALSE(Date::parse(text)) << text;
  }
}

// The Unix epoch and the day number of 2000-03-01: 30 years of 365 days with 7 leap days before
// 2000, then 31 + 29 days: 10957 + 60.
TEST(Date, CountsDaysFrom1970) {
  EXPECT_EQ(Date::parse("1970-01-01")->days(), 0);
  EXPECT_EQ(Date::parse("1969-12-31")->days(), -1);
  EXPECT_EQ(Date::parse("2000-03-01")->days(), 11017);
}

// ISO 8601 uses the proleptic Gregorian calendar: 400 years are 146097 days, at either end.
TEST(Date, IsProlepticGregorian) {
  EXPECT_EQ(Date::parse("2001-01-01")->days() - Date::parse("1601-01-01")->days(), 146097);
  EXPECT_EQ(Date::parse("0401-01-01")->days() - Date::parse("0001-01-01")->days(), 146097);
}

RC_GTEST_PROP(DateProperty, OrderIsThatOfDays, ()) {
  const auto random_day = [] {
    const auto pad = [](int value, std::size_t width) {
      const std::string text = std::to_string(value);
      return std::string(width - text.size(), '0') + text;
    };
    return *Date::parse(pad(*rc::gen::inRange(1, 10000), 4) + "-" +
                        pad(*rc::gen::inRange(1, 13), 2) + "-" + pad(*rc::gen::inRange(1, 29), 2));
  };
  const Date a = random_day();
  const Date b = random_day();
  RC_ASSERT((a < b) == (a.days() < b.days()));
  RC_ASSERT((a == b) == (a.days() == b.days()));
}

RC_GTEST_PROP(DateProperty, NeverFailsOnAnyText, (const std::string& text)) {
  const auto date = Date::parse(text);
  const auto moment = Timestamp::parse(text);
  RC_ASSERT((!date || date->text() == text));
  RC_ASSERT((!moment || moment->text() == text));
}

// RFC 3339 section 5.8: these two examples are the same moment, and the third and fourth name the
// same leap second; its Unix time is that of 1991-01-01T00:00:00Z, 662688000 (21 years, 5 leap
// days).
TEST(Timestamp, ReadsTheExamplesOfTheStandard) {
  EXPECT_EQ(Timestamp::parse("1996-12-19T16:39:57-08:00")->seconds(),
            Timestamp::parse("1996-12-20T00:39:57Z")->seconds());
  EXPECT_EQ(Timestamp::parse("1990-12-31T23:59:60Z")->seconds(), 662688000);
  EXPECT_EQ(Timestamp::parse("1990-12-31T15:59:60-08:00")->seconds(), 662688000);
  EXPECT_TRUE(Timestamp::parse("1985-04-12T23:20:50.52Z"));
  EXPECT_TRUE(Timestamp::parse("1937-01-01T12:00:27.87+00:20"));
}

TEST(Timestamp, CountsSecondsAndDropsFractions) {
  EXPECT_EQ(Timestamp::parse("1970-01-01T00:00:00Z")->seconds(), 0);
  EXPECT_EQ(Timestamp::parse("1970-01-02T00:00:01.999Z")->seconds(), 86401);
  EXPECT_EQ(Timestamp::parse("1969-12-31T23:59:59z")->seconds(), -1);
  EXPECT_EQ(Timestamp::parse("1970-01-01t02:00:00+02:00")->seconds(), 0);
}

TEST(Timestamp, TellsTheDayOnTheWritersClock) {
  const auto late = Timestamp::parse("2024-07-03T23:30:00-05:00");
  ASSERT_TRUE(late);
  EXPECT_EQ(late->day().text(), "2024-07-03");
  EXPECT_EQ(late->text(), "2024-07-03T23:30:00-05:00");
}

TEST(Timestamp, RefusesWhatIsNoMoment) {
  for (const char* text :
       {"", "2024-07-03", "2024-07-03T18:30:00", "2024-07-03 18:30:00Z", "2024-07-03T18:30Z",
        "2024-07-03T24:00:00Z", "2024-07-03T18:60:00Z", "2024-07-03T18:30:61Z",
        "2024-07-03T18:30:60Z", "2024-02-30T18:30:00Z", "2024-07-03T18:30:00.Z",
        "2024-07-03T18:30:00+2:00", "2024-07-03T18:30:00+24:00", "2024-07-03T18:30:00+02:60",
        "2024-07-03T18:30:00+0200", "2024-07-03T18:30:00ZZ", "2024-07-03T18-30-00Z"}) {
    EXPECT_FALSE(Timestamp::parse(text)) << text;
  }
}

}  // namespace
}  // namespace likelihet::colony::date_test
