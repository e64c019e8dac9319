// What becomes of claims on several loci and alleles and on sex chromosomes, and how corrections
// are worded. Numbers by hand, from Mendel's rules.
#include <gmock/gmock.h>
#include <publishing/listed.hpp>

#include <likelihet/publishing/claim.hpp>
#include <likelihet/publishing/claim_state.hpp>

namespace likelihet::publishing::claims_of_loci_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// Claims by one model, held against other records and models.
class Keeping {
 public:
  explicit Keeping(colony::ModelDescription model) : model_(std::move(model)) {}

  [[nodiscard]] Claim claimed(const RecordsBuilder& records, const std::string& id = "H") const {
    Listed listed(model_, records);
    listed.ground().day = support::day("2025-08-20");
    return claim_of(listed.colony(), listed.of(id));
  }
  [[nodiscard]] std::vector<NumberState> now(const Claim& claim,
                                             const RecordsBuilder& records) const {
    const Listed listed(model_, records);
    return states_of(claim, listed.colony(), listed.of(claim.animal), false);
  }

 private:
  colony::ModelDescription model_;
};

std::vector<ClaimState> words(const std::vector<NumberState>& numbers) {
  std::vector<ClaimState> out;
  for (const NumberState& number : numbers) out.push_back(number.state);
  return out;
}

constexpr ClaimState stands = ClaimState::current;

/// Parents het for tarnbrook, and for brackmoor at 66 % each; the offspring is plain at both.
RecordsBuilder two_traits() {
  RecordsBuilder records;
  for (const char* id : {"F", "M"}) {
    records.founder(id, id[0] == 'F' ? Sex::female : Sex::male);
    records.bought_as("tarnbrook", {{"+/e", 1.0}});
    records.bought_as("brackmoor", {{"+/+", 0.34}, {"+/s", 0.66}});
  }
  records.clutch("C", "F", {"M"}).hatchling("H", "C");
  return records.shows("H", "tarnbrook", "plain").shows("H", "brackmoor", "plain");
}

TEST(ClaimOfTwoLoci, HasANumberForEachInTheModelsOrder) {
  const Claim claim = Keeping(support::masked_model()).claimed(two_traits());
  ASSERT_THAT(claim.numbers, SizeIs(2));
  EXPECT_EQ(claim.numbers[0].locus, "tarnbrook");
  EXPECT_EQ(claim.numbers[1].locus, "brackmoor");
  EXPECT_THAT(claim.numbers[0].rests_on, ElementsAre("o1"));
  EXPECT_THAT(claim.numbers[1].rests_on, ElementsAre("o2"));
  EXPECT_EQ(read_claim(write_claim(claim)), claim);
}

TEST(ClaimOfTwoLoci, EachStandsAndFallsByItself) {
  const Keeping keeping(support::masked_model());
  auto records = two_traits();
  const Claim claim = keeping.claimed(records);
  records.hatchling("V", "C").shows("V", "brackmoor", "thornwick");
  const auto now = keeping.now(claim, records);
  EXPECT_THAT(words(now), ElementsAre(stands, ClaimState::too_low));
  EXPECT_TRUE(out_of_date(now));
  EXPECT_FALSE(all_current(now));
  // One sentence of the number that fell, and one of what to do.
  const auto notice = correction(claim, "CODE", now);
  ASSERT_THAT(notice, SizeIs(2));
  EXPECT_THAT(notice[0], testing::AllOf(HasSubstr("brackmoor"), HasSubstr("above what was said"),
                                        testing::Not(HasSubstr("tarnbrook"))));
}

TEST(ClaimOfTwoLoci, ARecordTakenBackConcernsTheNumberThatNamesIt) {
  const Keeping keeping(support::masked_model());
  auto records = two_traits();
  const Claim claim = keeping.claimed(records);
  records.withdraw("o1").shows("H", "tarnbrook", "plain");
  const auto now = keeping.now(claim, records);
  EXPECT_THAT(words(now), ElementsAre(ClaimState::basis_withdrawn, stands));
  EXPECT_THAT(now[0].withdrawn, ElementsAre("o1"));
  EXPECT_THAT(now[1].withdrawn, IsEmpty());
  EXPECT_EQ(now[0].now, claim.numbers[0].headline) << "the same number, on another record";
}

