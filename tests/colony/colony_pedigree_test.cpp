// Animals and clutches: what resolves, and every fault of a pedigree with its place.
#include <functional>
#include <limits>
#include <ostream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/faults.hpp>
#include <support/small_model.hpp>

namespace likelihet::colony::colony_pedigree_test {
namespace {

using namespace likelihet::colony;
using namespace likelihet::support;
using likelihet::genetics::Chromosome;
using likelihet::genetics::Sex;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

// A founder pair, a second male, a clutch of two.
RecordsBuilder family() {
  RecordsBuilder builder;
  builder.founder("F01", Sex::female, "bought")
      .founder("M02", std::nullopt, "bought")
      .founder("M03")
      .clutch("C03", "F01", {"M02"})
      .hatchling("H1", "C03")
      .hatchling("H2", "C03");
  builder.records.animals[0].hatched = day("2020-06-01");
  builder.clutch_record().laid = day("2024-04-02");
  builder.clutch_record().hatched = day("2024-06-01");
  builder.clutch_record().eggs = 2;
  return builder;
}

std::shared_ptr<const Model> tarnbrook() {
  return made(recessive_model());
}

TEST(Pedigree, ResolvesAnimalsAndClutches) {
  const Colony colony = colony_of(tarnbrook(), family().records);
  EXPECT_EQ(colony.find_animal("H1"), 3U);
  EXPECT_EQ(colony.find_animal("h1"), std::nullopt);
  EXPECT_EQ(colony.find_clutch("C03"), 0U);
  EXPECT_EQ(colony.find_observation("o1"), std::nullopt);
  const Clutch& clutch = colony.clutches()[0];
  EXPECT_EQ(clutch.dam, 0U);
  ASSERT_EQ(clutch.sires.size(), 1U);
  EXPECT_EQ(clutch.sires[0].animal, 1U);
  EXPECT_EQ(clutch.sires[0].share, 1.0);
  EXPECT_EQ(clutch.paternity, Paternity::single);
  EXPECT_EQ(clutch.hatchlings, (std::vector<std::size_t>{3, 4}));
  EXPECT_EQ(colony.animals()[0].origin, 0U);
  EXPECT_EQ(colony.animals()[3].clutch, 0U);
}

TEST(Pedigree, TakesSexFromAnAnimalsPart) {
  RecordsBuilder builder = family();
  builder.clutch("C04", "H1", {"M02", "M03"});
  builder.clutch_record().sires[1].share = 0.0;
  const Colony colony = colony_of(tarnbrook(), builder.records);
  EXPECT_EQ(colony.animals()[1].sex, Sex::male);
  EXPECT_EQ(colony.animals()[2].sex, Sex::male);  // a candidate, even one ruled out
  EXPECT_EQ(colony.animals()[3].sex, Sex::female);
  EXPECT_EQ(colony.animals()[4].sex, std::nullopt);
}

TEST(Pedigree, TakesDateAndLineFromTheClutch) {
  RecordsBuilder builder = family();
  builder.clutch_record().line = "old";
  builder.records.animals[3].line = "own";
  builder.records.animals[3].hatched = day("2024-06-03");
  const Colony colony = colony_of(tarnbrook(), builder.records);
  EXPECT_EQ(colony.animals()[3].line, "own");
  EXPECT_EQ(colony.animals()[3].hatched, day("2024-06-03"));
  EXPECT_EQ(colony.animals()[4].line, "old");
  EXPECT_EQ(colony.animals()[4].hatched, day("2024-06-01"));
  EXPECT_EQ(colony.animals()[2].line, "");
}

TEST(Pedigree, NormalisesSharesAndDropsASireWithNone) {
  RecordsBuilder builder = family();
  builder.founder("M04").clutch("C04", "F01", {"M02", "M03", "M04"});
  builder.clutch_record().sires[0].share = 3.0;
  builder.clutch_record().sires[1].share = 0.0;
  builder.clutch_record().paternity = Paternity::mixed;
  const Colony colony = colony_of(tarnbrook(), builder.records);
  const Clutch& clutch = colony.clutches()[1];
  ASSERT_EQ(clutch.sires.size(), 2U);
  EXPECT_EQ(clutch.sires[0].share, 0.75);
  EXPECT_EQ(clutch.sires[1].animal, *colony.find_animal("M04"));
  EXPECT_EQ(clutch.sires[1].share, 0.25);
  EXPECT_EQ(clutch.paternity, Paternity::mixed);
}

TEST(Pedigree, NormalisesSharesThatWouldOverflow) {
  RecordsBuilder builder = family();
  builder.clutch("C04", "F01", {"M02", "M03"});
  for (SireRecord& sire : builder.clutch_record().sires) sire.share = 1.5e308;
  EXPECT_EQ(colony_of(tarnbrook(), builder.records).clutches()[1].sires[0].share, 0.5);
}

TEST(Pedigree, LeavesAnonymousParentsToTheirOrigins) {
  RecordsBuilder builder;
  builder.clutch("C1", std::nullopt, {}).hatchling("H1", "C1");
  builder.clutch_record().dam_origin = "bought";
  const Colony colony = colony_of(tarnbrook(), builder.records);
  EXPECT_EQ(colony.clutches()[0].dam, std::nullopt);
  EXPECT_TRUE(colony.clutches()[0].sires.empty());
  EXPECT_EQ(colony.clutches()[0].dam_origin, 0U);
  EXPECT_EQ(colony.clutches()[0].sire_origin, std::nullopt);
}

TEST(Pedigree, AllowsWhatIsRareButPossible) {
  RecordsBuilder builder = family();
  builder.records.animals[3].hatched = day("2024-07-01");  // 30 days after its clutch
  builder.clutch_record().eggs.reset();
  builder.clutch("C04", "F01", {"M02"});  // a live-bearer's litter: laid and hatched on one day
  builder.clutch_record().laid = builder.clutch_record().hatched = day("2025-06-01");
  builder.clutch("C05", "H1", {"M02"});  // backcross to the sire
  EXPECT_EQ(told(faults_of(tarnbrook(), builder.records)), "");
  EXPECT_EQ(told(faults_of(tarnbrook(), Records{})), "");
}

TEST(Pedigree, KeepsBoughtAsInStateOrder) {
  RecordsBuilder builder = family();
  builder.records.animals[0].bought_as = {{"tarnbrook", {{"+/e", 0.66}, {"+/+", 0.34}}, 0.9}};
  const Colony colony = colony_of(tarnbrook(), builder.records);
  ASSERT_EQ(colony.animals()[0].bought_as.size(), 1U);
  EXPECT_EQ(colony.animals()[0].bought_as[0].odds, (std::vector<double>{0.34, 0.66, 0}));
  EXPECT_EQ(colony.animals()[0].bought_as[0].trust, 0.9);
}

TEST(Pedigree, NeedsAModel) {
  EXPECT_THROW(Colony::make(nullptr, Records{}), std::invalid_argument);
}

// One change that spoils the family, and the one fault that it must lead to.
struct Spoilt {
  const char* name;
  std::function<void(RecordsBuilder&)> spoil;
  std::string place, what, mend;
  friend void PrintTo(const Spoilt& spoilt, std::ostream* out) { *out << spoilt.name; }
};

class PedigreeFault : public testing::TestWithParam<Spoilt> {};

TEST_P(PedigreeFault, IsToldOnceWithItsPlace) {
  RecordsBuilder builder = family();
  GetParam().spoil(builder);
  const Faults faults = faults_of(tarnbrook(), builder.records);
  EXPECT_THAT(faults, one_fault(GetParam().place, GetParam().what, GetParam().mend))
      << told(faults);
}

using B = RecordsBuilder;

const std::vector<Spoilt> spoilt_animals = {
    {"EmptyId", [](B& b) { b.founder(""); }, "/animals/5/id", "is empty", "1 to 200"},
    {"ControlInId", [](B& b) { b.founder("a\tb"); }, "/animals/5/id", "'a\\x09b'", "control"},
    {"AnimalTwice", [](B& b) { b.founder("F01"); }, "/animals/5/id",
     "'F01' is that of another record too: /animals/0", "an id of its own"},
    {"ClutchTwice", [](B& b) { b.clutch("C03", "F01", {}); }, "/clutches/1/id", "'C03'",
     "an id of its own"},
    {"UnknownClutch", [](B& b) { b.hatchling("H3", "C3"); }, "/animals/5/clutch", "'C3'",
     "did you mean 'C03'?"},
    {"UnknownOrigin", [](B& b) { b.founder("F9", {}, "baught"); }, "/animals/5/origin", "'baught'",
     "did you mean 'bought'?"},
    {"OriginOfAHatchling", [](B& b) { b.animal().origin = "bought"; }, "/animals/4/origin",
     "hatched in clutch 'C03'", "leave it out"},
    {"HatchlingBoughtAs",
     [](B& b) {
       b.animal().bought_as = {{"tarnbrook", {{"+/e", 1}}, {}}};
     },
     "/animals/4/bought_as", "hatched in clutch 'C03'", "leave it out"},
    {"ControlInLine", [](B& b) { b.animal().line = "old\nline"; }, "/animals/4/line",
     "'old\\x0Aline'", "control"},
    {"LocusBought",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrok", {{"+/e", 1}}, {}}};
     },
     "/animals/0/bought_as/0/locus", "'tarnbrok'", "did you mean 'tarnbrook'?"},
    {"LocusBoughtTwice",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrook", {{"+/e", 1}}, {}},
                                         {"tarnbrook", {{"+/e", 1}}, {}}};
     },
     "/animals/0/bought_as/1/locus", "two bought_as", "one a locus"},
    {"KeyBought",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrook", {{"e/+", 0.5}, {"+/+", 0.5}}, {}}};
     },
     "/animals/0/bought_as/0/odds/e~1+", "'e/+'", "write '+/e'"},
    {"NegativeOdds",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrook", {{"+/e", -1}, {"+/+", 2}}, {}}};
     },
     "/animals/0/bought_as/0/odds/+~1e", "-1", "0 or more"},
    {"OddsNotANumber",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrook", {{"+/e", nan}}, {}}};
     },
     "/animals/0/bought_as/0/odds/+~1e", "nan", "finite"},
    {"OddsSum",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrook", {{"+/e", 0.66}}, {}}};
     },
     "/animals/0/bought_as/0/odds", "sum to 0.66", "sum to 1"},
    {"Trust",
     [](B& b) {
       b.records.animals[0].bought_as = {{"tarnbrook", {{"+/e", 1}}, 1.1}};
     },
     "/animals/0/bought_as/0/trust", "1.1", "from 0 to 1"},
};

