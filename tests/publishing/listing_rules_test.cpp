// The rules of a listing, each with its test. Sources: exact arithmetic in the comments (Mendel);
// the trade's words for it are common practice, without a source.
#include <gmock/gmock.h>
#include <publishing/listed.hpp>

namespace likelihet::publishing::listing_rules_test {
namespace {

using genetics::Sex;
using support::recessive_model;
using support::RecordsBuilder;
using testing::AnyOf;
using testing::Contains;
using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// A visual dam by a plain male of no origin, and one plain hatchling.
RecordsBuilder visual_by_clear() {
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  records.shows("F", "tarnbrook", "tarnbrook").shows("H", "tarnbrook", "plain");
  return records;
}

TEST(ListingRules, HundredPercentHetWhereAVisualParentForcesTheCopy) {
  const Listed listed(recessive_model(), visual_by_clear());
  const Statement h = listed.at("H");
  EXPECT_EQ(h.label, Label::proven);
  EXPECT_EQ(h.basis, Basis::pedigree);
  EXPECT_EQ(h.published, (Published{1, 1, 0.01}));
  EXPECT_EQ(h.headline, "100 % het for tarnbrook, proven");
  EXPECT_EQ(h.reason, "dam F visual, sire M assumed not a carrier (untested), shows plain");
  EXPECT_THAT(listed.rests_on(h), ElementsAre("o1", "o2"));
  EXPECT_EQ(listed.at("F").label, Label::visual);
  EXPECT_EQ(listed.at("F").headline, "visual for tarnbrook (shows tarnbrook)");
  EXPECT_EQ(listed.at("M").label, Label::none);
  EXPECT_EQ(listed.at("M").headline, "not het for tarnbrook");
}

TEST(ListingRules, SixtySixPercentOutOfTwoHets) {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Listed listed(recessive_model(), records);
  const Statement h = listed.at("H");
  // (1/2) / (1/2 + 1/4) = 2/3, rounded down.
  EXPECT_NEAR(h.markerless, 2.0 / 3, 1e-12);
  EXPECT_EQ(h.label, Label::possible);
  EXPECT_EQ(h.headline, "66 % possible het for tarnbrook");
  EXPECT_EQ(h.reason, "both parents het by the seller's description, shows plain");
  EXPECT_THAT(h.plain, HasSubstr("about 66 in 100"));
}

TEST(ListingRules, FiftyPercentOutOfOneHet) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Listed listed(recessive_model(), records);
  EXPECT_EQ(listed.at("H").headline, "50 % possible het for tarnbrook");
  EXPECT_EQ(listed.at("H").reason,
            "dam F het by the seller's description, sire M not a carrier by the seller's "
            "description, shows plain");
}

TEST(ListingRules, BothParentsProvenHetIsSaidInOne) {
  RecordsBuilder records;
  records.founder("F", Sex::female, "bought").founder("M", Sex::male, "bought");
  records.clutch("C", "F", {"M"}).hatchling("V", "C").hatchling("H", "C");
  records.shows("F", "tarnbrook", "plain").shows("M", "tarnbrook", "plain");
  records.shows("V", "tarnbrook", "tarnbrook").shows("H", "tarnbrook", "plain");
  const Listed listed(recessive_model(), records);
  const Statement h = listed.at("H");
  EXPECT_EQ(h.reason, "both parents proven het, shows plain");
  EXPECT_EQ(h.headline, "66 % possible het for tarnbrook");
  EXPECT_THAT(listed.rests_on(h), ElementsAre("o3", "o4"));
  // Proven by a visual offspring.
  const Statement f = listed.at("F");
  EXPECT_EQ(f.label, Label::proven);
  EXPECT_THAT(f.reason, HasSubstr("1 visual offspring by a partner (proven het) prove a copy"));
  EXPECT_THAT(listed.rests_on(f), ElementsAre("o1", "o3", "o4"));
}

TEST(ListingRules, PercentagesAreRoundedDownNeverUp) {
  auto records = pair_sold_as(0.9997, 0);
  const Listed listed(recessive_model(), records);
  EXPECT_EQ(listed.at("F").published, (Published{0.99, 0.99, 0.01}));
  EXPECT_EQ(listed.at("F").headline, "99 % possible het for tarnbrook");
}

TEST(ListingRules, ForcedOnlyWhereTheParentsAreCertain) {
  // A dam of e/e at 97 % only, her look not recorded, by a clear male.
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"+/+", 0.03}, {"e/e", 0.97}});
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  const Listed listed(recessive_model(), records);
  const Statement h = listed.at("H");
  EXPECT_NEAR(h.markerless, 0.97, 1e-12);
  EXPECT_EQ(h.label, Label::possible);
  EXPECT_EQ(h.headline, "97 % possible het for tarnbrook");
}

