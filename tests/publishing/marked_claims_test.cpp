// Claims that count markers: written into a book with the tables that they counted, so that they
// can be derived again after the book was learned from anew. The season is simulated.
#include <cmath>
#include <set>
#include <stdexcept>

#include "audit/simulated_season.hpp"
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <publishing/listed.hpp>

#include <likelihet/documents/digest.hpp>
#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/learning/learn.hpp>
#include <likelihet/learning/learned_text.hpp>
#include <likelihet/publishing/claim_state.hpp>
#include <likelihet/publishing/verification.hpp>

namespace likelihet::publishing::marked_claims_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::size_t memory = std::size_t{1} << 30U;

// Six in seven hets show the marker, one in ten of the others; half of all are tested.
audit::Season season() {
  audit::SeasonSettings settings;
  settings.markers = {{"crown-fleck", 2,
                       [](const audit::Hatchling& hatchling) {
                         const double shown = hatchling.carrier ? 6.0 / 7 : 0.1;
                         return std::vector<double>{1 - shown, shown};
                       },
                       false}};
  return audit::simulated_season(settings, 11);
}

/// Learns from the book as it is, and keeps it there.
void learn_from(book::Book& book, std::uint64_t seed) {
  const colony::Colony colony = book.colony();
  learning::Settings settings;
  settings.most_sweeps = 3000;
  settings.seed = seed;
  const auto learned = std::get<learning::Learned>(learning::learn(colony, settings));
  book.keep_learned({documents::digest(book.model()->description(), book.records()),
                     learning::write_learned(learned),
                     learning::flat_draws(learned, colony.model())});
}

/// An untested hatchling that shows the marker.
std::string marked_and_untested(const colony::Colony& colony) {
  std::set<std::size_t> shown, tested;
  for (const auto& observation : colony.observations()) {
    if (const auto* score = std::get_if<colony::Score>(&observation.what)) {
      if (score->level == 1U) shown.insert(score->animal);
    }
    if (const auto* result = std::get_if<colony::Result>(&observation.what)) {
      tested.insert(result->animal);
    }
  }
  for (const std::size_t animal : shown) {
    if (!tested.contains(animal)) return colony.animals()[animal].id;
  }
  throw std::runtime_error("all that show it are tested");
}

/// A book of a season, learned from, with one claim on a hatchling that shows the marker.
class MarkedClaim : public testing::Test {
 protected:
  struct Kept {
    Kept() {
      const audit::Season drawn = season();
      book::Book book = book::Opener::create(folder / "b", *drawn.model, book::test_settings());
      book::added(book, drawn.records);
      learn_from(book, 3);
      claim = published(book, marked_and_untested(book.colony()));
    }
    book::Folder folder;
    std::optional<book::ClaimRecord> claim;
  };

  // Learning takes seconds: once, and each test goes on from a copy.
  static const Kept& kept() {
    static const Kept made;
    return made;
  }

  static std::vector<odds::Tables> draws_of(const book::LearnedRecord& learned,
                                            const colony::Model& model) {
    return learning::read_draws(learned.draws, model).value();
  }

  /// The listing as of now, with the learned tables where they are given.
  static Listing listing(const colony::Colony& colony, const colony::Policy& policy,
                         const std::string& animal, const std::vector<odds::Tables>* draws) {
    Ground ground;
    ground.colony = &colony;
    ground.policy = &policy;
    ground.learned = draws;
    ground.day = book::day("2026-05-04");
    return std::get<std::vector<Listing>>(listings(ground, {colony.find_animal(animal).value()}))
        .front();
  }

  static book::ClaimRecord published(book::Book& book, const std::string& animal) {
    const book::Evidence evidence = book.evidence();
    const colony::Colony colony = book.colony();
    const book::LearnedRecord learned = book.learned().value();
    const auto draws = draws_of(learned, colony.model());
    const Claim claim = claim_of(colony, listing(colony, evidence.policy, animal, &draws));
    EXPECT_TRUE(claim.counts_markers());
    book::Publication publication;
    publication.entries = evidence.entries;
    publication.counted = learned;
    publication.counted_digest = documents::tables_digest({learned.document, learned.draws});
    book::ClaimRecord record{{},
                             animal,
                             book::moment("2026-05-04T03:02:01Z"),
                             evidence.entries,
                             digest_of(evidence, publication.counted_digest),
                             publication.counted_digest,
                             write_claim(claim),
                             std::nullopt};
    record.code = code_of(record);
    publication.claims = {record};
    EXPECT_TRUE(book.publish(publication));
    return record;
  }

  MarkedClaim() : claim_(kept().claim.value()), book_(copy()) {}

  book::Book copy() const {
    std::filesystem::copy_file(kept().folder / "b", folder_ / "b");
    return book::Opener::open(folder_ / "b", book::test_settings());
  }

  [[nodiscard]] EvidenceThen then() const {
    return {book_.evidence(claim_.entries), book_.counted_tables(*claim_.tables), claim_.at};
  }
  [[nodiscard]] Verification verified(const EvidenceThen& then) const {
    return std::get<Verification>(verify(claim_, then, memory));
  }