const std::vector<Spoilt> spoilt_clutches = {
    {"UnknownDam", [](B& b) { b.clutch_record().dam = "F1"; }, "/clutches/0/dam", "'F1'",
     "did you mean 'F01'?"},
    {"UnknownSire", [](B& b) { b.clutch_record().sires[0].id = "M002"; }, "/clutches/0/sires/0/id",
     "'M002'", "did you mean 'M02'?"},
    {"SireTwice",
     [](B& b) {
       b.clutch_record().sires.push_back({"M02", 0.5});
     },
     "/clutches/0/sires/1/id", "listed twice", "once"},
    {"NegativeShare", [](B& b) { b.clutch_record().sires[0].share = -1; },
     "/clutches/0/sires/0/share", "-1", "0 or more"},
    {"ShareNotANumber", [](B& b) { b.clutch_record().sires[0].share = nan; },
     "/clutches/0/sires/0/share", "nan", "finite"},
    {"NoShare", [](B& b) { b.clutch_record().sires[0].share = 0; }, "/clutches/0/sires", "sum to 0",
     "above 0"},
    {"DamOriginOfADam", [](B& b) { b.clutch_record().dam_origin = "bought"; },
     "/clutches/0/dam_origin", "the dam is named", "unknown dam"},
    {"SireOriginOfASire", [](B& b) { b.clutch_record().sire_origin = "bought"; },
     "/clutches/0/sire_origin", "sires are named", "unknown sire"},
    {"UnknownDamOrigin",
     [](B& b) {
       b.clutch("C4", std::nullopt, {});
       b.clutch_record().dam_origin = "bougt";
     },
     "/clutches/1/dam_origin", "'bougt'", "did you mean 'bought'?"},
    {"MaleDam", [](B& b) { b.records.animals[0].sex = Sex::male; }, "/clutches/0/dam",
     "'F01' is recorded as male", "a dam is female"},
    {"FemaleSire", [](B& b) { b.records.animals[1].sex = Sex::female; }, "/clutches/0/sires/0/id",
     "'M02' is recorded as female", "a sire is male"},
    {"DamAndSire", [](B& b) { b.clutch("C04", "M02", {"M03"}); }, "/clutches/1/dam",
     "'M02' is the dam of clutch 'C04' and the sire of clutch 'C03'", "correct one"},
    {"NegativeEggs", [](B& b) { b.clutch_record().eggs = -1; }, "/clutches/0/eggs", "-1",
     "0 or more"},
    {"MoreHatchlingsThanEggs", [](B& b) { b.clutch_record().eggs = 1; }, "/clutches/0/eggs",
     "is 1, but 2 hatchlings", "at least as many"},
    {"LaidAfterHatched", [](B& b) { b.clutch_record().laid = day("2024-06-02"); },
     "/clutches/0/laid", "2024-06-02, after it hatched on 2024-06-01", "correct"},
    {"HatchedFarFromItsClutch", [](B& b) { b.animal().hatched = day("2024-07-02"); },
     "/animals/4/hatched", "2024-07-02, but its clutch 'C03' on 2024-06-01", "30 days"},
    {"HatchedBeforeItWasLaid",
     [](B& b) {
       b.clutch_record().laid = day("2024-05-20");
       b.animal().hatched = day("2024-05-19");
     },
     "/animals/4/hatched", "before its clutch 'C03' was laid on 2024-05-20", "correct"},
    {"DamAsOldAsItsClutch", [](B& b) { b.records.animals[0].hatched = day("2024-04-02"); },
     "/clutches/0/dam", "'F01' hatched on 2024-04-02, but its clutch 'C03' was laid on 2024-04-02",
     "older"},
    {"SireYoungerThanAnUnlaidClutch",
     [](B& b) {
       b.clutch_record().laid.reset();
       b.records.animals[1].hatched = day("2024-06-02");
     },
     "/clutches/0/sires/0/id", "its clutch 'C03' hatched on 2024-06-01", "older"},
    {"DamOutOfALaterClutch",
     [](B& b) {
       b.clutch("C04", "H1", {"M02"});
       b.clutch_record().laid = day("2024-05-01");
     },
     "/clutches/1/dam", "'H1' hatched on 2024-06-01", "older"},
    {"OwnParent",
     [](B& b) {
       b.clutch_record().dam = "H1";
       b.clutch_record().laid.reset();
       b.clutch_record().hatched.reset();
     },
     "/animals/3/clutch", "'H1' is its own parent", "correct"},
};