TEST(ListingRules, AParentJustShortOfCertainGivesNoHundredPercent) {
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}}, 1 - 1e-9);
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  const Listed listed(recessive_model(), records);
  EXPECT_LT(listed.at("H").published.high, 1);
  EXPECT_EQ(listed.at("H").headline, "99 % possible het for tarnbrook");
}

TEST(ListingRules, WhatRelativesTaughtIsInTheNumber) {
  // Both parents at 2/3. Plain offspring: P(plain) = 1 - 4/9 x 1/4 = 8/9, P(het) = 4/9; 4/9 : 8/9.
  auto records = pair_sold_as(2.0 / 3, 2.0 / 3);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Listed listed(recessive_model(), records);
  EXPECT_NEAR(listed.at("H").markerless, 0.5, 1e-12);
  EXPECT_EQ(listed.at("H").headline, "50 % possible het for tarnbrook");
}

TEST(ListingRules, ClearOffspringByAVisualLowerAParentAndAreNamed) {
  RecordsBuilder records;
  records.founder("M", Sex::male).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  records.shows("F", "tarnbrook", "tarnbrook").clutch("C", "F", {"M"});
  for (int i = 0; i < 4; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  const Listed listed(recessive_model(), records);
  const Statement m = listed.at("M");
  // 1 : 2^4.
  EXPECT_NEAR(m.markerless, 1.0 / 17, 1e-12);
  EXPECT_THAT(m.reason, HasSubstr("seller's description: 50 % possible het (taken at its word)"));
  EXPECT_THAT(m.reason, HasSubstr("4 non-visual offspring by a partner (visual) lower it"));
  EXPECT_THAT(listed.rests_on(m), ElementsAre("o2", "o3", "o4", "o5"));
}

TEST(ListingRules, AOffspringThatIsNoVisualRaisesWhereHetsShowItNowAndThen) {
  // 3 in 10 hets are tinted. P(tinted offspring) of a het by a partner at 1/2: 3/4 x 1/2 x 0.3 +
  // 1/4 x 1/2 x 0.3 = 0.15; of a non-carrier: 1/4 x 0.3 = 0.075. So 1/2 becomes 2/3, though nobody
  // saw a visual.
  auto description = recessive_model();
  description.loci[0].appearance = {{"default", {{"plain", 1.0}}},
                                    {"+/e", {{"plain", 0.7}, {"tinted", 0.3}}},
                                    {"e/e", {{"tarnbrook", 1.0}}}};
  auto records = pair_sold_as(0.5, 0.5);
  records.hatchling("H", "C").shows("H", "tarnbrook", "tinted");
  const Listed listed(description, records);
  const Statement m = listed.at("M");
  EXPECT_NEAR(m.markerless, 2.0 / 3, 1e-12);
  EXPECT_THAT(m.reason, HasSubstr("1 non-visual offspring by a partner"));
  EXPECT_THAT(m.reason, HasSubstr("raises it"));
  EXPECT_THAT(m.reason, Not(HasSubstr("lower")));
}

TEST(ListingRules, ABroodTeachesTheSame) {
  RecordsBuilder records;
  records.founder("M", Sex::male).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}}, 1.0);
  records.brood("M", "tarnbrook", "e/e", {{"plain", 4}, {"tarnbrook", 0}});
  const Listed listed(recessive_model(), records);
  EXPECT_NEAR(listed.at("M").markerless, 1.0 / 17, 1e-12);
  EXPECT_THAT(listed.at("M").reason,
              HasSubstr("4 non-visual offspring by a partner (of genotype e/e) lower it"));
}

