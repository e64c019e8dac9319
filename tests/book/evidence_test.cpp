// Evidence as it stood, and what is published from it, while the book goes on: digests that hold,
// and publications that come too late.
#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/evidence_digest.hpp>

namespace likelihet::book::evidence_test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

std::string digest(const Evidence& evidence) {
  return documents::evidence_digest(evidence.model, evidence.records, evidence.policy, "");
}

Publication publication(const Book& book, const std::string& code, const std::string& animal) {
  Publication made;
  made.entries = book.evidence().entries;
  made.claims = {{code, animal, moment("2026-05-04T03:02:01Z"), made.entries,
                  digest(book.evidence()), std::nullopt, "{}", std::nullopt}};
  return made;
}

// A claim on each state of a book that grows by a quarter of its observations at a time.
RC_GTEST_PROP(evidence, digests_of_claims_hold_while_the_book_grows, ()) {
  const colony::Records herd = *any_herd();
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  const auto add = [&](const colony::Records& records) {
    RC_ASSERT(std::holds_alternative<Change>(book.add(records, Mode::commit)));
  };
  add({herd.animals, herd.clutches, {}});
  std::size_t claims = 0;
  const auto claim = [&] {
    RC_ASSERT(book.publish(
        publication(book, "code-" + std::to_string(++claims), herd.animals.front().id)));
    RC_ASSERT(digest(book.evidence()) == book.claims().back().evidence);  // a claim is no evidence
  };
  claim();
  const std::size_t portion = herd.observations.size() / 4 + 1;
  for (std::size_t at = 0; at < herd.observations.size(); at += portion) {
    const auto from = herd.observations.begin() + static_cast<std::ptrdiff_t>(at);
    const auto left = static_cast<std::size_t>(herd.observations.end() - from);
    add({{}, {}, {from, from + static_cast<std::ptrdiff_t>(std::min(portion, left))}});
    claim();
  }
  // By another opening of the file, as another program would see it.
  const Book later = Opener::open(folder / "b", test_settings());
  RC_ASSERT(later.claims().size() == claims);
  for (const ClaimRecord& one : later.claims()) {
    RC_ASSERT(digest(later.evidence(one.entries)) == one.evidence);
  }
}

TEST(evidence, a_claim_keeps_the_animal_as_bare_as_it_was) {
  const Folder folder;
  Book book = make_example(folder / "b");
  ASSERT_TRUE(book.publish(publication(book, "A", "H0301")));
  const ClaimRecord claim = book.claims().front();
  colony::Records completed;
  completed.animals = {
      {"H0301", genetics::Sex::female, {}, {}, "north", day("2024-06-01"), {}, {}}};
  EXPECT_EQ(added(book, completed).animals_completed, 1U);
  colony::ClutchRecord clutch;
  clutch.id = "C03";
  clutch.line = "north";
  EXPECT_EQ(added(book, {{}, {clutch}, {}}).clutches_completed, 1U);
  const Evidence then = book.evidence(claim.entries);
  EXPECT_EQ(digest(then), claim.evidence);
  EXPECT_FALSE(then.records.animals.back().sex);
  EXPECT_FALSE(then.records.animals.back().hatched);
  EXPECT_NE(digest(book.evidence()), claim.evidence);
}

TEST(evidence, a_claim_keeps_the_policy_it_was_made_by) {
  const Folder folder;
  Book book = make_example(folder / "b");
  ASSERT_TRUE(book.publish(publication(book, "A", "H0301")));
  for (const double step : {0.1, 0.2}) {
    colony::Policy policy;
    policy.step = step;
    ASSERT_TRUE(std::holds_alternative<Change>(book.replace_policy(policy, Mode::commit)));
    ASSERT_TRUE(book.publish(publication(book, step == 0.1 ? "B" : "C", "H0301")));
  }
  std::vector<double> steps;
  for (const ClaimRecord& claim : book.claims()) {
    const Evidence then = book.evidence(claim.entries);
    EXPECT_EQ(digest(then), claim.evidence);
    steps.push_back(then.policy.step);
  }
  EXPECT_THAT(steps, ElementsAre(colony::Policy{}.step, 0.1, 0.2));
}

// Two keepers at one book: what the second worked out is of a state that is no longer the book's.
TEST(evidence, the_second_of_two_publications_out_of_one_state_comes_too_late) {
  const Folder folder;
  { make_example(folder / "b"); }
  Book one = Opener::open(folder / "b", test_settings());
  Book other = Opener::open(folder / "b", test_settings());
  const Publication mine = publication(one, "A", "H0301");
  Publication theirs = publication(other, "B", "H0301");
  EXPECT_TRUE(one.publish(mine));
  EXPECT_FALSE(other.publish(theirs));
  EXPECT_FALSE(one.publish(mine)) << "nor is it written twice";
  EXPECT_THAT(other.claims(), SizeIs(1));
  // Worked out again on the new state it is taken, and ends the first.
  theirs = publication(other, "B", "H0301");
  theirs.ends = {{"A", {moment("2026-05-04T03:02:01Z"), "B", "said anew"}}};
  EXPECT_TRUE(other.publish(theirs));
  EXPECT_EQ(one.claims()[0].end->replaced_by, "B");
  EXPECT_THAT(one.check(), IsEmpty());
}

// In a process of its own, which holds no memory of the first.
TEST(evidence, another_process_cannot_publish_out_of_an_old_state) {
  const Folder folder;
  { make_example(folder / "b"); }
  Publication old;
  {
    Book book = Opener::open(folder / "b", test_settings());
    old = publication(book, "A", "H0301");
    colony::Records more;
    more.animals.push_back({"newcomer", {}, {}, {}, {}, {}, {}, {}});
    added(book, more);
  }
  const auto publish = [&](bool renewed) {
    return in_child([&] {
      Book book = Opener::open(folder / "b", test_settings());
      return book.publish(renewed ? publication(book, "A", "H0301") : old) ? 1 : 0;
    });
  };
  EXPECT_EQ(publish(false), 0);
  EXPECT_EQ(publish(true), 1);
  const Book book = Opener::open(folder / "b", test_settings());
  ASSERT_THAT(book.claims(), SizeIs(1));
  EXPECT_EQ(digest(book.evidence(book.claims()[0].entries)), book.claims()[0].evidence);
}

// Half of a publication is none: the claim that is sound is not written either.
TEST(evidence, a_publication_with_one_bad_end_writes_nothing) {
  const Folder folder;
  Book book = make_example(folder / "b");
  Publication made = publication(book, "A", "H0301");
  made.ends = {{"nowhere", {moment("2026-05-04T03:02:01Z"), "A", "x"}}};
  const std::size_t entries = book.ledger().size();
  EXPECT_THROW(book.publish(made), std::invalid_argument);
  EXPECT_EQ(book.ledger().size(), entries);
  EXPECT_THAT(book.claims(), IsEmpty());
  made.ends.clear();
  made.claims.push_back(made.claims.front());  // one code for two claims
  EXPECT_THROW(book.publish(made), BookError);
  EXPECT_THAT(book.claims(), IsEmpty());
  EXPECT_EQ(book.ledger().size(), entries);
}

}  // namespace
}  // namespace likelihet::book::evidence_test