std::string name_of(const testing::TestParamInfo<Spoilt>& info) {
  return info.param.name;
}
INSTANTIATE_TEST_SUITE_P(Animals, PedigreeFault, testing::ValuesIn(spoilt_animals), name_of);
INSTANTIATE_TEST_SUITE_P(Clutches, PedigreeFault, testing::ValuesIn(spoilt_clutches), name_of);

TEST(PedigreeFaults, ListTheAnimalsOfACircleOnce) {
  RecordsBuilder builder;
  builder.hatchling("A", "Ca").hatchling("B", "Cb").hatchling("C", "Cc").hatchling("A2", "Ca");
  builder.clutch("Ca", "B", {}).clutch("Cb", std::nullopt, {"C"}).clutch("Cc", "A", {});
  const Faults faults = faults_of(tarnbrook(), builder.records);
  EXPECT_THAT(faults,
              one_fault("/animals/0/clutch", "'A' out of 'B' out of 'C' out of 'A'", "correct"))
      << told(faults);
}

TEST(PedigreeFaults, TellTwoCirclesApart) {
  RecordsBuilder builder;
  builder.hatchling("A", "Ca").hatchling("B", "Cb").hatchling("C", "Cc").hatchling("D", "Cd");
  builder.clutch("Ca", "B", {}).clutch("Cb", std::nullopt, {"A"});
  builder.clutch("Cc", "D", {}).clutch("Cd", std::nullopt, {"C"});
  EXPECT_THAT(places(faults_of(tarnbrook(), builder.records)),
              ElementsAre("/animals/0/clutch", "/animals/2/clutch"));
}

