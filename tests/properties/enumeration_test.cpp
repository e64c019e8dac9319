// The oracle itself against fractions worked by hand.
#include "properties/enumeration.hpp"

#include <cmath>
#include <memory>
#include <variant>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::properties::enumeration_test {
namespace {

colony::Colony colony_from(const std::string& model_text, const std::string& colony_text) {
  auto description = documents::read_model(model_text);
  auto records = documents::read_colony(colony_text);
  auto model = colony::Model::make(std::get<colony::ModelDescription>(std::move(description)));
  auto shared = std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model)));
  auto made = colony::Colony::make(shared, std::get<colony::Records>(records));
  if (auto* faults = std::get_if<colony::Faults>(&made)) {
    throw std::logic_error(support::told(*faults));
  }
  return std::get<colony::Colony>(std::move(made));
}

constexpr const char* head = R"({"format": "likelihet-model", "version": 1, "name": "t",)";

const std::string recessive = std::string(head) + R"("sex_chromosomes": "none",
  "loci": [{"id": "tarnbrook", "on": "autosome", "alleles": ["+", "e"],
            "appearance": {"default": "plain", "e/e": "tarnbrook"}, "viability": {}, "caution": ""}],
  "origins": [{"id": "town", "frequencies": {"tarnbrook": {"e": 0.5}}}],
  "markers": [], "assays": [], "scorers": []})";

TEST(Enumeration, BackCrossToAFatherThatThenProves) {
  // Dam +/+ (no origin), sire +/e; daughter D is 1/2 +/e; back to her sire she throws one
  // tarnbrook, probability P(D = +/e) 1/4. So D is surely +/e and the evidence is ln(1/2 1/4).
  const auto colony = colony_from(recessive, R"({"format": "likelihet-colony", "version": 1,
    "animals": [
      {"id": "dam"}, {"id": "sire", "bought_as": [{"locus": "tarnbrook", "odds": {"+/e": 1}}]},
      {"id": "D", "clutch": "one"}, {"id": "Y", "clutch": "two"}],
    "clutches": [{"id": "one", "dam": "dam", "sires": [{"id": "sire"}]},
                 {"id": "two", "dam": "D", "sires": [{"id": "sire"}]}],
    "observations": [
      {"id": "o", "kind": "appearance", "animal": "Y", "locus": "tarnbrook", "shows": "tarnbrook"}]})");
  const Enumerated out = enumerate(colony, std::nullopt);
  ASSERT_FALSE(out.contradiction);
  EXPECT_NEAR(out.log_evidence, std::log(1.0 / 8), 1e-14);
  EXPECT_NEAR(out.animals[2][0].posterior[1], 1.0, 1e-14);
  EXPECT_NEAR(out.animals[3][0].posterior[2], 1.0, 1e-14);
}

TEST(Enumeration, ZLinkedLethalShiftsTheSexRatio) {
  // Sire +/z with dam +/W, z/W lethal: offspring are +/+, +/z (males) and +/W (female), 1/3 each.
  const auto colony = colony_from(std::string(head) + R"("sex_chromosomes": "ZW",
      "loci": [{"id": "hollowmere", "on": "Z", "alleles": ["+", "z"], "appearance": {"default": "plain"},
                "viability": {"z/W": 0}, "caution": ""}],
      "origins": [], "markers": [], "assays": [], "scorers": []})",
                                  R"({"format": "likelihet-colony", "version": 1,
      "animals": [{"id": "dam"},
                  {"id": "sire", "bought_as": [{"locus": "hollowmere", "odds": {"+/z": 1}}]},
                  {"id": "Y", "clutch": "one"}, {"id": "M", "clutch": "one", "sex": "male"}],
      "clutches": [{"id": "one", "dam": "dam", "sires": [{"id": "sire"}]}],
      "observations": []})");
  const Enumerated out = enumerate(colony, std::nullopt);
  EXPECT_EQ(out.log_evidence, 0.0);
  const auto& offspring = out.animals[2][0].pedigree;  // +/+ +/z z/z +/W z/W
  EXPECT_NEAR(offspring[0], 1.0 / 3, 1e-14);
  EXPECT_NEAR(offspring[1], 1.0 / 3, 1e-14);
  EXPECT_NEAR(offspring[3], 1.0 / 3, 1e-14);
  EXPECT_EQ(offspring[4], 0.0);
  EXPECT_NEAR(out.animals[3][0].pedigree[1], 0.5, 1e-14);
}

TEST(Enumeration, SingleAndMixedPaternityDiffer) {
  // Sires +/e and +/+ with shares 1/2, dam e/e, two offspring of which one shows tarnbrook. Single:
  // only the +/e sire can be theirs, 1/2 (1/2)^2. Mixed: each offspring shows with 1/4, (1/4)
  // (3/4).
  const std::string animals = R"({"format": "likelihet-colony", "version": 1,
    "animals": [{"id": "dam", "bought_as": [{"locus": "tarnbrook", "odds": {"e/e": 1}}]},
      {"id": "proven", "bought_as": [{"locus": "tarnbrook", "odds": {"+/e": 1}}]}, {"id": "strong"},
      {"id": "Y1", "clutch": "one"}, {"id": "Y2", "clutch": "one"}],
    "clutches": [{"id": "one", "dam": "dam", "sires": [{"id": "proven"}, {"id": "strong"}],
                  "paternity": ")";
  const std::string rest = R"("}], "observations": [
      {"id": "o1", "kind": "appearance", "animal": "Y1", "locus": "tarnbrook", "shows": "tarnbrook"},
      {"id": "o2", "kind": "appearance", "animal": "Y2", "locus": "tarnbrook", "shows": "plain"}]})";
  const auto single = enumerate(colony_from(recessive, animals + "single" + rest), std::nullopt);
  const auto mixed = enumerate(colony_from(recessive, animals + "mixed" + rest), std::nullopt);
  EXPECT_NEAR(single.log_evidence, std::log(1.0 / 8), 1e-14);
  EXPECT_NEAR(mixed.log_evidence, std::log(3.0 / 16), 1e-14);
}

TEST(Enumeration, ContradictionIsSeen) {
  const auto colony = colony_from(recessive, R"({"format": "likelihet-colony", "version": 1,
    "animals": [{"id": "F"}], "clutches": [], "observations": [
      {"id": "o", "kind": "appearance", "animal": "F", "locus": "tarnbrook", "shows": "tarnbrook"}]})");
  EXPECT_TRUE(enumerate(colony, std::nullopt).contradiction);
}

TEST(Enumeration, HardyWeinbergAndSizeGrowWithParents) {
  const auto colony = colony_from(recessive, R"({"format": "likelihet-colony", "version": 1,
    "animals": [{"id": "F", "origin": "town"}, {"id": "M"}, {"id": "Y", "clutch": "c"}],
    "clutches": [{"id": "c", "dam": "F", "sires": [{"id": "M"}]}], "observations": []})");
  const auto out = enumerate(colony, std::nullopt);
  EXPECT_NEAR(out.animals[0][0].pedigree[1], 0.5, 1e-14);
  EXPECT_NEAR(out.animals[2][0].pedigree[1], 0.5, 1e-14);  // half of the dam's alleles are e
  EXPECT_EQ(enumeration_size(colony), 9.0);
}

}  // namespace
}  // namespace likelihet::properties::enumeration_test
