// A marker in parts of the animals.
#include <algorithm>
#include <map>

#include "audit/hand_made.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/audit/marker_groups.hpp>

namespace likelihet::audit::marker_groups_test {
namespace {

using By = GroupAudit::By;
using testing::ElementsAre;

// Founders of known truth and their looks, added one cell of a table after the other.
struct Book {
  std::vector<HandAnimal> animals;
  std::vector<Subject> subjects;

  // So many animals like this one; returns the first.
  std::size_t add(std::size_t n, bool carrier, std::size_t level, const std::string& line = "",
                  const genetics::CopyChances& brackmoor = {1, 0, 0}) {
    const std::size_t first = animals.size();
    for (std::size_t i = 0; i < n; ++i) {
      Subject one;
      one.read = look(animals.size(), level);
      one.carrier = carrier ? 1 : 0;
      one.known = carrier;
      one.cluster = animals.size();
      subjects.push_back(one);
      animals.push_back({{one.carrier < 1 ? 1.0 : 0.0, one.carrier, 0}, brackmoor, line});
    }
    return first;
  }
  // Hets and others that show it and do not.
  void add_line(const std::string& line, std::size_t carriers_with, std::size_t carriers_without,
                std::size_t others_with, std::size_t others_without) {
    add(carriers_with, true, 1, line);
    add(carriers_without, true, 0, line);
    add(others_with, false, 1, line);
    add(others_without, false, 0, line);
  }
  [[nodiscard]] MarkerAudit audited() const {
    const auto colony = hand_colony(animals);
    MarkerAudit out;
    out.estimated_carriers.assign(3, 0);
    audit_groups(colony, hand_table(colony, animals), subjects, subjects, out);
    return out;
  }
};

std::vector<GroupAudit> groups(const MarkerAudit& marker, By by) {
  std::vector<GroupAudit> out;
  std::copy_if(marker.groups.begin(), marker.groups.end(), std::back_inserter(out),
               [&](const GroupAudit& group) { return group.by == by; });
  return out;
}

// Names with numbers of animals.
std::vector<std::string> told(const MarkerAudit& marker, By by) {
  std::vector<std::string> out;
  for (const GroupAudit& group : groups(marker, by)) {
    out.push_back(group.name + " " + std::to_string(group.animals));
  }
  return out;
}

TEST(MarkerGroups, ALinesOddsRatioIsThatOfItsTable) {
  Book book;
  book.add_line("north", 8, 2, 2, 8);
  book.add_line("south", 5, 5, 5, 5);
  book.subjects[0].known = std::nullopt;
  const auto lines = groups(book.audited(), By::line);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0].name, "north");
  EXPECT_EQ(lines[0].animals, 20U);
  EXPECT_EQ(lines[0].known, 19U);
  EXPECT_NEAR(lines[0].odds_ratio.value, 16, 1e-5);  // 8 x 8 / (2 x 2)
  EXPECT_NEAR(lines[0].log_odds_ratio, std::log(16.0), 1e-6);
  EXPECT_NEAR(lines[0].variance, 1.25, 1e-6);  // 1/8 + 1/2 + 1/2 + 1/8 (Woolf)
  EXPECT_NEAR(lines[1].log_odds_ratio, 0, 1e-6);
  EXPECT_NEAR(lines[1].variance, 0.8, 1e-6);  // 4 x 1/5
}

TEST(MarkerGroups, GroupsUnderFiveAnimalsAndThoseOfNoLineAreLeftOut) {
  Book book;
  book.add_line("north", 2, 1, 1, 2);
  book.add_line("south", 2, 1, 1, 1);
  book.add_line("east", 1, 1, 1, 1);
  book.add_line("", 3, 3, 3, 3);
  EXPECT_THAT(told(book.audited(), By::line), ElementsAre("north 6", "south 5"));
}

TEST(MarkerGroups, LinesDifferWhereTheMarkerWorksInOneAlone) {
  Book book;
  book.add_line("north", 18, 2, 3, 17);
  EXPECT_EQ(book.audited().lines_differ, std::nullopt);
  EXPECT_TRUE(groups(book.audited(), By::line).empty());  // one line is no comparison
  book.add_line("east", 2, 0, 0, 2);
  EXPECT_EQ(book.audited().lines_differ, std::nullopt);  // four animals are none either
  Book alike = book;
  alike.add_line("south", 18, 2, 3, 17);
  EXPECT_GT(alike.audited().lines_differ.value(), 0.99);
  book.add_line("south", 8, 12, 8, 12);
  EXPECT_LT(book.audited().lines_differ.value(), 0.01);
}

// Animals that are hets or not with even chances tell nothing of the marker.
TEST(MarkerGroups, ALineWithoutKnownAnimalsIsToldAndNotCompared) {
  Book book;
  book.add_line("north", 18, 2, 3, 17);
  book.add_line("south", 0, 0, 10, 10);
  for (std::size_t i = 40; i < 60; ++i) book.subjects[i].carrier = 0.5;
  const auto marker = book.audited();
  const auto lines = groups(marker, By::line);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_TRUE(tells(lines[0]));
  EXPECT_FALSE(tells(lines[1]));
  EXPECT_EQ(marker.lines_differ, std::nullopt);
}