TEST(PedigreeFaults, StandInTheColumnsOfATable) {
  RecordsBuilder builder = family();
  builder.animal().clutch = "C30";
  builder.animal().place.text = "rack.csv row 7";
  builder.clutch_record().sires[0].id = "M002";
  builder.clutch_record().place.text = "book: clutch C03";
  EXPECT_THAT(places(faults_of(tarnbrook(), builder.records)),
              ElementsAre("rack.csv row 7 column clutch", "book: clutch C03, sires 0 id"));
}

TEST(PedigreeFaults, AreAllToldAndDoNotSpread) {
  RecordsBuilder builder = family();
  builder.records.animals[0].origin = "nowhere";
  builder.clutch_record().sires[0].id = "nobody";
  builder.clutch_record().eggs = 1;
  builder.animal().sex = Sex::female;
  builder.clutch("C04", "F01", {"H2"});
  EXPECT_THAT(places(faults_of(tarnbrook(), builder.records)),
              ElementsAre("/animals/0/origin", "/clutches/0/sires/0/id", "/clutches/0/eggs",
                          "/clutches/1/sires/0/id"));
}

// On a sex chromosome the keys of the other sex are no fault, as long as some remain.
TEST(BoughtAs, FitsTheSexesThatAnAnimalCanHave) {
  const auto model = made(sex_linked_model(Chromosome::z));
  const auto faults = [&](std::optional<Sex> sex, Named<double> odds) {
    RecordsBuilder builder;
    builder.founder("F", sex);
    builder.animal().bought_as = {{"tarnbrook", std::move(odds), std::nullopt}};
    return faults_of(model, builder.records);
  };
  EXPECT_EQ(told(faults(Sex::female, {{"+/W", 0.3}, {"e/W", 0.3}, {"+/e", 1}})), "");
  EXPECT_EQ(told(faults(std::nullopt, {{"+/W", 0.3}})), "");
  EXPECT_EQ(told(faults(Sex::male, {{"+/e", 2}, {"+/W", 0}})), "");
  EXPECT_THAT(faults(Sex::female, {{"+/e", 1}}),
              one_fault("/animals/0/bought_as/0/odds", "none of these genotypes", "a female's"));
  EXPECT_THAT(faults(std::nullopt, {{"+/e", 0}, {"+/W", 1}}),
              one_fault("/animals/0/bought_as/0/odds", "a male's genotypes sum to 0", "more than"));
  EXPECT_THAT(faults(Sex::male, {}),
              one_fault("/animals/0/bought_as/0/odds", "there are no odds", "at least one"));
}

