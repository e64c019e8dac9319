// A book's policy: the default until one is given, replaced as a whole, the old one in the ledger.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/documents/policy_document.hpp>

namespace likelihet::book::policy_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

colony::Policy priced(double price) {
  colony::Policy policy;
  policy.name = "priced";
  policy.prices = {{"shed-pcr", price}};
  return policy;
}

Change replaced(Book& book, const colony::Policy& policy, Mode mode = Mode::commit) {
  return std::get<Change>(book.replace_policy(policy, mode));
}

TEST(policy, is_the_default_until_one_is_given) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  EXPECT_EQ(book.policy(), colony::Policy{});
}

TEST(policy, is_replaced_and_the_old_one_is_in_the_ledger) {
  const Folder folder;
  Book book = make_example(folder / "b");
  EXPECT_TRUE(replaced(book, priced(30)).policy_replaced);
  EXPECT_EQ(book.ledger().back().detail, "");
  EXPECT_TRUE(replaced(book, priced(40)).policy_replaced);
  EXPECT_EQ(book.policy(), priced(40));
  EXPECT_EQ(book.ledger().back().what, "policy replaced");
  EXPECT_EQ(book.ledger().back().id, "priced");
  EXPECT_EQ(book.ledger().back().detail, documents::write_policy(priced(30)));
  EXPECT_FALSE(replaced(book, priced(40)).policy_replaced);
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(policy, a_rehearsal_changes_nothing) {
  const Folder folder;
  Book book = make_example(folder / "b");
  EXPECT_TRUE(replaced(book, priced(30), Mode::rehearse).policy_replaced);
  EXPECT_EQ(book.policy(), colony::Policy{});
  EXPECT_EQ(book.ledger().size(), 11U);
}

TEST(policy, one_that_does_not_fit_the_model_is_refused) {
  const Folder folder;
  Book book = make_example(folder / "b");
  colony::Policy policy = priced(30);
  policy.prices[0].assay = "shed-pc";
  const auto outcome = book.replace_policy(policy, Mode::commit);
  EXPECT_EQ(std::get<colony::Faults>(outcome).at(0).place, "/prices/0/assay");
  EXPECT_EQ(book.policy(), colony::Policy{});
}

TEST(policy, a_model_that_it_does_not_fit_is_refused) {
  const Folder folder;
  Book book = Opener::create(folder / "b", example_model(), test_settings());
  replaced(book, priced(30));
  colony::ModelDescription description = example_model().description();
  description.assays.clear();
  const auto outcome =
      book.replace_model(std::get<colony::Model>(colony::Model::make(description)), Mode::commit);
  const colony::Fault fault = std::get<colony::Faults>(outcome).at(0);
  EXPECT_EQ(fault.place, "book: policy, /prices/0/assay");
  EXPECT_THAT(fault.mend, HasSubstr("replace the policy first"));
}

TEST(policy, cannot_be_replaced_unless_the_ledger_keeps_the_old_one) {
  const Folder folder;
  {
    Book book = make_example(folder / "b");
    replaced(book, priced(30));
  }
  EXPECT_THAT(run_raw(folder / "b", "UPDATE policy SET document = '{}'"),
              HasSubstr("ledger must keep"));
  EXPECT_THAT(run_raw(folder / "b", "INSERT OR REPLACE INTO policy VALUES (1, '{}')"),
              HasSubstr("one policy"));
}

}  // namespace
}  // namespace likelihet::book::policy_test