TEST(ListingRules, ASellersWordIsCalledThatAndHowFarItIsTrusted) {
  RecordsBuilder records;
  records.founder("F", Sex::female, "bought").bought_as("tarnbrook", {{"+/e", 1.0}}, 0.9);
  const Listed listed(recessive_model(), records);
  EXPECT_THAT(listed.at("F").reason, HasSubstr("seller's description: het (trusted to 90 %)"));
}

TEST(ListingRules, AnUncertainSireIsNamedWithEveryCandidate) {
  RecordsBuilder records;
  records.founder("F", Sex::female);
  records.founder("M1", Sex::male).bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("M2", Sex::male).shows("M1", "tarnbrook", "tarnbrook");
  records.clutch("C", "F", {"M1", "M2"}).hatchling("H", "C");
  const Listed listed(recessive_model(), records);
  EXPECT_THAT(listed.at("H").reason,
              HasSubstr("sire uncertain: M1 visual or M2 assumed not a carrier (untested)"));
  EXPECT_EQ(listed.at("H").headline, "50 % possible het for tarnbrook");
  EXPECT_EQ(listed.at("H").label, Label::possible);
}

TEST(ListingRules, ProvenNeedsARecordedVisual) {
  // Forced by the seller's description alone: certain, not proven.
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  const Listed listed(recessive_model(), records);
  EXPECT_EQ(listed.at("H").label, Label::certain);
  EXPECT_EQ(listed.at("H").headline, "100 % het for tarnbrook");
  EXPECT_THAT(listed.at("H").headline, Not(HasSubstr("proven")));
  // And two copies without a recorded look are not called visual.
  EXPECT_EQ(listed.at("F").label, Label::none);
  EXPECT_THAT(listed.at("F").headline, HasSubstr("two copies"));
}

TEST(ListingRules, AVisualThatMayBeWrongProvesNothing) {
  // Plain animals of 1 in 100 look like tarnbrook: nothing is certain then.
  auto model = recessive_model();
  model.loci[0].appearance = {{"+/+", {{"plain", 0.99}, {"tarnbrook", 0.01}}},
                              {"+/e", {{"plain", 0.99}, {"tarnbrook", 0.01}}},
                              {"e/e", {{"tarnbrook", 1.0}}}};
  RecordsBuilder records;
  records.founder("F", Sex::female, "bought").founder("M", Sex::male);
  records.clutch("C", "F", {"M"}).hatchling("H", "C").shows("F", "tarnbrook", "tarnbrook");
  const Listed listed(model, records);
  EXPECT_EQ(listed.at("F").label, Label::possible);
  EXPECT_EQ(listed.at("H").label, Label::possible);
  EXPECT_LT(listed.at("H").published.high, 1);
}

TEST(ListingRules, ResultsCountAndThePedigreeStandsBesideThem) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  records.result("H", "shed-pcr", "carrier").on("2026-07-02");
  const Listed listed(recessive_model(), records);
  const Statement h = listed.at("H");
  EXPECT_EQ(h.basis, Basis::results);
  EXPECT_EQ(h.headline, "99 % possible het for tarnbrook by results (50 % by pedigree)");
  EXPECT_NEAR(h.pedigree, 0.5, 1e-12);
  EXPECT_THAT(h.reason, HasSubstr("shed-pcr came back carrier on 2026-07-02"));
  EXPECT_THAT(listed.rests_on(h), Contains("o2"));
}