// A claim made before a second locus came into the model says nothing of it.
TEST(ClaimOfTwoLoci, ALocusThatCameLaterOvertakesNothing) {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Claim claim = Keeping(support::recessive_model()).claimed(records);
  EXPECT_THAT(words(Keeping(support::masked_model()).now(claim, records)), ElementsAre(stands));
}

// Three alleles: e/e and e/f show "tarnbrook", f/f shows "fog"; a copy beside + does not show.
colony::ModelDescription series() {
  auto model = support::recessive_model();
  auto& locus = model.loci[0];
  locus.alleles.emplace_back("f");
  locus.appearance.push_back({"e/f", {{"tarnbrook", 1.0}}});
  locus.appearance.push_back({"f/f", {{"fog", 1.0}}});
  model.markers.clear();
  model.assays = {{"f-test", "tarnbrook", {"no", "yes"}, {}, 0.0, std::nullopt}};
  for (const char* genotype : {"+/+", "+/e", "e/e"}) {
    model.assays[0].rows.push_back({genotype, {1, 0}});
  }
  for (const char* genotype : {"+/f", "e/f", "f/f"}) {
    model.assays[0].rows.push_back({genotype, {0, 1}});
  }
  return model;
}

/// Out of e/f and +/f: of e/+, f/+, e/f and f/f, each 1/4.
RecordsBuilder of_the_series() {
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/f", 1.0}});
  records.founder("M", Sex::male).bought_as("tarnbrook", {{"+/f", 1.0}});
  return records.clutch("C", "F", {"M"}).hatchling("H", "C");
}

TEST(ClaimOfASeries, SpeaksOfEachAllele) {
  const Keeping keeping(series());
  auto records = of_the_series();
  const Claim open = keeping.claimed(records);
  ASSERT_THAT(open.numbers, SizeIs(2));
  EXPECT_EQ(open.numbers[0].allele, "e");
  EXPECT_EQ(open.numbers[1].allele, "f");
  EXPECT_EQ(open.numbers[0].value, 0.5);
  EXPECT_EQ(open.numbers[1].value, 0.5) << "of e/f and f/+, f/f has two";
  // Plain leaves e/+ and f/+: one copy of the one or of the other.
  records.shows("H", "tarnbrook", "plain");
  const Claim plain = keeping.claimed(records);
  EXPECT_EQ(plain.numbers[0].value + plain.numbers[1].value, 1.0);
  EXPECT_THAT(plain.numbers[0].headline, HasSubstr("50 % possible het for e of tarnbrook"));
}

TEST(ClaimOfASeries, AnExactResultSettlesBothAlleles) {
  const Keeping keeping(series());
  auto records = of_the_series().shows("H", "tarnbrook", "plain");
  const Claim claim = keeping.claimed(records);
  auto positive = records;
  positive.result("H", "f-test", "yes");
  // Certain now, one way and the other: for e the number was too high, for f too low.
  EXPECT_THAT(words(keeping.now(claim, positive)),
              ElementsAre(ClaimState::too_high, ClaimState::too_low));
  const Claim settled = keeping.claimed(positive);
  EXPECT_EQ(settled.numbers[0].label, Label::none);
  EXPECT_EQ(settled.numbers[1].label, Label::certain);
  // A certain "none" is too low as soon as it is not; a certain "one" too high.
  EXPECT_THAT(words(keeping.now(settled, records)),
              ElementsAre(ClaimState::too_low, ClaimState::too_high));
}

TEST(ClaimOfASeries, AnAlleleThatTheModelDropsIsNamed) {
  const Claim claim = Keeping(series()).claimed(of_the_series());
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C");
  const auto now = Keeping(support::recessive_model()).now(claim, records);
  EXPECT_THAT(words(now), ElementsAre(stands, ClaimState::basis_withdrawn));
  EXPECT_EQ(now[1].now, "the model no longer has f of tarnbrook");
}

// On Z, out of a clear dam by a het sire: sons het at 1/2, daughters carry at 1/2 and show it.
RecordsBuilder on_z() {
  RecordsBuilder records;
  records.founder("F", Sex::female).shows("F", "tarnbrook", "plain");
  records.founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  return records.clutch("C", "F", {"M"}).hatchling("H", "C").shows("H", "tarnbrook", "plain");
}

/// The same with its sex, learned after it was published.
RecordsBuilder sexed(Sex sex) {
  auto records = on_z();
  records.animal().sex = sex;
  return records;
}

