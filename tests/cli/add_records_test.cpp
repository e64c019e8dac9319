// The compact forms of the add commands.
#include "add_records.hpp"

#include "failure.hpp"
#include <gtest/gtest.h>

namespace likelihet::cli::add_records_test {
namespace {

TEST(Sire, MayHaveAShareAfterTheLastColon) {
  EXPECT_EQ(sire_of("M02"), (colony::SireRecord{"M02", std::nullopt}));
  EXPECT_EQ(sire_of("M02:0.7"), (colony::SireRecord{"M02", 0.7}));
  EXPECT_EQ(sire_of("23:M02"), (colony::SireRecord{"23:M02", std::nullopt}));
  EXPECT_EQ(sire_of("23:02:1"), (colony::SireRecord{"23:02", 1.0}));
}

TEST(BoughtAs, ReadsClaimAndTrust) {
  const auto claim = bought_as_of("tarnbrook:+/+=0.34,+/e=0.66@0.9");
  EXPECT_EQ(claim.locus, "tarnbrook");
  const colony::Named<double> odds = {{"+/+", 0.34}, {"+/e", 0.66}};
  EXPECT_EQ(claim.odds, odds);
  EXPECT_EQ(claim.trust, 0.9);
  EXPECT_EQ(bought_as_of("tarnbrook:+/e=1").trust, std::nullopt);
}

TEST(BoughtAs, RefusesOtherForms) {
  for (const char* text : {"", "tarnbrook", "tarnbrook:", "tarnbrook:+/e", "tarnbrook:+/e=x",
                           "tarnbrook:+/e=1@", "tarnbrook:+/e=1@x", "tarnbrook:+/e=1,,"}) {
    try {
      bought_as_of(text);
      ADD_FAILURE() << text;
    } catch (const Failure& failure) {
      EXPECT_EQ(failure.status(), ExitStatus::usage) << text;
      ASSERT_EQ(failure.faults().size(), 1U);
      EXPECT_EQ(failure.faults().front().what, "'" + std::string(text) + "' is not a --bought-as");
    }
  }
}

}  // namespace
}  // namespace likelihet::cli::add_records_test