TEST(ListingRules, ResultsOfRelativesCountAndAreNamed) {
  auto records = pair_sold_as(0.5, 0);
  records.hatchling("H", "C").hatchling("G", "C");
  records.result("G", "shed-pcr", "carrier").on("2026-07-02");
  const Listed listed(recessive_model(), records);
  const Statement h = listed.at("H");
  EXPECT_EQ(h.basis, Basis::results);
  EXPECT_NEAR(h.pedigree, 0.25, 1e-12);
  EXPECT_GT(h.markerless, 0.49);
  EXPECT_THAT(h.reason, HasSubstr("1 result of close relatives counted in"));
  EXPECT_THAT(listed.rests_on(h), ElementsAre("o1"));
}

TEST(ListingRules, AWithdrawnRecordMovesTheNumberBack) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").result("H", "shed-pcr", "carrier").on("2026-07-02");
  records.withdraw("o1").on("2026-07-09");
  const Listed listed(recessive_model(), records);
  EXPECT_EQ(listed.at("H").basis, Basis::pedigree);
  EXPECT_THAT(listed.at("H").rests_on, IsEmpty());
}

TEST(ListingRules, AnEarlierDayCountsWhatWasKnownThen) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").result("H", "shed-pcr", "carrier").on("2026-07-02");
  Listed listed(recessive_model(), records);
  listed.ground().as_of = support::day("2026-07-01");
  EXPECT_EQ(listed.at("H").basis, Basis::pedigree);
  EXPECT_EQ(listed.of("H").day, support::day("2026-07-01"));
  listed.ground().as_of = support::day("2026-07-02");
  EXPECT_EQ(listed.at("H").basis, Basis::results);
}

TEST(ListingRules, MarkersAreSeenAndNotCountedUntilTheyAreEarned) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").hatchling("G", "C");
  records.score("H", "crown-fleck", "strong").on("2026-06-11");
  const Listed listed(recessive_model(), records);
  const Listing h = listed.of("H");
  EXPECT_EQ(h.statements[0].headline, "50 % possible het for tarnbrook");
  EXPECT_FALSE(h.statements[0].marked);
  ASSERT_EQ(h.markers.size(), 1U);
  EXPECT_FALSE(h.markers[0].count);
  EXPECT_EQ(h.markers[0].line,
            "Markers for tarnbrook seen (1 score), not counted: tables not learned from these "
            "records.");
  // Its sib has none of its own, and markers of proven parents' offspring tell it nothing.
  EXPECT_THAT(listed.of("G").markers, IsEmpty());
}

TEST(ListingRules, AMarkThatCannotBeReadIsNotSeen) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").shows("H", "brackmoor", "thornwick");
  records.score("H", "crown-fleck", "strong");
  auto model = support::masked_model();
  // Founders need the masking allele for a thornwick offspring.
  model.origins[0].frequencies.push_back({"brackmoor", {{"s", 0.5}}});
  for (auto& animal : records.records.animals) {
    if (!animal.clutch) animal.origin = "bought";
  }
  const Listed listed(model, records);
  EXPECT_THAT(listed.of("H").markers, IsEmpty());
}

TEST(ListingRules, TheSexThatCannotBeHetSaysSo) {
  RecordsBuilder records;
  records.founder("F", Sex::female);
  records.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "F", {"M"}).hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male);
  records.hatchling("E", "C", Sex::female).shows("E", "tarnbrook", "tarnbrook");
  const Listed listed(support::sex_linked_model(genetics::Chromosome::z), records);
  EXPECT_EQ(listed.at("D").headline, "a female cannot be het for tarnbrook: 50 % to carry it");
  EXPECT_EQ(listed.at("S").headline, "50 % possible het for tarnbrook");
  EXPECT_EQ(listed.at("E").label, Label::visual);
  EXPECT_EQ(listed.at("E").headline, "visual for tarnbrook; a female cannot be het for tarnbrook");
  EXPECT_EQ(listed.at("F").headline,
            "a female cannot be het for tarnbrook, and this one does not carry it");
}

TEST(ListingRules, OnXItIsTheMaleWhoCannotBeHet) {
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"+/e", 1.0}}).founder("M", Sex::male);
  records.clutch("C", "F", {"M"}).hatchling("S", "C", Sex::male).hatchling("D", "C", Sex::female);
  const Listed listed(support::sex_linked_model(genetics::Chromosome::x), records);
  EXPECT_EQ(listed.at("S").headline, "a male cannot be het for tarnbrook: 50 % to carry it");
  EXPECT_EQ(listed.at("D").headline, "50 % possible het for tarnbrook");
}