TEST(ClaimOnASexChromosome, SexingAHatchlingMovesIt) {
  const Keeping keeping(support::sex_linked_model(Chromosome::z));
  const Claim unsexed = keeping.claimed(on_z());
  // Plain offspring: sons 1/4 clear and 1/4 het, daughters 1/4 clear; those of e/W show it.
  EXPECT_NEAR(unsexed.numbers[0].value, 1.0 / 3, 1e-12);
  EXPECT_THAT(words(keeping.now(unsexed, sexed(Sex::male))), ElementsAre(ClaimState::too_low));
  EXPECT_THAT(words(keeping.now(unsexed, sexed(Sex::female))), ElementsAre(ClaimState::too_high));
}

TEST(ClaimOnASexChromosome, APlainDaughterIsClearForGood) {
  const Keeping keeping(support::sex_linked_model(Chromosome::z));
  const Claim claim = keeping.claimed(sexed(Sex::female));
  EXPECT_EQ(claim.numbers[0].label, Label::none);
  auto records = sexed(Sex::female);
  records.hatchling("V", "C", Sex::female).shows("V", "tarnbrook", "tarnbrook");
  EXPECT_THAT(words(keeping.now(claim, records)), ElementsAre(stands));
  // Sexed wrongly: a son may be het, and the claim of none falls.
  EXPECT_THAT(words(keeping.now(claim, sexed(Sex::male))), ElementsAre(ClaimState::too_low));
}

TEST(ClaimOnASexChromosome, AVisualDaughterIsVisualWhileSheShowsIt) {
  const Keeping keeping(support::sex_linked_model(Chromosome::z));
  RecordsBuilder records;
  records.founder("F", Sex::female).founder("M", Sex::male).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.clutch("C", "F", {"M"}).hatchling("H", "C", Sex::female);
  auto seen = records;
  seen.shows("H", "tarnbrook", "tarnbrook");
  const Claim claim = keeping.claimed(seen);
  EXPECT_EQ(claim.numbers[0].label, Label::visual);
  EXPECT_THAT(words(keeping.now(claim, seen)), ElementsAre(stands));
  EXPECT_THAT(words(keeping.now(claim, records)), ElementsAre(ClaimState::basis_withdrawn));
}

/// A claim and the state of its one number, as a correction takes them.
std::vector<std::string> correction_of(ClaimState state, std::size_t taken_back) {
  Claim claim{"H", support::day("2025-08-20"), {{}}};
  claim.numbers[0].headline = "66 % possible het for tarnbrook";
  claim.numbers[0].reason = "both parents het";
  NumberState number;
  number.state = state;
  number.now = "50 % possible het for tarnbrook";
  for (std::size_t i = 1; i <= taken_back; ++i)
    number.taken_back.push_back("look " + std::to_string(i));
  return correction(claim, "CODE", {number});
}

TEST(Correction, IsOneWholeSentenceAfterTheOther) {
  EXPECT_EQ(
      correction_of(ClaimState::too_high, 0)[0],
      "H, published 2025-08-20 as CODE: it was said to be \"66 % possible het for tarnbrook\" "
      "(both parents het). Records made since put the chance below what was said. It is now "
      "\"50 % possible het for tarnbrook\".");
  EXPECT_THAT(correction_of(ClaimState::too_low, 0)[0], HasSubstr("above what was said"));
  EXPECT_THAT(correction_of(ClaimState::basis_withdrawn, 1)[0],
              HasSubstr("What it was based on no longer holds."));
}

TEST(Correction, NamesSixRecordsAndCountsTheRest) {
  EXPECT_THAT(
      correction_of(ClaimState::basis_withdrawn, 6)[0],
      testing::EndsWith("Taken back since: look 1, look 2, look 3, look 4, look 5, look 6."));
  EXPECT_THAT(correction_of(ClaimState::basis_withdrawn, 9)[0],
              testing::EndsWith(
                  "Taken back since: look 1, look 2, look 3, look 4, look 5, look 6 and 3 more."));
}

TEST(Correction, IsNotNeededOfWhatStandsOrWaits) {
  EXPECT_THAT(correction_of(ClaimState::current, 0), IsEmpty());
  EXPECT_THAT(correction_of(ClaimState::not_learned, 2), IsEmpty());
}

}  // namespace
}  // namespace likelihet::publishing::claims_of_loci_test
