// The ends of what a pairing may be asked of: nothing known, deep loops, sires in doubt, allelic
// series, lethal and sex-linked loci, days, clashes and memory.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/prove_out.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::planning::outlook_extremes_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

colony::Colony colony_of(const colony::ModelDescription& model, const RecordsBuilder& builder) {
  return support::colony_of(support::made(model), builder.records);
}

Pair pair_of(const colony::Colony& colony, const std::string& dam, const std::string& sire) {
  return {*colony.find_animal(dam), *colony.find_animal(sire)};
}

Outlook outlook_of(const colony::Colony& colony, const std::string& dam, const std::string& sire,
                   const odds::Options& options = {}) {
  auto made = outlook(colony, pair_of(colony, dam, sire), options, {});
  return std::get<Outlook>(std::move(made));
}

double visual(const Outlook& out) {
  return out.loci[0].genotypes[2].chance();
}

RecordsBuilder bought_pair() {
  RecordsBuilder builder;
  builder.founder("F", Sex::female, "bought").founder("M", Sex::male, "bought");
  return builder;
}

// Hardy and Weinberg (1908): the offspring of strangers are as their parents' population, q^2.
TEST(OutlookExtremes, NothingRecorded) {
  const Outlook out = outlook_of(colony_of(support::recessive_model(), bought_pair()), "F", "M");
  EXPECT_NEAR(visual(out), 0.02 * 0.02, 1e-15);
  EXPECT_NEAR(out.loci[0].genotypes[1].chance(), 2 * 0.02 * 0.98, 1e-15);
  EXPECT_EQ(out.inbreeding, 0.0);
  EXPECT_EQ(out.none_can_live, 0.0);
  // Ten eggs of one pair: visuals come together, so at least one is rarer than of ten pairs.
  const double naive = 1 - std::pow(1 - visual(out), 10);
  EXPECT_LT(out.loci[0].genotypes[2].at_least_one(10), 0.75 * naive);
}

// Twenty generations of full siblings: P(e/e) = q^2 + F q (1 - q) (Wright 1922), with F of the
// offspring from Wright's (1921) recursion F = (1 + 2 F' + F'') / 4; odds and descent are worked
// out apart.
TEST(OutlookExtremes, TwentyGenerationsOfSibs) {
  RecordsBuilder builder = bought_pair();
  std::string dam = "F", sire = "M";
  std::vector<double> inbreeding = {0, 0};
  for (int g = 1; g <= 20; ++g) {
    const std::string number = std::to_string(g);
    builder.clutch("C" + number, dam, {sire});
    dam = "D" + number;
    sire = "S" + number;
    builder.hatchling(dam, "C" + number, Sex::female).hatchling(sire, "C" + number, Sex::male);
    const std::size_t last = inbreeding.size() - 1;
    inbreeding.push_back((1 + 2 * inbreeding[last] + inbreeding[last - 1]) / 4);
  }
  const auto colony = colony_of(support::recessive_model(), builder);
  for (const int g : {1, 2, 5, 12, 20}) {
    const std::string number = std::to_string(g);
    const Outlook out = outlook_of(colony, "D" + number, "S" + number);
    const double f = inbreeding[static_cast<std::size_t>(g) + 1];
    EXPECT_NEAR(out.inbreeding, f, 1e-14);
    EXPECT_NEAR(visual(out), 0.02 * 0.02 + f * 0.02 * 0.98, 1e-12);
  }
}

