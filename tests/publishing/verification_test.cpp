// A claim derived again from the evidence as it was; one byte of anything changed, and it fails.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/publishing/verification.hpp>

namespace likelihet::publishing::verification_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::size_t memory = std::size_t{1} << 30U;

/// A claim on H0301 of the example book, as it would be published.
book::ClaimRecord published(const book::Evidence& evidence) {
  auto model = std::make_shared<const colony::Model>(
      std::get<colony::Model>(colony::Model::make(evidence.model)));
  const auto colony =
      std::get<colony::Colony>(colony::Colony::make(std::move(model), evidence.records));
  Ground ground;
  ground.colony = &colony;
  ground.policy = &evidence.policy;
  ground.day = book::day("2026-05-04");
  const auto found = listings(ground, {colony.find_animal("H0301").value()});
  book::ClaimRecord record{
      {},
      "H0301",
      book::moment("2026-05-04T03:02:01Z"),
      evidence.entries,
      digest_of(evidence, std::nullopt),
      std::nullopt,
      write_claim(claim_of(colony, std::get<std::vector<Listing>>(found).front())),
      std::nullopt};
  record.code = code_of(record);
  return record;
}

class Verifying : public testing::Test {
 protected:
  Verifying() : book_(book::make_example(folder_ / "b")) {
    claim_ = published(book_.evidence());
    book::Publication publication;
    publication.entries = claim_.entries;
    publication.claims = {claim_};
    EXPECT_TRUE(book_.publish(publication));
    then_ = {book_.evidence(claim_.entries), std::nullopt, claim_.at};
  }

  [[nodiscard]] Verification verified(const book::ClaimRecord& claim,
                                      const EvidenceThen& then) const {
    return std::get<Verification>(verify(claim, then, memory));
  }
  [[nodiscard]] Verification with(const EvidenceThen& then) const { return verified(claim_, then); }

  book::Folder folder_;
  book::Book book_;
  book::ClaimRecord claim_{
      {}, {}, book::moment("2026-05-04T03:02:01Z"), 0, {}, std::nullopt, {}, std::nullopt};
  EvidenceThen then_;
};

TEST_F(Verifying, HoldsOnTheEvidenceAsItWas) {
  const Verification found = with(then_);
  EXPECT_TRUE(found.holds()) << found.what;
  EXPECT_THAT(found.what, IsEmpty());
  EXPECT_EQ(found.again, read_claim(claim_.document)->numbers);
}

TEST_F(Verifying, HoldsAfterTheBookHasGoneOn) {
  colony::Records more;
  more.observations.push_back({"o9",
                               colony::AppearanceRecord{"H0301", "tarnbrook", "plain"},
                               book::day("2024-08-01"),
                               {},
                               {},
                               {}});
  more.animals.push_back({"H0301", genetics::Sex::male, {}, {}, {}, {}, {}, {}});
  book::added(book_, more);
  const EvidenceThen then{book_.evidence(claim_.entries), std::nullopt, claim_.at};
  EXPECT_TRUE(with(then).holds()) << with(then).what;
  EXPECT_FALSE(with({book_.evidence(), std::nullopt, claim_.at}).evidence);
}

// Each text and number of the records in turn.
TEST_F(Verifying, FailsIfOneByteOfTheEvidenceChanges) {
  std::vector<EvidenceThen> changed;
  const auto change = [&](auto&& how) {
    changed.push_back(then_);
    how(changed.back().evidence);
  };
  using colony::Grade;
  change([](book::Evidence& e) { e.records.animals[0].line = "nortg"; });
  change([](book::Evidence& e) { e.records.animals[0].bought_as[0].trust = 0.9000000000000001; });
  change([](book::Evidence& e) { e.records.clutches[0].eggs = 8; });
  change([](book::Evidence& e) { e.records.observations[0].on = book::day("2024-01-11"); });
  change([](book::Evidence& e) {
    std::get<colony::ResultRecord>(e.records.observations[2].what).sample = "S-0092";
  });
  change([](book::Evidence& e) {
    e.records.observations[0].entered = book::moment("2026-05-04T03:02:02Z");
  });
  change([](book::Evidence& e) {
    std::get<colony::WithdrawalRecord>(e.records.observations[4].what).why = "wrong animam";
  });
  change([](book::Evidence& e) { e.model.scorers[0].sure = 0.94; });
  change([](book::Evidence& e) { e.policy.step = 0.1; });
  change([](book::Evidence& e) { e.records.observations.pop_back(); });
  for (const EvidenceThen& then : changed) {
    const Verification found = with(then);
    EXPECT_TRUE(found.code);
    EXPECT_FALSE(found.evidence);
    EXPECT_FALSE(found.holds());
    EXPECT_THAT(found.what, HasSubstr("digest"));
  }
}

TEST_F(Verifying, FailsIfTheClaimWasChanged) {
  book::ClaimRecord other = claim_;
  other.document.replace(other.document.find("\"low\":"), 6, "\"low\" :");
  EXPECT_FALSE(verified(other, then_).code);
  other = claim_;
  other.animal = "F01";
  EXPECT_FALSE(verified(other, then_).code);
}

TEST_F(Verifying, FailsIfTheLedgerDoesNotKnowIt) {
  EvidenceThen then = then_;
  then.published.reset();
  EXPECT_THAT(with(then).what, HasSubstr("ledger"));
  then.published = book::moment("2026-05-05T03:02:01Z");
  EXPECT_FALSE(with(then).holds());
}

// A claim whose code and digest were made to fit, but whose number the evidence does not give.
TEST_F(Verifying, FailsIfTheNumberDoesNotComeOutAgain) {
  Claim said = *read_claim(claim_.document);
  said.numbers[0].published.high = 1;
  book::ClaimRecord forged = claim_;
  forged.document = write_claim(said);
  forged.code = code_of(forged);
  const Verification found = verified(forged, then_);
  EXPECT_TRUE(found.code);
  EXPECT_TRUE(found.evidence);
  EXPECT_FALSE(found.derived);
  EXPECT_THAT(found.what, HasSubstr("the evidence gives"));
}

TEST_F(Verifying, FailsIfTablesThatItCountedAreGoneOrChanged) {
  book::ClaimRecord marked = claim_;
  marked.tables = "digest";
  marked.evidence = digest_of(then_.evidence, marked.tables);
  marked.code = code_of(marked);
  EXPECT_FALSE(verified(marked, then_).evidence);
  EvidenceThen then = then_;
  then.tables = book::LearnedRecord{"digest", "{}", {0.5}};
  EXPECT_FALSE(verified(marked, then).evidence);
}

}  // namespace
}  // namespace likelihet::publishing::verification_test
