// Claims: what is written of a listing, their codes, and what becomes of them.
#include <gmock/gmock.h>
#include <publishing/listed.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/claim.hpp>
#include <likelihet/publishing/claim_state.hpp>

namespace likelihet::publishing::claims_test {
namespace {

using genetics::Sex;
using support::recessive_model;
using support::RecordsBuilder;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

colony::Date day(const std::string& text) {
  return *colony::Date::parse(text);
}

/// Two hets by the seller's word and a plain hatchling: 66 %.
RecordsBuilder two_hets() {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  return records;
}

/// The claim of an animal as these records give it.
Claim claimed(const RecordsBuilder& records, const std::string& id = "H") {
  Listed listed(recessive_model(), records);
  listed.ground().day = day("2025-08-20");
  return claim_of(listed.colony(), listed.of(id));
}

/// What becomes of it by other records.
std::vector<NumberState> by_now(const Claim& claim, const RecordsBuilder& records,
                                bool learned = false) {
  const Listed listed(recessive_model(), records);
  return states_of(claim, listed.colony(), listed.of(claim.animal), learned);
}

TEST(Claim, SaysWhatTheListingSays) {
  const Claim claim = claimed(two_hets());
  EXPECT_EQ(claim.animal, "H");
  EXPECT_EQ(claim.day, day("2025-08-20"));
  ASSERT_THAT(claim.numbers, SizeIs(1));
  EXPECT_EQ(claim.numbers[0].headline, "66 % possible het for tarnbrook");
  EXPECT_EQ(claim.numbers[0].published, (Published{0.66, 0.66, 0.01}));
  EXPECT_NEAR(claim.numbers[0].value, 2.0 / 3, 1e-12);
  EXPECT_FALSE(claim.counts_markers());
}

TEST(Claim, NeedsItsDay) {
  const Listed listed(recessive_model(), two_hets());
  EXPECT_THROW(static_cast<void>(claim_of(listed.colony(), listed.of("H"))), std::invalid_argument);
}

TEST(Claim, ComesBackFromItsTextToTheLastBit) {
  const Claim claim = claimed(two_hets());
  EXPECT_EQ(read_claim(write_claim(claim)), claim);
}

TEST(Claim, ATextThatIsNoneIsNotRead) {
  const std::string text = write_claim(claimed(two_hets()));
  for (std::size_t cut = 0; cut < text.size(); ++cut) EXPECT_FALSE(read_claim(text.substr(0, cut)));
  EXPECT_FALSE(read_claim("{}"));
  EXPECT_FALSE(read_claim("[1]"));
  std::string other = text;
  other.replace(other.find("possible"), 8, "probable");
  EXPECT_FALSE(read_claim(other));
}

book::ClaimRecord record() {
  return {{},
          "H",
          *colony::Timestamp::parse("2025-08-20T10:00:00Z"),
          7,
          "evidence",
          std::nullopt,
          write_claim(claimed(two_hets())),
          std::nullopt};
}

TEST(ClaimCode, ChangesWithEveryByteOfTheClaim) {
  const std::string code = code_of(record());
  EXPECT_EQ(code, code_of(record()));
  EXPECT_THAT(code, SizeIs(19));
  const std::string document = record().document;
  for (std::size_t at = 0; at < document.size(); ++at) {
    book::ClaimRecord other = record();
    other.document[at] = static_cast<char>(other.document[at] ^ 1);
    EXPECT_NE(code_of(other), code) << at;
  }
  book::ClaimRecord other = record();
  other.entries = 8;
  EXPECT_NE(code_of(other), code);
  other = record();
  other.evidence = "evidencf";
  EXPECT_NE(code_of(other), code);
  other = record();
  other.tables = "";
  EXPECT_EQ(code_of(other), code) << "no tables and an empty digest are one: no digest is empty";
  other.tables = "t";
  EXPECT_NE(code_of(other), code);
}

// Parts are told apart by their lengths.
TEST(ClaimCode, AByteThatMovesToTheNextFieldChangesIt) {
  book::ClaimRecord one = record();
  one.animal = "H1";
  one.entries = 2;
  book::ClaimRecord other = one;
  other.animal = "H";
  other.entries = 12;
  EXPECT_NE(code_of(one), code_of(other));
}

// Crockford's base 32: O reads as 0, I and L as 1; case and dashes do not matter.
TEST(ClaimCode, IsReadAsPeopleTypeIt) {
  EXPECT_EQ(code_from("7k3q 9d2m-XP4T a8wz"), "7K3Q-9D2M-XP4T-A8WZ");
  EXPECT_EQ(code_from("oOiIlL0000000000"), "0011-1100-0000-0000");
  EXPECT_FALSE(code_from("7K3Q-9D2M-XP4T-A8W"));
  EXPECT_FALSE(code_from("7K3Q-9D2M-XP4T-A8WU"));
  EXPECT_FALSE(code_from(""));
}

RC_GTEST_PROP(ClaimCode, AnyCodeReadsBack, (const std::string& evidence)) {
  book::ClaimRecord any{
      {}, "H", *colony::Timestamp::parse("2025-08-20T10:00:00Z"), 1, evidence, {}, "{}", {}};
  const std::string code = code_of(any);
  RC_ASSERT(code_from(code) == code);
}

TEST(ClaimState, StandsWhileNothingChanges) {
  const Claim claim = claimed(two_hets());
  const auto now = by_now(claim, two_hets());
  EXPECT_EQ(now[0].state, ClaimState::current);
  EXPECT_TRUE(all_current(now));
  EXPECT_FALSE(out_of_date(now));
  EXPECT_THAT(correction(claim, "CODE", now), IsEmpty());
}

// Two dams sold as 66 %: each plain sib lowers what the parents are.
TEST(ClaimState, IsTooHighWhenSibsLowerIt) {
  auto records = pair_sold_as(0.66, 0.66);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Claim claim = claimed(records);
  for (int sib = 0; sib < 6; ++sib) {
    const std::string id = "S" + std::to_string(sib);
    records.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  const auto now = by_now(claim, records);
  EXPECT_EQ(now[0].state, ClaimState::too_high);
  EXPECT_TRUE(out_of_date(now));
  const auto words = correction(claim, "CODE", now);
  ASSERT_THAT(words, SizeIs(2));
  EXPECT_THAT(words[0], HasSubstr("H, published 2025-08-20 as CODE"));
  EXPECT_THAT(words[0], HasSubstr(claim.numbers[0].headline));
  EXPECT_THAT(words[0], HasSubstr(now[0].now));
  EXPECT_THAT(words[1], HasSubstr("consumer law"));
}

TEST(ClaimState, IsTooLowWhenAVisualSibProvesTheParents) {
  auto records = pair_sold_as(0.66, 0.66);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain");
  const Claim claim = claimed(records);
  records.hatchling("V", "C").shows("V", "tarnbrook", "tarnbrook");
  EXPECT_EQ(by_now(claim, records)[0].state, ClaimState::too_low);
}

TEST(ClaimState, LapsesWithARecordThatItRestsOn) {
  RecordsBuilder records;
  records.founder("F", Sex::female).bought_as("tarnbrook", {{"e/e", 1.0}});
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  records.shows("F", "tarnbrook", "tarnbrook").shows("H", "tarnbrook", "plain");
  const Claim claim = claimed(records);
  ASSERT_EQ(claim.numbers[0].label, Label::proven);
  ASSERT_THAT(claim.numbers[0].rests_on, ElementsAre("o1", "o2"));
  records.withdraw("o1");
  const auto now = by_now(claim, records);
  EXPECT_EQ(now[0].state, ClaimState::basis_withdrawn);
  EXPECT_THAT(now[0].withdrawn, ElementsAre("o1"));
  EXPECT_THAT(correction(claim, "CODE", now)[0], HasSubstr("Taken back since: a look of F."));
}

TEST(ClaimState, AMarkedNumberWaitsForLearning) {
  Claim claim = claimed(two_hets());
  claim.numbers[0].basis = Basis::markers;
  EXPECT_TRUE(claim.counts_markers());
  EXPECT_EQ(by_now(claim, two_hets())[0].state, ClaimState::not_learned);
  EXPECT_FALSE(out_of_date(by_now(claim, two_hets())));
  EXPECT_FALSE(all_current(by_now(claim, two_hets())));
  // Learned, and markers do not count any more: nothing is left of what it rested on.
  EXPECT_EQ(by_now(claim, two_hets(), true)[0].state, ClaimState::basis_withdrawn);
}

TEST(ClaimState, WhatTheModelNoLongerHasHasLapsed) {
  Claim claim = claimed(two_hets());
  claim.numbers[0].locus = "pellbrook";
  const auto now = by_now(claim, two_hets());
  EXPECT_EQ(now[0].state, ClaimState::basis_withdrawn);
  EXPECT_THAT(now[0].now, HasSubstr("no longer has e of pellbrook"));
}

TEST(ClaimState, TheRangeIsHeldToItsEnds) {
  Claim claim = claimed(two_hets());
  for (const auto& [low, high, step, state] :
       std::vector<std::tuple<double, double, double, ClaimState>>{
           {0.60, 0.65, 0.05, ClaimState::current},
           {0.66, 0.66, 0.01, ClaimState::current},
           {0.67, 0.70, 0.01, ClaimState::too_high},
           {0.50, 0.60, 0.05, ClaimState::too_low}}) {
    claim.numbers[0].published = {low, high, step};
    EXPECT_EQ(by_now(claim, two_hets())[0].state, state) << low << " to " << high;
  }
}

}  // namespace
}  // namespace likelihet::publishing::claims_test