// D's offspring may be by M, a certain carrier, or N, who is clear. Paired with M, her own odds and
// what the offspring of the doubtful clutch show move together. By hand: one offspring U shows
// tarnbrook, so it is M's and D carries for certain.
TEST(OutlookExtremes, AnUncertainSireIsToldByTheOffspring) {
  RecordsBuilder builder;
  builder.founder("D", Sex::female).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.founder("N", Sex::male).bought_as("tarnbrook", {{"+/+", 1.0}});
  builder.clutch("C", "D", {"M", "N"});
  builder.hatchling("U", "C", Sex::male).hatchling("V", "C", Sex::male);
  const auto before = colony_of(support::recessive_model(), builder);
  EXPECT_NEAR(visual(outlook_of(before, "D", "M")), 0.125, 1e-15);
  // D's own gamete has e with 1/4. If she carries, V has e from her with 1/2 and from a sire with
  // (1/2 + 0) / 2, and passes on either: 3/8.
  EXPECT_NEAR(visual(outlook_of(before, "D", "V")), 0.25 * 0.375, 1e-15);
  builder.shows("U", "tarnbrook", "tarnbrook");
  const auto after = colony_of(support::recessive_model(), builder);
  EXPECT_NEAR(visual(outlook_of(after, "D", "M")), 0.25, 1e-15);
  EXPECT_NEAR(visual(outlook_of(after, "D", "U")), 0.5, 1e-15);
  EXPECT_NEAR(outlook_of(after, "D", "U").inbreeding, 0.25, 1e-15);
}

// Three alleles, of which a and b show together: + over a over b, a/b as a. A pair a/b x +/b: one
// quarter each of +/a, +/b, a/b, b/b.
TEST(OutlookExtremes, AnAllelicSeries) {
  auto model = support::recessive_model();
  model.markers.clear();
  model.assays.clear();
  model.origins.clear();
  auto& locus = model.loci[0];
  locus.alleles = {"+", "a", "b"};
  locus.appearance = {{"default", {{"plain", 1.0}}},
                      {"a/a", {{"pellbrook", 1.0}}},
                      {"a/b", {{"pellbrook", 1.0}}},
                      {"b/b", {{"mossgarth", 1.0}}}};
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"a/b", 1.0}});
  builder.founder("M", Sex::male).bought_as("tarnbrook", {{"+/b", 1.0}});
  const auto colony = colony_of(model, builder);
  const Outlook out = outlook_of(colony, "F", "M");
  const auto& of = colony.model().loci()[0];
  for (const char* key : {"+/a", "+/b", "a/b", "b/b"}) {
    EXPECT_NEAR(out.loci[0].genotypes[*of.find(key)].chance(), 0.25, 1e-15) << key;
  }
  EXPECT_EQ(out.loci[0].genotypes[*of.find("a/a")].chance(), 0.0);
  const auto& looks = of.appearances();
  for (std::size_t a = 0; a < looks.size(); ++a) {
    EXPECT_NEAR(out.loci[0].appearances[a].chance(), looks[a] == "plain" ? 0.5 : 0.25, 1e-15);
  }
  EXPECT_EQ(
      usual_appearance(of),
      static_cast<std::size_t>(std::find(looks.begin(), looks.end(), "plain") - looks.begin()));
}

// An X-linked lethal: a carrier dam loses half of her sons, so of the living two thirds are
// daughters (1/4 of the eggs are lost).
TEST(OutlookExtremes, ALethalOnX) {
  auto model = support::sex_linked_model(Chromosome::x);
  model.loci[0].viability = {{"e/Y", 0.0}, {"e/e", 0.0}};
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"+/e", 1.0}});
  builder.founder("M", Sex::male);
  const auto colony = colony_of(model, builder);
  const Outlook out = outlook_of(colony, "F", "M");
  double daughters = 0, sons = 0;
  for (const double p : out.loci[0].by_sex[0]) daughters += p;
  for (const double p : out.loci[0].by_sex[1]) sons += p;
  EXPECT_NEAR(daughters, 2. / 3, 1e-15);
  EXPECT_NEAR(sons, 1. / 3, 1e-15);
  EXPECT_NEAR(out.loci[0].lost, 0.25, 1e-15);
  EXPECT_EQ(out.none_can_live, 0.0);
}

