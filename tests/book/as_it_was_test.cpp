// Evidence as it stood after any entry of the ledger is what the book held then.
#include <book/example.hpp>
#include <book/random_herd.hpp>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/book/as_it_was.hpp>

namespace likelihet::book::as_it_was_test {
namespace {

/// What the book said at an entry of its ledger.
struct Moment {
  std::int64_t entries = 0;
  Evidence evidence;
};

Moment moment_of(const Book& book) {
  const Evidence evidence = book.evidence();
  return {evidence.entries, evidence};
}

bool same(const Evidence& a, const Evidence& b) {
  return a.entries == b.entries && a.model == b.model && a.records == b.records &&
         a.policy == b.policy;
}

/// Bare animals and clutches, then their fields, then observations in two halves.
std::vector<colony::Records> portions(const colony::Records& records) {
  colony::Records bare = records;
  bare.observations.clear();
  for (colony::AnimalRecord& animal : bare.animals) {
    animal = {animal.id, {}, {}, animal.clutch, {}, {}, {}, {}};
  }
  for (colony::ClutchRecord& clutch : bare.clutches) {
    clutch = {clutch.id, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}};
  }
  const auto middle =
      records.observations.begin() + static_cast<std::ptrdiff_t>(records.observations.size() / 2);
  return {bare,
          {records.animals, records.clutches, {}},
          {{}, {}, {records.observations.begin(), middle}},
          {{}, {}, {middle, records.observations.end()}}};
}

RC_GTEST_PROP(as_it_was, every_state_of_a_growing_book_comes_back, ()) {
  const colony::Records records = *any_herd();
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  std::vector<Moment> moments{moment_of(book)};
  double price = 1;
  for (const colony::Records& portion : portions(records)) {
    RC_ASSERT(std::holds_alternative<Change>(book.add(portion, Mode::commit)));
    moments.push_back(moment_of(book));
    colony::Policy policy;
    policy.prices = {{"shed-pcr", price}};
    static_cast<void>(book.replace_policy(policy, Mode::commit));
    moments.push_back(moment_of(book));
    static_cast<void>(book.replace_model(example_model(0.05 * ++price), Mode::commit));
    moments.push_back(moment_of(book));
  }
  for (const Moment& then : moments) {
    RC_ASSERT(same(book.evidence(then.entries), then.evidence));
  }
}

TEST(as_it_was, claims_and_learning_are_no_evidence) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const Evidence before = book.evidence();
  book.keep_learned({"one", "{}", {1}});
  EXPECT_EQ(book.evidence().records, before.records);
  EXPECT_EQ(book.evidence().entries, before.entries + 1);
  EXPECT_TRUE(same(book.evidence(before.entries), before));
}

TEST(as_it_was, an_entry_that_the_ledger_does_not_have_is_refused) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  EXPECT_THROW(static_cast<void>(book.evidence(0)), std::invalid_argument);
  EXPECT_THROW(static_cast<void>(book.evidence(12)), std::invalid_argument);
}

// The list of fields filled in is a text; a locus may be called anything.
TEST(as_it_was, names_of_loci_with_commas_are_told_apart) {
  Stored now;
  colony::AnimalRecord animal{"F01", {}, {}, {}, {}, {}, {}, {}};
  animal.bought_as = {{"a", {{"+/a", 1}}, {}}, {"a, line", {{"+/a", 1}}, {}}, {"b", {}, {}}};
  animal.line = "north";
  now.records.animals = {animal};
  const std::vector<LedgerEntry> ledger = {
      {1, moment("2026-05-04T03:02:01Z"), "book made", "m", ""},
      {2, moment("2026-05-04T03:02:01Z"), "animal added", "F01", ""},
      {3, moment("2026-05-04T03:02:01Z"), "animal completed", "F01", "bought_as for a, line"}};
  const Stored then = as_it_was(now, ledger, 2);
  ASSERT_EQ(then.records.animals.size(), 1U);
  // Either reading of the list is possible here; what was there before the entry stays.
  EXPECT_EQ(then.records.animals[0].bought_as.back().locus, "b");
}

TEST(as_it_was, nothing_is_left_of_a_book_just_made) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  EXPECT_EQ(book.evidence(1).records, colony::Records{});
}

}  // namespace
}  // namespace likelihet::book::as_it_was_test
