// The demo colony: pedigree odds that a keeper can work out on paper.
//
// Source: the demo's own design (invented data); each expected value is derived beside its check
// from Mendel's first law and Bayes' theorem.
#include <fstream>
#include <sstream>
#include <string>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::demo_test {
namespace {

std::string demo_file(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/models/demo/" + name);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

const Json& demo_colony() {
  static const Json colony = Json::parse(demo_file("colony.json"));
  return colony;
}

const Answer& demo() {
  static const Answer answer = solve(demo_file("model.json"), demo_colony().dump());
  return answer;
}

std::string shown(const std::string& animal, const std::string& locus) {
  for (const Json& o : demo_colony()["observations"]) {
    if (o["kind"] == "appearance" && o["animal"] == animal && o["locus"] == locus) {
      return o["shows"];
    }
  }
  return "";
}

// Every animal of a clutch that does not show Fennglass, and at Murkline shows this (or anything).
std::vector<std::string> clear_of(const std::string& clutch, const std::string& murkline = "") {
  std::vector<std::string> out;
  for (const Json& animal : demo_colony()["animals"]) {
    const std::string id = animal["id"];
    if (animal.value("clutch", "") != clutch || shown(id, "fennglass") != "plain") continue;
    if (murkline.empty() || shown(id, "murkline") == murkline) out.push_back(id);
  }
  return out;
}

void expect_het(const std::vector<std::string>& animals, std::size_t count, double expected,
                double tolerance, const Answer& answer = demo()) {
  EXPECT_EQ(animals.size(), count);
  for (const std::string& id : animals) {
    EXPECT_NEAR(answer.pedigree(id, "+/fg", "fennglass"), expected, tolerance) << id;
  }
}

TEST(Demo, YoungOfVisualParentsAreHet) {
  for (const auto& [clutch, count] : {std::pair{"C1", 9U}, {"C6", 8U}, {"C7", 5U}, {"C9", 4U}}) {
    expect_het(clear_of(clutch), count, 1, 1e-12);
  }
}

TEST(Demo, ProvenHetParents) {
  // Three of twelve show: both parents are surely het, the other nine are so with 2/3.
  EXPECT_NEAR(demo().pedigree("Pell", "+/fg", "fennglass"), 1, 1e-12);
  EXPECT_NEAR(demo().pedigree("Lorimer", "+/fg", "fennglass"), 1, 1e-12);
  std::vector<std::string> unproven;
  for (const std::string& id : clear_of("C2")) {
    if (id != "23-C2-10") unproven.push_back(id);
  }
  expect_het(unproven, 8, 2. / 3, 1e-12);
  // The one held back has thrown visuals since.
  EXPECT_NEAR(demo().pedigree("23-C2-10", "+/fg", "fennglass"), 1, 1e-12);
  expect_het(clear_of("C4"), 11, 1. / 2, 1e-12);  // het x clear
}

TEST(Demo, AFiftyPercentDamFallsToFive) {
  // Ten clear young to a het: (3/4)^10 / ((3/4)^10 + 1).
  const double nettie = 59049. / (59049 + 1048576);
  EXPECT_NEAR(demo().pedigree("Nettie", "+/fg", "fennglass"), nettie, 1e-12);
  EXPECT_NEAR(nettie, 0.053311, half_unit(6));
  expect_het(clear_of("C3"), 10, nettie * 2 / 3 + (1 - nettie) / 2, 1e-12);
  expect_het(clear_of("C3"), 10, 0.508885, half_unit(6));
}

TEST(Demo, AHundredPercentClaimFallsToHalf) {
  // Trusted with 0.95, then eleven clear young to a het.
  const double right = 0.95 * 177147;
  const double merrow = right / (right + 0.05 * 4194304);
  EXPECT_NEAR(demo().pedigree("Merrow", "+/fg", "fennglass"), merrow, 1e-12);
  EXPECT_NEAR(merrow, 0.445205, half_unit(6));
  expect_het(clear_of("C8"), 11, merrow * 2 / 3 + (1 - merrow) / 2, 1e-12);
  expect_het(clear_of("C8"), 11, 0.574201, half_unit(6));
}

TEST(Demo, UncertainSire) {
  // Murkline young are of the one Murkline sire, who is het. A plain one is of him with half of his
  // share, 0.3, of the clear male with 0.3, of the visual male with 0.1: het with (0.15 + 0.1) /
  // 0.7.
  expect_het(clear_of("C5", "murkline"), 4, 0.5, 1e-12);
  expect_het(clear_of("C5", "plain"), 6, 0.25 / 0.7, 1e-12);
  expect_het(clear_of("C5", "plain"), 6, 0.357143, half_unit(6));
}

TEST(Demo, OneSireForTheWholeClutch) {
  // Had one male fathered the clutch, four Murkline young would settle which.
  Json colony = demo_colony();
  for (Json& clutch : colony["clutches"]) {
    if (clutch["id"] == "C5") clutch["paternity"] = "single";
  }
  const Answer answer = solve(demo_file("model.json"), colony.dump());
  expect_het(clear_of("C5"), 10, 0.5, 1e-12, answer);
}

TEST(Demo, ASwappedSampleDoesNotUndoAVisualParent) {
  // Reported to have no copy, but its dam shows the trait.
  EXPECT_NEAR(demo().posterior("24-C6-03", "+/fg", "fennglass"), 1, 1e-12);
}

TEST(Demo, DoubleClaimNotBredYet) {
  EXPECT_NEAR(demo().pedigree("Sedge", "+/fg", "fennglass"), 0.5, 1e-12);
  EXPECT_NEAR(demo().pedigree("Sedge", "+/ow", "orrelwood"), 0.5, 1e-12);
}

TEST(Demo, NoAnswersInTheDocuments) {
  EXPECT_EQ(demo_file("colony.json").find("truth"), std::string::npos);
  EXPECT_EQ(demo_file("model.json").find("truth"), std::string::npos);
}

}  // namespace
}  // namespace likelihet::published::demo_test