// A result counts from its day; nothing later may move the outlook.
TEST(OutlookExtremes, AsOfADay) {
  RecordsBuilder builder = bought_pair();
  builder.result("F", "shed-pcr", "carrier").on("2024-05-01");
  builder.result("M", "shed-pcr", "carrier").on("2025-05-01");
  const auto colony = colony_of(support::recessive_model(), builder);
  RecordsBuilder first = bought_pair();
  first.result("F", "shed-pcr", "carrier").on("2024-05-01");
  odds::Options options;
  options.as_of = support::day("2024-12-31");
  const Outlook then = outlook_of(colony, "F", "M", options);
  const Outlook one = outlook_of(colony_of(support::recessive_model(), first), "F", "M");
  EXPECT_EQ(then.loci[0].genotypes[2].weights(), one.loci[0].genotypes[2].weights());
  options.as_of = support::day("2024-04-30");
  EXPECT_NEAR(visual(outlook_of(colony, "F", "M", options)), 0.0004, 1e-15);
  EXPECT_GT(visual(outlook_of(colony, "F", "M")), 20 * visual(then));
}

// A visual of parents that are both certainly clear, far from the pair: every answer tells the
// clash, and none is worked out in spite of it.
TEST(OutlookExtremes, RecordsThatCannotAllBeTrue) {
  RecordsBuilder builder = bought_pair();
  builder.founder("G", Sex::female).founder("K", Sex::male).clutch("C", "G", {"K"});
  builder.hatchling("H", "C").shows("H", "tarnbrook", "tarnbrook");
  const auto colony = colony_of(support::recessive_model(), builder);
  const auto made = outlook(colony, pair_of(colony, "F", "M"), {}, {});
  EXPECT_EQ(std::get<odds::Contradiction>(made).observations, (std::vector<std::size_t>{0}));
  const auto ranked = rank(colony, Goal{0, 2, 1}, 4, {}, {});
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(ranked));
  ProveOutAsked asked;
  asked.animal = *colony.find_animal("F");
  asked.partner = PartnerAnimal{*colony.find_animal("M")};
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(proof(colony, asked, {}, {})));
}

TEST(OutlookExtremes, TooLittleMemory) {
  const auto colony = colony_of(support::recessive_model(), bought_pair());
  odds::Options options;
  options.memory_bytes = 16;
  const auto made = outlook(colony, pair_of(colony, "F", "M"), options, {});
  EXPECT_NE(std::get<odds::TooLarge>(made).what.find("--memory"), std::string::npos);
  const auto ranked = rank(colony, Goal{0, 2, 1}, 4, options, {});
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(ranked));
}

// On Z a daughter has her one copy from her sire: what the dam carries shows in no daughter of
// hers.
TEST(OutlookExtremes, DamsDoNotPassZToDaughters) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).bought_as("tarnbrook", {{"e/W", 1.0}});
  builder.founder("M", Sex::male);
  const auto colony = colony_of(support::sex_linked_model(Chromosome::z), builder);
  const Outlook out = outlook_of(colony, "F", "M");
  const auto& locus = colony.model().loci()[0];
  EXPECT_NEAR(out.loci[0].genotypes[*locus.find("+/e")].chance(), 0.5, 1e-15);
  EXPECT_NEAR(out.loci[0].genotypes[*locus.find("+/W")].chance(), 0.5, 1e-15);
  EXPECT_EQ(out.loci[0].genotypes[*locus.find("e/W")].chance(), 0.0);
  // And her partner, who is clear, cannot be proven otherwise by any offspring of theirs.
  ProveOutAsked asked;
  asked.animal = *colony.find_animal("M");
  asked.partner = PartnerAnimal{*colony.find_animal("F")};
  const auto made = proof(colony, asked, {}, {});
  EXPECT_EQ(std::get<ProveOut>(made).odds.carrier_after(0), 0.0);
  EXPECT_FALSE(std::get<ProveOut>(made).odds.after_visual());
}

}  // namespace
}  // namespace likelihet::planning::outlook_extremes_test
