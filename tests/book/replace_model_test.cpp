// A model is replaced only by one that every record fits, and the old one is kept.
#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/documents/model_document.hpp>

namespace likelihet::book::replace_model_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

/// The example's model without its scorer, whom a reading names.
colony::Model without_scorer() {
  colony::ModelDescription description = example_model().description();
  description.scorers.clear();
  return std::get<colony::Model>(colony::Model::make(description));
}

TEST(replace_model, the_new_model_is_used_and_the_old_one_is_in_the_ledger) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const auto outcome = book.replace_model(example_model(0.2), Mode::commit);
  ASSERT_TRUE(std::holds_alternative<Change>(outcome));
  EXPECT_TRUE(std::get<Change>(outcome).model_replaced);
  EXPECT_EQ(book.model()->description(), example_model(0.2).description());
  EXPECT_EQ(book.records(), example_records());
  const LedgerEntry entry = book.ledger().back();
  EXPECT_EQ(entry.what, "model replaced");
  EXPECT_EQ(entry.id, "example");
  EXPECT_EQ(entry.detail, documents::write_model(example_model().description()));
  EXPECT_THAT(book.check(), IsEmpty());
}

TEST(replace_model, there_and_back_again) {
  const Folder folder;
  Book book = make_example(folder / "b");
  for (const double clear : {0.2, 0.05, 0.2}) {
    ASSERT_TRUE(
        std::holds_alternative<Change>(book.replace_model(example_model(clear), Mode::commit)));
    EXPECT_EQ(book.model()->description(), example_model(clear).description());
  }
  EXPECT_EQ(book.ledger().size(), 14U);
}

TEST(replace_model, the_same_model_changes_nothing) {
  const Folder folder;
  Book book = make_example(folder / "b");
  EXPECT_FALSE(std::get<Change>(book.replace_model(example_model(), Mode::commit)).model_replaced);
  EXPECT_EQ(book.ledger().size(), 11U);
}

TEST(replace_model, a_model_that_a_record_does_not_fit_is_refused) {
  const Folder folder;
  Book book = make_example(folder / "b");
  for (const Mode mode : {Mode::rehearse, Mode::commit}) {
    const auto outcome = book.replace_model(without_scorer(), mode);
    ASSERT_TRUE(std::holds_alternative<colony::Faults>(outcome));
    const colony::Fault fault = std::get<colony::Faults>(outcome).at(0);
    EXPECT_THAT(fault.place, HasSubstr("book: observation o2"));
    EXPECT_THAT(fault.what, HasSubstr("ana"));
  }
  EXPECT_EQ(book.model()->description(), example_model().description());
  EXPECT_EQ(book.ledger().size(), 11U);
}

TEST(replace_model, a_rehearsal_changes_nothing) {
  const Folder folder;
  Book book = make_example(folder / "b");
  EXPECT_TRUE(
      std::get<Change>(book.replace_model(example_model(0.2), Mode::rehearse)).model_replaced);
  EXPECT_EQ(book.model()->description(), example_model().description());
}

TEST(replace_model, another_connection_sees_the_new_model) {
  const Folder folder;
  Book book = make_example(folder / "b");
  const Book other = Opener::open(folder / "b", test_settings());
  static_cast<void>(book.replace_model(example_model(0.2), Mode::commit));
  EXPECT_EQ(other.model()->description(), example_model(0.2).description());
}

TEST(replace_model, the_model_is_read_once_while_it_stays) {
  const Folder folder;
  const Book book = make_example(folder / "b");
  EXPECT_EQ(book.model().get(), book.model().get());
}

}  // namespace
}  // namespace likelihet::book::replace_model_test
