// Markers in a published number: never before the audit has earned it, and then rounded down
// whichever way they point. The books are simulated with a marker that truly tells.
#include "audit/simulated_season.hpp"
#include <gmock/gmock.h>
#include <publishing/listed.hpp>

#include <likelihet/learning/learn.hpp>
#include <likelihet/publishing/rounding.hpp>

namespace likelihet::publishing::markers_earned_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// Twelve clutches of a carrier by a clear male; hets mostly show the marker. Half are tested.
audit::SeasonSettings telling_marker() {
  audit::SeasonSettings settings;
  settings.markers = {
      {"crown-fleck", 2,
       [](const audit::Hatchling& hatchling) {
         return hatchling.carrier ? std::vector<double>{0.1, 0.9} : std::vector<double>{0.9, 0.1};
       },
       false}};
  return settings;
}

class EarnedMarkers : public testing::Test {
 protected:
  struct Book {
    std::shared_ptr<const colony::Colony> colony;
    std::vector<odds::Tables> draws;
    std::string high;  ///< an untested animal that shows the marker
    std::string low;   ///< and one that does not
  };

  static const Book& book() {
    static const Book made = [] {
      Book out;
      out.colony = std::make_shared<const colony::Colony>(
          audit::simulated_season(telling_marker(), 7).colony());
      learning::Settings settings;
      settings.most_sweeps = 4000;
      out.draws = std::get<learning::Learned>(learning::learn(*out.colony, settings)).draws;
      find_untested(out);
      return out;
    }();
    return made;
  }

  static void find_untested(Book& book) {
    std::vector<bool> tested(book.colony->animals().size(), false);
    std::vector<std::optional<std::size_t>> level(tested.size());
    for (const auto& observation : book.colony->observations()) {
      if (const auto* result = std::get_if<colony::Result>(&observation.what)) {
        tested[result->animal] = true;
      }
      if (const auto* score = std::get_if<colony::Score>(&observation.what)) {
        level[score->animal] = score->level;
      }
    }
    for (std::size_t a = 0; a < tested.size(); ++a) {
      if (tested[a] || !level[a]) continue;
      (*level[a] == 1 ? book.high : book.low) = book.colony->animals()[a].id;
    }
  }

  static std::unique_ptr<Listed> listed(colony::Policy policy = {}) {
    auto out = std::make_unique<Listed>(book().colony, std::move(policy));
    out->ground().learned = &book().draws;
    return out;
  }
};

TEST_F(EarnedMarkers, PublishARangeFromTheLowerEndToTheMeanRoundedDownToThePolicysSteps) {
  const auto all = listed();
  const Listing high = all->of(book().high);
  const Statement& tarnbrook = high.statements[0];
  EXPECT_EQ(tarnbrook.basis, Basis::markers);
  ASSERT_TRUE(tarnbrook.marked);
  EXPECT_GT(tarnbrook.marked->mean, 0.6);
  EXPECT_EQ(tarnbrook.published.step, 0.05);
  EXPECT_EQ(tarnbrook.published.high, rounded_down(tarnbrook.marked->mean, 0.05));
  EXPECT_EQ(tarnbrook.published.low, rounded_down(tarnbrook.marked->low, 0.05));
  EXPECT_LE(tarnbrook.published.high, tarnbrook.marked->mean);
  EXPECT_THAT(tarnbrook.headline, HasSubstr("with markers (50 % without them)"));
  EXPECT_THAT(tarnbrook.reason, HasSubstr("1 own score of markers counted in"));
  ASSERT_EQ(high.markers.size(), 1U);
  for (const std::size_t reading : high.markers[0].readings) {
    EXPECT_THAT(tarnbrook.rests_on, testing::Contains(reading));
  }
  EXPECT_TRUE(high.markers[0].count);
  EXPECT_THAT(high.markers[0].missing, IsEmpty());
  EXPECT_THAT(high.record.front(), HasSubstr("by test"));
}

TEST_F(EarnedMarkers, PointingLowerLowerThePublishedNumber) {
  const auto all = listed();
  const Statement tarnbrook = all->at(book().low);
  EXPECT_EQ(tarnbrook.basis, Basis::markers);
  EXPECT_LT(tarnbrook.published.high, 0.5);
  EXPECT_LE(tarnbrook.published.high, tarnbrook.marked->mean);
  EXPECT_NEAR(tarnbrook.markerless, 0.5, 1e-12);
}

