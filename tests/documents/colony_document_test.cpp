// Colony documents in and out.
#include <documents/generated.hpp>
#include <documents/samples.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/colony_document.hpp>

namespace likelihet::documents::colony_document_test {
namespace {

using colony::Date;
using colony::Timestamp;

TEST(ColonyDocument, ReadsAnimalsAndClutches) {
  const colony::Records records = value_of(read_colony(sample("colony.json")));
  ASSERT_EQ(records.animals.size(), 3U);
  const colony::AnimalRecord founder{"F01",
                                     genetics::Sex::female,
                                     "bought",
                                     std::nullopt,
                                     "north",
                                     Date::parse("2021-06-30"),
                                     {{"tarnbrook", {{"+/+", 0.34}, {"+/e", 0.66}}, 0.9}},
                                     {}};
  EXPECT_EQ(records.animals[0], founder);
  EXPECT_EQ(records.animals[1].sex, genetics::Sex::male);
  EXPECT_EQ(records.animals[2].clutch, "C03");
  EXPECT_EQ(records.animals[2].sex, std::nullopt);
  const colony::ClutchRecord clutch{"C03",
                                    "F01",
                                    {{"M02", 1.0}},
                                    colony::Paternity::single,
                                    std::nullopt,
                                    "bought",
                                    "north",
                                    Date::parse("2024-04-02"),
                                    Date::parse("2024-06-01"),
                                    7,
                                    {}};
  EXPECT_EQ(records.clutches, std::vector{clutch});
}

TEST(ColonyDocument, ReadsEveryKindOfObservation) {
  const colony::Records records = value_of(read_colony(sample("colony.json")));
  ASSERT_EQ(records.observations.size(), 6U);
  const auto what = [&](std::size_t i) { return records.observations[i].what; };
  EXPECT_EQ(records.observations[0].id, "o1");
  EXPECT_EQ(records.observations[0].on, Date::parse("2024-01-10"));
  EXPECT_EQ(records.observations[0].recorded, std::nullopt);
  EXPECT_EQ(what(0), decltype(what(0))(colony::AppearanceRecord{"F01", "tarnbrook", "plain"}));
  EXPECT_EQ(what(1), decltype(what(1))(colony::ScoreRecord{"H0301", "crown-fleck", "strong",
                                                           std::nullopt, "ana", 0.9, true}));
  EXPECT_EQ(what(2),
            decltype(what(2))(colony::ResultRecord{"H0301", "shed-pcr", "carrier", "S-0091"}));
  EXPECT_EQ(what(3), decltype(what(3))(colony::BroodRecord{
                         "M02", "tarnbrook", "e/e", {{"plain", 7}, {"tarnbrook", 0}}}));
  EXPECT_EQ(what(4), decltype(what(4))(colony::WithdrawalRecord{"o2", "wrong animal"}));
  EXPECT_EQ(records.observations[4].recorded, Timestamp::parse("2024-07-03T18:30:00+02:00"));
  EXPECT_EQ(what(5), decltype(what(5))(colony::ScoreRecord{
                         "H0301", "crown-fleck", std::nullopt, "masked", {}, {}, {}}));
}

TEST(ColonyDocument, PlacesEachRecordByItsPointer) {
  const colony::Records records = value_of(read_colony(sample("colony.json")));
  EXPECT_EQ(records.animals[2].place.text, "/animals/2");
  EXPECT_EQ(records.clutches[0].place.text, "/clutches/0");
  EXPECT_EQ(records.observations[5].place.text, "/observations/5");
}

TEST(ColonyDocument, NeedsOnlyItsFormatAndVersion) {
  EXPECT_EQ(value_of(read_colony(R"({"format":"likelihet-colony","version":1})")),
            colony::Records{});
}

// A record a line, so that a comparison of two exports shows the records that differ.
TEST(ColonyDocument, WritesARecordALine) {
  const colony::Records records = value_of(read_colony(sample("colony.json")));
  const std::string text = write_colony({{records.animals[1], records.animals[2]},
                                         {},
                                         {records.observations[3], records.observations[5]}});
  EXPECT_EQ(text, R"({
  "format": "likelihet-colony",
  "version": 1,
  "animals": [
    {"id":"M02","sex":"male","origin":"bought"},
    {"id":"H0301","clutch":"C03"}
  ],
  "clutches": [],
  "observations": [
    {"id":"o4","kind":"brood","animal":"M02","locus":"tarnbrook","partner":"e/e","offspring":{"plain":7,"tarnbrook":0},"on":"2025-06-20"},
    {"id":"o6","kind":"score","animal":"H0301","marker":"crown-fleck","level":null,"reason":"masked"}
  ]
}
)");
}

TEST(ColonyDocument, WritesTheTimeOfEntryWhereNothingElseDatesAnObservation) {
  colony::ObservationRecord observation;
  observation.id = "o1";
  observation.what = colony::WithdrawalRecord{"o0", std::nullopt};
  observation.entered = Timestamp::parse("2024-07-03T18:30:00Z");
  const auto recorded = [](const colony::ObservationRecord& written) {
    return value_of(read_colony(write_colony({{}, {}, {written}}))).observations.at(0).recorded;
  };
  EXPECT_EQ(recorded(observation), observation.entered);
  observation.on = Date::parse("2024-07-01");
  EXPECT_EQ(recorded(observation), std::nullopt);
  observation.on = std::nullopt;
  observation.recorded = Timestamp::parse("2024-07-02T00:00:00Z");
  EXPECT_EQ(recorded(observation), observation.recorded);
}

RC_GTEST_PROP(ColonyDocument, ReadsBackWhatItWrites, ()) {
  const colony::Records records = generated::records();
  const std::string text = write_colony(records);
  const auto again = read_colony(text);
  RC_ASSERT(faults_of(again) == colony::Faults{});
  RC_ASSERT(std::get<colony::Records>(again) == records);
  RC_ASSERT(write_colony(std::get<colony::Records>(again)) == text);
}

// The largest faults: every record broken, none of them lost but those beyond the first thousand.
TEST(ColonyDocument, ReportsFaultsOfManyRecords) {
  std::string text = R"({"format":"likelihet-colony","version":1,"animals":[{})";
  for (int i = 1; i < 20'000; ++i) text += ",{}";
  const colony::Faults faults = faults_of(read_colony(text + "]}"));
  ASSERT_EQ(faults.size(), 1001U);
  EXPECT_EQ(faults[500].place, "/animals/500");
  EXPECT_EQ(faults[1000].what, "19000 more faults were found");
}

}  // namespace
}  // namespace likelihet::documents::colony_document_test