// Offspring born after their parents can make no circle, whoever the parents are; shares sum to 1.
RC_GTEST_PROP(PedigreeProperty, AcceptsEveryPedigreeInOrderOfBirth, ()) {
  RecordsBuilder builder;
  builder.founder("D0", Sex::female).founder("S0", Sex::male);
  std::vector<std::string> dams = {"D0"}, sires = {"S0"};
  const int clutches = *rc::gen::inRange(0, 12);
  for (int c = 0; c < clutches; ++c) {
    const std::string id = std::to_string(c + 1);
    std::vector<std::string> fathers = {*rc::gen::elementOf(sires)};
    const auto second = *rc::gen::elementOf(sires);
    if (second != fathers[0]) fathers.push_back(second);
    builder.clutch("C" + id, *rc::gen::elementOf(dams), fathers);
    for (SireRecord& sire : builder.clutch_record().sires) {
      sire.share = *rc::gen::inRange(1, 9);
    }
    builder.hatchling("D" + id, "C" + id).hatchling("S" + id, "C" + id);
    dams.push_back("D" + id);
    sires.push_back("S" + id);
  }
  const Colony colony = colony_of(tarnbrook(), builder.records);
  for (const Clutch& clutch : colony.clutches()) {
    double sum = 0;
    for (const Sire& sire : clutch.sires) sum += sire.share;
    RC_ASSERT(std::abs(sum - 1) < 1e-12);
    RC_ASSERT(clutch.hatchlings.size() == 2U);
    RC_ASSERT(colony.animals()[*clutch.dam].sex == Sex::female);
  }
}

// Closing any line of descent into a ring is found, whatever its length.
RC_GTEST_PROP(PedigreeProperty, FindsARingOfAnyLength, ()) {
  const int length = *rc::gen::inRange(1, 30);
  RecordsBuilder builder;
  for (int i = 0; i < length; ++i) {
    const std::string id = std::to_string(i);
    builder.hatchling("H" + id, "C" + id);
    builder.clutch("C" + id, "H" + std::to_string((i + 1) % length), {});
  }
  const Faults faults = faults_of(tarnbrook(), builder.records);
  RC_ASSERT(faults.size() == 1U);
  RC_ASSERT(faults[0].place == "/animals/0/clutch");
}

}  // namespace
}  // namespace likelihet::colony::colony_pedigree_test