  /// What the claim is today, by tables learned from the book or without any.
  [[nodiscard]] NumberState state(bool learned) const {
    const colony::Colony colony = book_.colony();
    std::vector<odds::Tables> draws;
    if (learned) draws = draws_of(book_.learned().value(), colony.model());
    const Listing now = listing(colony, book_.policy(), claim_.animal, learned ? &draws : nullptr);
    return states_of(read_claim(claim_.document).value(), colony, now, learned).front();
  }

  void test(const std::string& report) {
    colony::Records more;
    more.observations.push_back({"the-test",
                                 colony::ResultRecord{claim_.animal, "tarnbrook-test", report, {}},
                                 book::day("2027-01-10"),
                                 {},
                                 {},
                                 {}});
    book::added(book_, more);
  }

  book::Folder folder_;
  book::ClaimRecord claim_;
  book::Book book_;
};

TEST_F(MarkedClaim, HoldsByTheTablesThatItCounted) {
  const Verification found = verified(then());
  EXPECT_TRUE(found.holds()) << found.what;
  EXPECT_EQ(found.again, read_claim(claim_.document)->numbers);
  EXPECT_EQ(found.again[0].basis, Basis::markers);
  EXPECT_GT(found.again[0].value, 0.5) << "the marker speaks for the copy";
  EXPECT_EQ(state(true).state, ClaimState::current);
}

TEST_F(MarkedClaim, AnyOtherRecordLeavesItToBeLearned) {
  colony::Records more;
  more.animals.push_back({"newcomer", {}, {}, {}, {}, {}, {}, {}});
  book::added(book_, more);
  EXPECT_NE(book_.learned()->digest,
            documents::digest(book_.model()->description(), book_.records()));
  EXPECT_EQ(state(false).state, ClaimState::not_learned);
  EXPECT_TRUE(verified(then()).holds()) << "what was said then was right then";
}

// Other chains give other draws; the claim goes by its own, which the book keeps beside them.
TEST_F(MarkedClaim, LearningAgainLeavesTheCountedTablesAsTheyWere) {
  const auto counted = book_.counted_tables(*claim_.tables);
  ASSERT_TRUE(counted);
  learn_from(book_, 4);
  EXPECT_NE(book_.learned()->draws, counted->draws);
  EXPECT_EQ(book_.counted_tables(*claim_.tables), counted);
  EXPECT_TRUE(verified(then()).holds());
  EXPECT_EQ(state(true).state, ClaimState::current) << "chains agree to less than a step";
  EXPECT_THAT(book_.check(), IsEmpty());
}

TEST_F(MarkedClaim, IsNotHeldByTablesLearnedLater) {
  learn_from(book_, 4);
  EvidenceThen other = then();
  other.tables = book_.learned();
  EXPECT_FALSE(verified(other).evidence);
  EXPECT_THAT(verified(other).what, HasSubstr("digest"));
}

TEST_F(MarkedClaim, FailsIfOneDrawMovesByOneBit) {
  EvidenceThen other = then();
  for (const std::size_t at : {std::size_t{0}, other.tables->draws.size() - 1}) {
    EvidenceThen changed = other;
    double& draw = changed.tables->draws[at];
    draw = std::nextafter(draw, 2.0);
    EXPECT_FALSE(verified(changed).evidence) << at;
  }
  other.tables->document += " ";
  EXPECT_FALSE(verified(other).evidence);
}

TEST_F(MarkedClaim, AResultAgainstItPutsItTooHighOnceLearned) {
  test("clear");
  // The test errs in one sample of a thousand: near 0, not 0, so markers are asked for again.
  EXPECT_EQ(state(false).state, ClaimState::not_learned);
  learn_from(book_, 3);
  const NumberState now = state(true);
  EXPECT_EQ(now.state, ClaimState::too_high);
  EXPECT_LT(now.value, 0.05);
}

TEST_F(MarkedClaim, AResultForItPutsItTooLow) {
  test("carrier");
  learn_from(book_, 3);
  EXPECT_EQ(state(true).state, ClaimState::too_low);
}

TEST_F(MarkedClaim, LapsesWhereThePolicyLeavesMarkersOut) {
  colony::Policy strict;
  strict.markers.count = false;
  ASSERT_TRUE(
      std::holds_alternative<book::Change>(book_.replace_policy(strict, book::Mode::commit)));
  EXPECT_EQ(state(true).state, ClaimState::basis_withdrawn);
  EXPECT_TRUE(verified(then()).holds()) << "the policy of its day counted them";
}

TEST_F(MarkedClaim, LapsesWithTheReadingThatItRestsOn) {
  const Claim said = *read_claim(claim_.document);
  const std::vector<std::string>& ids = said.numbers[0].rests_on;
  const auto reading = std::find_if(ids.begin(), ids.end(), [&](const std::string& id) {
    const auto records = book_.records();
    return std::any_of(records.observations.begin(), records.observations.end(), [&](auto& one) {
      return one.id == id && std::holds_alternative<colony::ScoreRecord>(one.what);
    });
  });
  ASSERT_NE(reading, ids.end()) << "its own reading is named";
  colony::Records more;
  more.observations.push_back(
      {"taken-back", colony::WithdrawalRecord{*reading, "another animal"}, {}, {}, {}, {}});
  book::added(book_, more);
  const NumberState now = state(false);
  EXPECT_EQ(now.state, ClaimState::not_learned);
  EXPECT_THAT(now.withdrawn, testing::ElementsAre(*reading));
}

}  // namespace
}  // namespace likelihet::publishing::marked_claims_test