TEST_F(EarnedMarkers, OtherStepsOfThePolicyAreKept) {
  colony::Policy policy;
  policy.step = 0.25;
  const Statement tarnbrook = listed(policy)->at(book().high);
  EXPECT_EQ(tarnbrook.published.step, 0.25);
  EXPECT_EQ(tarnbrook.published.high, rounded_down(tarnbrook.marked->mean, 0.25));
}

TEST_F(EarnedMarkers, AreNotCountedWhereThePolicyLeavesThemOut) {
  colony::Policy policy;
  policy.markers.count = false;
  const Listing one = listed(policy)->of(book().high);
  EXPECT_EQ(one.statements[0].basis, Basis::pedigree);
  EXPECT_EQ(one.statements[0].published, (Published{0.5, 0.5, 0.01}));
  EXPECT_FALSE(one.statements[0].marked);
  EXPECT_THAT(one.markers[0].line, HasSubstr("not counted: the policy leaves markers out"));
}

TEST_F(EarnedMarkers, AreNotCountedWithFewerOutcomesThanThePolicyAsks) {
  colony::Policy policy;
  policy.markers.forecasts = 90;
  const Listing one = listed(policy)->of(book().high);
  EXPECT_EQ(one.statements[0].basis, Basis::pedigree);
  EXPECT_THAT(one.markers[0].line, HasSubstr("of 90 outcomes"));
  EXPECT_TRUE(one.markers[0].record);
}

TEST_F(EarnedMarkers, AreNotCountedWithoutTheSkillThatThePolicyAsks) {
  colony::Policy policy;
  policy.markers.skill_above = 0.95;
  const Listing one = listed(policy)->of(book().high);
  EXPECT_EQ(one.statements[0].basis, Basis::pedigree);
  EXPECT_THAT(one.markers[0].line, HasSubstr("not above 0.95"));
}

TEST_F(EarnedMarkers, AreNotCountedWithoutLearnedTables) {
  Listed all(book().colony);
  EXPECT_EQ(all.at(book().high).basis, Basis::pedigree);
  EXPECT_THAT(all.of(book().high).markers[0].line, HasSubstr("tables not learned"));
  // Nothing to learn is as nothing learned.
  const std::vector<odds::Tables> none;
  all.ground().learned = &none;
  EXPECT_EQ(all.at(book().high).basis, Basis::pedigree);
}

TEST_F(EarnedMarkers, DoNotMoveWhatIsCertain) {
  const Listing dam = listed()->of("DC0");
  EXPECT_EQ(dam.statements[0].basis, Basis::pedigree);
  EXPECT_EQ(dam.statements[0].published.high, 1.0);
  EXPECT_THAT(dam.statements[0].headline, Not(HasSubstr("marks")));
}

TEST_F(EarnedMarkers, WeighTheSameWhoeverIsAskedWithThem) {
  const auto all = listed();
  const auto together = all->all_of({book().low, book().high, "DC0"});
  EXPECT_EQ(together[1].statements[0].published, all->at(book().high).published);
  EXPECT_EQ(together[1].statements[0].marked->mean, all->at(book().high).marked->mean);
}

// A marker that tells nothing does not earn its place, however it is read.
TEST(UselessMarkers, AreNeverCounted) {
  auto settings = telling_marker();
  settings.markers[0].shows = [](const audit::Hatchling&) { return std::vector<double>{0.6, 0.4}; };
  for (std::uint64_t seed = 1; seed <= 3; ++seed) {
    const auto colony =
        std::make_shared<const colony::Colony>(audit::simulated_season(settings, seed).colony());
    learning::Settings learn;
    learn.most_sweeps = 2000;
    const auto learned = std::get<learning::Learned>(learning::learn(*colony, learn));
    Listed all(colony);
    all.ground().learned = &learned.draws;
    std::vector<std::string> ids;
    for (const auto& animal : colony->animals()) ids.push_back(animal.id);
    for (const Listing& one : all.all_of(ids)) {
      for (const Statement& statement : one.statements) {
        EXPECT_NE(statement.basis, Basis::markers) << "seed " << seed;
      }
    }
  }
}

}  // namespace
}  // namespace likelihet::publishing::markers_earned_test