// The partner of an animal that can be het is of the sex that can't. By one without the trait a het
// has a visual among four offspring: half of those that get the partner's other chromosome.
TEST(ListingRules, NoHetPartnerIsOfferedWhereNoneCanBe) {
  for (const auto on : {genetics::Chromosome::z, genetics::Chromosome::x}) {
    const Sex one = on == genetics::Chromosome::z ? Sex::female : Sex::male;
    const Sex two = genetics::other_sex(one);
    RecordsBuilder records;
    records.founder("A", two).bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
    records.shows("A", "tarnbrook", "plain");
    records.founder("U").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
    const Listed listed(support::sex_linked_model(on), records);
    EXPECT_THAT(
        listed.at("A").would_change,
        Contains("about 5 more non-visual offspring by a visual partner, or 11 by any other, would "
                 "bring it below 5 % (by pedigree and results)"));
    for (const char* id : {"A", "U"}) {
      EXPECT_THAT(listed.at(id).would_change, Each(Not(HasSubstr("het one")))) << id;
    }
  }
}

TEST(ListingRules, NoneIsSoldAsHetThatCannotBe) {
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/W", 1.0}});
  records.founder("G", Sex::female).bought_as("tarnbrook", {{"+/W", 0.4}, {"e/W", 0.6}});
  const Listed listed(support::sex_linked_model(genetics::Chromosome::z), records);
  EXPECT_THAT(listed.at("F").reason, HasSubstr("seller's description: carrying it"));
  EXPECT_THAT(listed.at("G").reason, HasSubstr("seller's description: 60 % to carry it"));
}

TEST(ListingRules, EachAlleleHasAStatementOfItsOwn) {
  auto model = recessive_model();
  auto& locus = model.loci[0];
  locus.alleles = {"+", "e", "f"};
  locus.appearance = {{"default", {{"plain", 1.0}}},
                      {"e/e", {{"tarnbrook", 1.0}}},
                      {"e/f", {{"tarnbrook", 1.0}}},
                      {"f/f", {{"fog", 1.0}}}};
  model.markers.clear();
  model.assays.clear();
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/f", 1.0}});
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  records.shows("F", "tarnbrook", "tarnbrook");
  const Listed listed(model, records);
  EXPECT_EQ(listed.at("H", "tarnbrook", 1).headline, "50 % possible het for e of tarnbrook");
  EXPECT_EQ(listed.at("H", "tarnbrook", 2).headline, "50 % possible het for f of tarnbrook");
  // A compound has one copy of each; neither is proven by a look that both share.
  EXPECT_EQ(listed.at("F", "tarnbrook", 1).label, Label::certain);
  EXPECT_THAT(listed.at("F", "tarnbrook", 1).headline, HasSubstr("shows tarnbrook; one copy of e"));
}

colony::ModelDescription visible_model() {
  auto model = recessive_model();
  model.loci[0].appearance = {
      {"default", {{"plain", 1.0}}}, {"+/e", {{"tarnbrook", 1.0}}}, {"e/e", {{"tarnbrook", 1.0}}}};
  return model;
}

TEST(ListingRules, AVisibleTraitIsShownNotHet) {
  auto records = pair_sold_as(1, 1);
  for (auto& animal : records.records.animals) animal.bought_as.front().odds = {{"+/e", 1.0}};
  records.hatchling("H", "C").shows("H", "tarnbrook", "tarnbrook");
  records.hatchling("P", "C").shows("P", "tarnbrook", "plain");
  const Listed listed(visible_model(), records);
  // 1/2 of one copy, 1/4 of two: 2/3.
  EXPECT_EQ(listed.at("H").headline, "tarnbrook: shows tarnbrook; one copy of e at 66 %");
  EXPECT_EQ(listed.at("P").headline, "tarnbrook: shows plain; no copy of e");
  for (const char* id : {"H", "P", "F"}) {
    EXPECT_THAT(listed.at(id).headline, Not(HasSubstr("het")));
  }
}

