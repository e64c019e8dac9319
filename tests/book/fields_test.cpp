// Records in words: equal where equal, different where different, readable where shown.
#include <cmath>

#include <book/example.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/book/fields.hpp>

namespace likelihet::book::fields_test {
namespace {

using testing::IsEmpty;

std::optional<std::string> value(const std::vector<Field>& fields, const std::string& name) {
  for (const Field& field : fields) {
    if (field.name == name) {
      return field.value;
    }
  }
  return "no such field";
}

TEST(fields, an_animal_in_words) {
  const auto fields = fields_of(example_records().animals[0]);
  EXPECT_EQ(value(fields, "sex"), "female");
  EXPECT_EQ(value(fields, "origin"), "bought");
  EXPECT_EQ(value(fields, "clutch"), std::nullopt);
  EXPECT_EQ(value(fields, "hatched"), "2021-06-30");
  EXPECT_EQ(value(fields, "bought_as for tarnbrook"), "+/+ 0.34, +/e 0.66 with trust 0.9");
}

TEST(fields, a_clutch_in_words) {
  const auto fields = fields_of(example_records().clutches[0]);
  EXPECT_EQ(value(fields, "dam"), "F01");
  EXPECT_EQ(value(fields, "sires"), "M02 with share 1");
  EXPECT_EQ(value(fields, "eggs"), "7");
  EXPECT_EQ(value(fields, "paternity"), std::nullopt);
}

TEST(fields, observations_in_words) {
  const auto observations = example_records().observations;
  EXPECT_EQ(value(fields_of(observations[1]), "kind"), "score");
  EXPECT_EQ(value(fields_of(observations[1]), "blind"), "true");
  EXPECT_EQ(value(fields_of(observations[2]), "recorded"), "2024-07-03T18:30:00+02:00");
  EXPECT_EQ(value(fields_of(observations[3]), "offspring"), "plain 7, tarnbrook 0");
  EXPECT_EQ(value(fields_of(observations[4]), "of"), "o2");
}

TEST(fields, members_of_an_object_have_no_order_and_elements_of_a_list_have) {
  colony::ClutchRecord two = example_records().clutches[0];
  two.sires = {{"M02", 1.0}, {"M03", 2.0}};
  colony::ClutchRecord swapped = two;
  std::swap(swapped.sires[0], swapped.sires[1]);
  EXPECT_EQ(differences(fields_of(two), fields_of(swapped)).size(), 1U);

  colony::AnimalRecord animal = example_records().animals[0];
  colony::AnimalRecord turned = animal;
  std::swap(turned.bought_as[0].odds[0], turned.bought_as[0].odds[1]);
  EXPECT_THAT(differences(fields_of(animal), fields_of(turned)), IsEmpty());
}

TEST(fields, neighbouring_doubles_differ) {
  colony::AnimalRecord animal = example_records().animals[0];
  colony::AnimalRecord next = animal;
  next.bought_as[0].trust = std::nextafter(0.9, 1.0);
  EXPECT_EQ(differences(fields_of(animal), fields_of(next)).size(), 1U);
}

TEST(fields, each_field_of_each_record_makes_a_difference) {
  const colony::Records records = example_records();
  for (std::size_t i = 0; i < records.observations.size(); ++i) {
    for (std::size_t j = 0; j < records.observations.size(); ++j) {
      EXPECT_EQ(differences(fields_of(records.observations[i]), fields_of(records.observations[j]))
                    .empty(),
                i == j)
          << i << ' ' << j;
    }
  }
}

TEST(fields, differences_name_the_field_and_both_values) {
  const auto found = differences({{"a", "1"}, {"b", "2"}, {"c", "3"}}, {{"a", "1"}, {"b", "4"}});
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].name, "b");
  EXPECT_EQ(found[0].before, "2");
  EXPECT_EQ(found[0].after, "4");
  EXPECT_EQ(found[1].name, "c");
  EXPECT_EQ(found[1].after, std::nullopt);
}

}  // namespace
}  // namespace likelihet::book::fields_test