TEST(MarkerGroups, ScorersAreThoseOfEachReading) {
  Book book;
  book.add_line("", 4, 2, 2, 4);
  std::vector<Subject> separate = book.subjects;
  separate.insert(separate.end(), book.subjects.begin(), book.subjects.end());
  for (std::size_t i = 0; i < separate.size(); ++i) separate[i].read.scorer = i < 20 ? 0U : 1U;
  separate.pop_back();
  separate[3].read.scorer = std::nullopt;
  const auto colony = hand_colony(book.animals);
  const auto table = hand_table(colony, book.animals);
  MarkerAudit marker;
  marker.estimated_carriers.assign(3, 0);
  audit_groups(colony, table, book.subjects, separate, marker);
  EXPECT_THAT(told(marker, By::scorer), ElementsAre("ana 19"));  // ben read three
  // Even a lone scorer is told, unlike a lone line.
  for (Subject& one : separate) one.read.scorer = 1;
  marker.groups.clear();
  audit_groups(colony, table, book.subjects, separate, marker);
  EXPECT_THAT(told(marker, By::scorer), ElementsAre("ben 23"));
}

TEST(MarkerGroups, SeasonsAreYearsOfTheLook) {
  Book book;
  book.add_line("", 6, 6, 6, 6);
  for (std::size_t i = 0; i < 24; ++i) {
    if (i < 22) book.subjects[i].read.on = support::day(i < 9 ? "2026-12-31" : "2027-01-01");
  }
  EXPECT_THAT(told(book.audited(), By::season), ElementsAre("2026 9", "2027 13"));
}

TEST(MarkerGroups, BlindAndUnblindedAreHeldAgainstEachOther) {
  Book book;
  const auto set = [&](std::size_t from, std::optional<bool> blind) {
    for (std::size_t i = from; i < book.subjects.size(); ++i) book.subjects[i].read.blind = blind;
  };
  book.add_line("", 18, 2, 3, 17);
  set(0, false);
  book.add_line("", 8, 12, 8, 12);
  set(40, true);
  book.add_line("", 5, 5, 5, 5);
  set(80, std::nullopt);
  const auto marker = book.audited();
  EXPECT_THAT(told(marker, By::blinding), ElementsAre("blind 40", "not blind 40"));
  EXPECT_LT(marker.blinding_differs.value(), 0.01);
  EXPECT_NEAR(groups(marker, By::blinding)[1].odds_ratio.value, 51, 1e-3);  // 18 x 17 / (2 x 3)
  EXPECT_EQ(marker.lines_differ, std::nullopt);
}

TEST(MarkerGroups, CarriersOfAnotherTraitAreThoseThatRatherAre) {
  Book book;
  book.add(6, true, 1, "", {0.5, 0.5, 0});
  book.add(7, false, 0, "", {0.51, 0.49, 0});
  book.add(8, false, 0, "", {0, 0.49, 0.51});  // show it
  EXPECT_THAT(told(book.audited(), By::carriers_of),
              ElementsAre("het for brackmoor s 6", "not het for brackmoor s 7"));
}

TEST(MarkerGroups, AGroupTellsWhereItsVarianceIsBetweenNothingAndTen) {
  GroupAudit group;
  for (const auto& [variance, expected] :
       {std::pair(0.0, false), {0.01, true}, {9.99, true}, {10.0, false}, {200.0, false}}) {
    group.variance = variance;
    EXPECT_EQ(tells(group), expected) << variance;
  }
}

// Sizes are those of the animals that have a name, group by group; nobody is counted twice.
RC_GTEST_PROP(MarkerGroups, SizesAddUp, ()) {
  Book book;
  std::map<std::string, std::size_t> expected[4];
  const auto n = *rc::gen::inRange<std::size_t>(1, 50);
  for (std::size_t i = 0; i < n; ++i) {
    const auto line = *rc::gen::element<std::string>("", "north", "south", "east");
    const bool other = *rc::gen::arbitrary<bool>();
    book.add(1, *rc::gen::arbitrary<bool>(), *rc::gen::inRange<std::size_t>(0, 3), line,
             other ? genetics::CopyChances{0, 1, 0} : genetics::CopyChances{1, 0, 0});
    auto& read = book.subjects.back().read;
    read.blind = *rc::gen::element<std::optional<bool>>(std::nullopt, true, false);
    read.on = support::day(*rc::gen::element<std::string>("2025-03-01", "2026-03-01"));
    if (!line.empty()) ++expected[0][line];
    ++expected[1][read.on->text().substr(0, 4)];
    if (read.blind) ++expected[2][*read.blind ? "blind" : "not blind"];
    ++expected[3][other ? "het for brackmoor s" : "not het for brackmoor s"];
  }
  const auto marker = book.audited();
  const By kinds[] = {By::line, By::season, By::blinding, By::carriers_of};
  for (std::size_t k = 0; k < 4; ++k) {
    std::map<std::string, std::size_t> found;
    for (const GroupAudit& group : groups(marker, kinds[k])) {
      RC_ASSERT(group.known == group.animals);
      RC_ASSERT(found.emplace(group.name, group.animals).second);
    }
    if (expected[k].size() < 2) expected[k].clear();
    std::erase_if(expected[k], [](const auto& group) { return group.second < 5; });
    RC_ASSERT(found == expected[k]);
  }
  RC_ASSERT(groups(marker, By::scorer).empty());
}

}  // namespace
}  // namespace likelihet::audit::marker_groups_test