TEST(ListingRules, OffspringWhoseLookIsNotRecordedMayHaveTwoCopies) {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C");
  const Listed listed(recessive_model(), records);
  EXPECT_EQ(listed.at("H").headline,
            "50 % possible het for tarnbrook; 25 % with two copies, look not recorded");
}

TEST(ListingRules, LethalGenotypesAndCautionsAreTold) {
  auto model = recessive_model();
  model.loci[0].viability = {{"e/e", 0.0}};
  model.loci[0].caution = "Invented: may lose balance.";
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C");
  const Listed listed(model, records);
  // Alive: 1/2 of 3/4.
  EXPECT_EQ(listed.at("H").headline, "66 % possible het for tarnbrook");
  EXPECT_THAT(listed.of("H").cautions, Contains("tarnbrook: Invented: may lose balance."));
  EXPECT_THAT(listed.of("H").cautions, Contains(HasSubstr("offspring of e/e do not live")));
}

TEST(ListingRules, CautionsOfWhatItDoesNotCarryAreLeftOut) {
  auto model = recessive_model();
  model.loci[0].caution = "Invented: may lose balance.";
  RecordsBuilder records;
  records.founder("F", Sex::female);
  const Listed listed(model, records);
  EXPECT_THAT(listed.of("F").cautions, Not(Contains(HasSubstr("balance"))));
  EXPECT_THAT(listed.of("F").cautions, Contains(HasSubstr("not a guarantee")));
  EXPECT_THAT(listed.of("F").cautions, Contains(HasSubstr("consumer law")));
  EXPECT_THAT(listed.of("F").cautions, Contains(HasSubstr("local law")));
  EXPECT_THAT(listed.of("F").cautions, Contains(HasSubstr("reptile veterinarian")));
}

TEST(ListingRules, HealthNotesStandWithTheirGrade) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C");
  colony::Policy policy;
  policy.health = {{"tarnbrook", "may lose balance", colony::Grade::reports, std::nullopt}};
  const Listed listed(recessive_model(), records, policy);
  ASSERT_EQ(listed.of("H").health.size(), 1U);
  EXPECT_THAT(listed.of("M").health, IsEmpty());  // carries none
}

TEST(ListingRules, WhatWouldChangeTheNumberIsSaid) {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Listed listed(recessive_model(), records);
  const auto changes = listed.at("H").would_change;
  EXPECT_THAT(changes, Contains("a visual offspring would prove a copy"));
  EXPECT_THAT(changes,
              Contains("about 5 more non-visual offspring by a visual partner, or 11 by a het one, "
                       "would bring it below 5 % (by pedigree and results)"));
  EXPECT_THAT(changes, Contains("a result of shed-pcr"));
  EXPECT_THAT(changes, Contains(HasSubstr("withdrawn")));
}

TEST(ListingRules, ContradictionsAreNotAveragedAway) {
  RecordsBuilder records;
  records.founder("F", Sex::female).founder("M", Sex::male);
  records.clutch("C", "F", {"M"}).hatchling("H", "C").shows("H", "tarnbrook", "tarnbrook");
  const auto colony = support::colony_of(support::made(recessive_model()), records.records);
  const colony::Policy policy;
  Ground ground;
  ground.colony = &colony;
  ground.policy = &policy;
  EXPECT_TRUE(std::holds_alternative<odds::Contradiction>(listings(ground, {0})));
}

TEST(ListingRules, TooLargeIsAnAnswer) {
  auto records = pair_sold_as(0.5, 0.5);
  records.hatchling("H", "C");
  Listed listed(recessive_model(), records);
  listed.ground().memory_bytes = 1;
  EXPECT_TRUE(std::holds_alternative<odds::TooLarge>(listings(listed.ground(), {0})));
}

}  // namespace
}  // namespace likelihet::publishing::listing_rules_test
