// What a policy may say, and every fault of one that may not.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/colony/policy.hpp>

namespace likelihet::colony::policy_test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

ModelDescription with_a_test() {
  ModelDescription model;
  LocusDescription tarnbrook;
  tarnbrook.id = "tarnbrook";
  tarnbrook.alleles = {"+", "e"};
  model.loci = {tarnbrook};
  AssayDescription assay;
  assay.id = "shed-pcr";
  assay.locus = "tarnbrook";
  assay.reports = {"clear", "carrier"};
  assay.rows = {{"+/+", {1, 0}}, {"+/e", {0, 1}}, {"e/e", {0, 1}}};
  assay.price = 45;
  model.assays = {assay};
  return model;
}

Model model() {
  return std::get<Model>(Model::make(with_a_test()));
}

std::vector<std::string> places(const Faults& faults) {
  std::vector<std::string> list;
  for (const Fault& fault : faults) list.push_back(fault.place);
  return list;
}

TEST(Policy, TheDefaultFitsAnyModel) {
  EXPECT_THAT(policy_faults(Policy{}, model()), IsEmpty());
}

TEST(Policy, TheDefaultAsksWhatListingsNeed) {
  const MarkerPolicy markers;
  EXPECT_EQ(markers.forecasts, 20U);
  EXPECT_EQ(markers.skill_above, 0);
  EXPECT_EQ(markers.slope_at_least, 0.8);
}

TEST(Policy, EveryFaultIsFoundAtOnce) {
  Policy policy;
  policy.markers = {true, 0, 1, 0};
  policy.step = 0;
  policy.prices = {{"shed-pc", 1}, {"shed-pcr", -1}, {"shed-pcr", 2}};
  policy.worth = {
      {"tarnbroke", {}, 0}, {"tarnbrook", {{"e/+", 1}, {"+/e", -2}}, -1}, {"tarnbrook", {}, 0}};
  policy.health = {{"pellbrook", "", Grade::unknown, {}},
                   {"tarnbrook", "a note", Grade::study, {}}};
  EXPECT_THAT(
      places(policy_faults(policy, model())),
      ElementsAre("/marks/forecasts", "/marks/skill_above", "/marks/slope_at_least", "/step",
                  "/prices/0/assay", "/prices/1/price", "/prices/2/assay", "/worth/0/locus",
                  "/worth/1/kept/e~1+", "/worth/1/kept/+~1e", "/worth/1/sold", "/worth/2/locus",
                  "/health/0/locus", "/health/0/note", "/health/1/source"));
}

TEST(Policy, AFaultNamesTheNearestKnownWord) {
  Policy policy;
  policy.prices = {{"shed-pc", 1}};
  EXPECT_EQ(policy_faults(policy, model()).front().mend, "did you mean 'shed-pcr'?");
}

TEST(Policy, APriceOfThePolicyComesBeforeTheModels) {
  Policy policy;
  EXPECT_EQ(price_of(policy, model().assays().front()), 45);
  policy.prices = {{"shed-pcr", 30}};
  EXPECT_EQ(price_of(policy, model().assays().front()), 30);
}

}  // namespace
}  // namespace likelihet::colony::policy_test
