// What does not show, and where it is found. Numbers are those of Unicode's DerivedCoreProperties.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <likelihet/colony/hidden_characters.hpp>

namespace likelihet::colony::hidden_characters_test {
namespace {

using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(hidden, plain_ids_hide_nothing) {
  for (const char* id : {"H0301", "größe-東", "O'Brien \"Bob\"", "a b", "-v", "שלום", "a\u3000b",
                         "\xF0\x9F\x90\x8D", "", "\xFF"}) {
    EXPECT_EQ(hidden_in(id), std::nullopt) << id;
  }
}

TEST(hidden, blanks_at_the_ends) {
  EXPECT_EQ(hidden_in(" H1"), "a blank at its beginning");
  EXPECT_EQ(hidden_in("H1 "), "a blank at its end");
  EXPECT_EQ(hidden_in("H1\u00A0"), "a blank at its end");
  EXPECT_EQ(hidden_in("\u3000H1"), "a blank at its beginning");
  EXPECT_EQ(hidden_in(" "), "a blank at its beginning");
}

TEST(hidden, blanks_that_look_like_a_space) {
  EXPECT_EQ(hidden_in("a\u00A0b"), "U+00A0 in it, which looks like a space");
  EXPECT_EQ(hidden_in("a\u2009b"), "U+2009 in it, which looks like a space");
}

TEST(hidden, characters_that_leave_nothing_to_see) {
  for (const char* id :
       {"H1\u200B", "H1\u200C", "H1\u200D", "\uFEFFH1",     "H\u00AD1",     "H1\uFE0F",
        "H1\u2060", "H1\u202A", "H1\u202E", "H1\u2066",     "H1\u2069",     "H1\u200E",
        "H1\u200F", "H1\u061C", "H1\u034F", "H1\u180E",     "H1\u3164",     "H1\u2028",
        "H1\u0085", "H1\x7F",   "H1\t",     "H1\U000E0041", "H1\U000E0100", "H1\u2800"}) {
    ASSERT_TRUE(hidden_in(id)) << id;
    EXPECT_THAT(*hidden_in(id), HasSubstr("does not show"));
  }
  EXPECT_EQ(hidden_in("H1\u200B"), "U+200B in it, which does not show");
  EXPECT_EQ(hidden_in("H1\U000E0041"), "U+E0041 in it, which does not show");
}

TEST(hidden, a_record_names_the_field) {
  AnimalRecord animal;
  animal.id = "H1 ";
  animal.line = "tarn\u200B";
  animal.place.text = "/animals/3";
  EXPECT_THAT(hidden_faults(animal, false), ElementsAre(Field(&Fault::place, "/animals/3/id"),
                                                        Field(&Fault::place, "/animals/3/line")));
  EXPECT_THAT(hidden_faults(animal, true), ElementsAre(Field(&Fault::place, "/animals/3/line")));
  ClutchRecord clutch;
  clutch.id = "C1\u202E";
  clutch.place.text = "rack.csv row 7";
  EXPECT_THAT(hidden_faults(clutch, false),
              ElementsAre(Field(&Fault::place, "rack.csv row 7 column id")));
  ObservationRecord result{"o1", ResultRecord{"H1", "shed", "carrier", "S-1 "}, {}, {}, {}, {}};
  result.place.text = "/observations/0";
  EXPECT_THAT(hidden_faults(result, false),
              ElementsAre(Field(&Fault::place, "/observations/0/sample")));
}

TEST(hidden, a_model_names_each_word) {
  ModelDescription model;
  model.loci = {{"fennglass ", {}, {"+", "e\u200B"}, {{"e/e", {{"look\u00AD", 1.0}}}}, {}, {}}};
  model.origins = {{" bought", {}, {}}};
  model.markers = {{"fleck\u200B", {"absent", "strong "}, {}, {}, {}}};
  model.assays = {{"shed\u200B", "x", {"clear "}, {}, {}, {}}};
  model.scorers = {{"ana ", {}}};
  std::vector<std::string> places;
  for (const Fault& fault : hidden_faults(model)) places.push_back(fault.place);
  EXPECT_THAT(places, ElementsAre("/loci/0/id", "/loci/0/alleles/1", "/loci/0/appearance/e~1e",
                                  "/origins/0/id", "/markers/0/id", "/markers/0/levels/1",
                                  "/assays/0/id", "/assays/0/reports/0", "/scorers/0/id"));
  EXPECT_THAT(hidden_faults(ModelDescription{}), IsEmpty());
}

}  // namespace
}  // namespace likelihet::colony::hidden_characters_test
