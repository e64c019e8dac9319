// The demo's listings. Source of the numbers: the demo's design, invented data; each is exact by
// Mendel's rules and Bayes, as the comments show.
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <publishing/listed.hpp>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/publishing/listing_html.hpp>
#include <likelihet/publishing/listing_markdown.hpp>
#include <likelihet/publishing/listing_sections.hpp>
#include <likelihet/publishing/sheet.hpp>

namespace likelihet::publishing::demo_listings_test {
namespace {

using testing::HasSubstr;

std::string demo_file(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/models/demo/" + name);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

const Listed& demo() {
  static const Listed listed(std::make_shared<const colony::Colony>(support::colony_of(
      support::made(
          std::get<colony::ModelDescription>(documents::read_model(demo_file("model.json")))),
      std::get<colony::Records>(documents::read_colony(demo_file("colony.json"))))));
  return listed;
}

constexpr double six_places = 5e-7;

Statement fennglass(const std::string& id) {
  return demo().at(id, "fennglass");
}

TEST(DemoListings, AVisualSiresOffspringAreProven) {
  const Statement c1 = fennglass("23-C1-01");
  EXPECT_EQ(c1.label, Label::proven);
  EXPECT_EQ(c1.headline, "100 % het for fennglass, proven");
  EXPECT_EQ(c1.pedigree, 1.0);
}

TEST(DemoListings, TwoThirdsOutOfTwoHets) {
  const Statement c2 = fennglass("23-C2-02");
  EXPECT_NEAR(c2.pedigree, 2.0 / 3, 1e-12);
  EXPECT_THAT(c2.headline, HasSubstr("66 % by pedigree"));
}

TEST(DemoListings, AClutchOfAClaimThatFell) {
  // C3: the dam is at 0.053311 once her ten offspring, all without the trait, are counted.
  EXPECT_NEAR(fennglass("Nettie").pedigree, 0.053311, six_places);
  EXPECT_NEAR(fennglass("23-C3-01").pedigree, 0.508885, six_places);
}

TEST(DemoListings, AHalf) {
  EXPECT_NEAR(fennglass("24-C4-01").pedigree, 0.5, 1e-12);
}

TEST(DemoListings, ASireDrawnForEachEgg) {
  // Plain hatchlings of C5: the sire that would be visible is less likely.
  bool found = false;
  for (const char* id : {"24-C5-01", "24-C5-03"}) {
    const Statement c5 = fennglass(id);
    found = found || std::abs(c5.pedigree - 0.357143) < six_places;
    EXPECT_EQ(c5.published.high, 0.35);
  }
  EXPECT_TRUE(found);
}

TEST(DemoListings, AVerbalHundredThatFell) {
  EXPECT_NEAR(fennglass("Merrow").pedigree, 0.445205, six_places);
  for (const char* id : {"25-C8-05", "25-C8-07"}) {
    EXPECT_NEAR(fennglass(id).pedigree, 0.574201, six_places);
  }
  EXPECT_THAT(fennglass("25-C8-07").headline, HasSubstr("(57 % by pedigree)"));
  EXPECT_THAT(fennglass("Merrow").reason, HasSubstr("seller's description: het (trusted to 95 %)"));
}

TEST(DemoListings, OffspringOfAVisualDamAreProven) {
  for (const char* id : {"24-C6-01", "25-C7-01", "25-C9-01"}) {
    EXPECT_EQ(fennglass(id).pedigree, 1.0) << id;
    EXPECT_EQ(fennglass(id).label, Label::proven) << id;
  }
}

TEST(DemoListings, NothingIsCertainThatRestsOnAnUncertainParent) {
  std::vector<std::string> ids;
  for (const auto& animal : demo().colony().animals()) ids.push_back(animal.id);
  for (const Listing& listing : demo().all_of(ids)) {
    for (const Statement& one : listing.statements) {
      EXPECT_TRUE(one.published.high < 1 || one.markerless >= 1 - 1e-12);
      EXPECT_LE(one.published.high, one.markerless + 1e-12);
      EXPECT_NE(one.basis, Basis::markers);
    }
  }
}

// A buyer has no book to look a record's id up in.
TEST(DemoListings, HoldNoIdOfARecord) {
  std::vector<std::string> animals;
  for (const auto& animal : demo().colony().animals()) animals.push_back(animal.id);
  const auto listings = demo().all_of(animals);
  std::string all = listing_markdown(demo().colony(), listings);
  all += listing_html(demo().colony(), listings);
  for (const Listing& listing : listings) {
    for (const auto& section : sections_of(demo().colony(), listing)) {
      for (const std::string& line : section.lines) all += line + "\n";
    }
  }
  for (std::size_t a = 0; a < animals.size(); a += 10) {
    const auto evidence = evidence_of(demo().ground(), listings[a]);
    all += sheet(demo().colony(), listings[a], std::get<std::vector<Evidence>>(evidence),
                 std::nullopt);
  }
  for (const auto& observation : demo().colony().observations()) {
    EXPECT_EQ(all.find(observation.id), std::string::npos) << observation.id;
  }
}

TEST(DemoListings, SayInWordsWhatTheyRestOn) {
  const auto sections = sections_of(demo().colony(), demo().of("24-C4-01"));
  EXPECT_EQ(sections.front().lines.at(3),
            "Records named: its own look (2024-08-10), its own result (2024-10-17), 3 looks of "
            "relatives (2023-08-19 to 2023-08-21).");
}

}  // namespace
}  // namespace likelihet::publishing::demo_listings_test
