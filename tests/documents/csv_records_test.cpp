// Tables of animals, clutches, scores and results.
#include <documents/generated.hpp>
#include <documents/samples.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/csv_records.hpp>

namespace likelihet::documents::csv_records_test {
namespace {

using colony::Date;

colony::Records records_in(const std::string& text, CsvKind kind) {
  return value_of(read_csv_records(text, kind, "rack.csv"));
}

colony::Faults faults_in(const std::string& text, CsvKind kind) {
  return faults_of(read_csv_records(text, kind, "rack.csv"));
}

TEST(CsvKinds, HaveTheirWords) {
  EXPECT_EQ(csv_kind("animals"), CsvKind::animals);
  EXPECT_EQ(csv_kind("clutches"), CsvKind::clutches);
  EXPECT_EQ(csv_kind("scores"), CsvKind::scores);
  EXPECT_EQ(csv_kind("results"), CsvKind::results);
  EXPECT_EQ(csv_kind("Animals"), std::nullopt);
  EXPECT_EQ(csv_kind(""), std::nullopt);
}

TEST(CsvAnimals, AreReadByColumnName) {
  const colony::Records records = records_in(
      "hatched,id,sex,origin,clutch,line\n2021-06-30,F01,Female,bought,,north\n,H1,,,C03,\n",
      CsvKind::animals);
  ASSERT_EQ(records.animals.size(), 2U);
  EXPECT_EQ(
      records.animals[0],
      (colony::AnimalRecord{
          "F01", genetics::Sex::female, "bought", {}, "north", Date::parse("2021-06-30"), {}, {}}));
  EXPECT_EQ(records.animals[1], (colony::AnimalRecord{"H1", {}, {}, "C03", {}, {}, {}, {}}));
  EXPECT_EQ(records.animals[1].place.text, "rack.csv row 3");
  EXPECT_TRUE(records.clutches.empty());
}

TEST(CsvAnimals, OfTheSameParentsAndDayMakeAClutch) {
  const colony::Records records = records_in(
      "id,dam,sire,hatched\nF01,,,\nH1,F01,M02,2024-06-01\nH2,F01,M02,2024-06-01\n"
      "H3,F01,M02,2024-08-20\nH4,F01,,2024-06-01\nH5,,M:2,\n",
      CsvKind::animals);
  ASSERT_EQ(records.clutches.size(), 4U);
  EXPECT_EQ(records.clutches[0], (colony::ClutchRecord{"F01xM02:2024-06-01",
                                                       "F01",
                                                       {{"M02", {}}},
                                                       {},
                                                       {},
                                                       {},
                                                       {},
                                                       {},
                                                       Date::parse("2024-06-01"),
                                                       {},
                                                       {}}));
  EXPECT_EQ(records.clutches[0].place.text, "rack.csv row 3");
  EXPECT_EQ(records.clutches[1].id, "F01xM02:2024-08-20");
  EXPECT_EQ(records.clutches[2].id, "F01x:2024-06-01");
  EXPECT_TRUE(records.clutches[2].sires.empty());
  EXPECT_EQ(records.clutches[3].id, "xM%3A2");
  EXPECT_EQ(records.clutches[3].dam, std::nullopt);
  std::vector<std::optional<std::string>> clutches;
  for (const auto& animal : records.animals) clutches.push_back(animal.clutch);
  EXPECT_EQ(clutches, (std::vector<std::optional<std::string>>{{},
                                                               "F01xM02:2024-06-01",
                                                               "F01xM02:2024-06-01",
                                                               "F01xM02:2024-08-20",
                                                               "F01x:2024-06-01",
                                                               "xM%3A2"}));
}

TEST(CsvClutches, AreRead) {
  const colony::Records records = records_in(
      "id;dam;sires;paternity;dam_origin;sire_origin;line;laid;hatched;eggs\n"
      "C03;F01;M02:0,7 M05:0,3;mixed;;bought;north;2024-04-02;2024-06-01;7\nC04;;;;;;;;;\n",
      CsvKind::clutches);
  ASSERT_EQ(records.clutches.size(), 2U);
  EXPECT_EQ(records.clutches[0], (colony::ClutchRecord{"C03",
                                                       "F01",
                                                       {{"M02", 0.7}, {"M05", 0.3}},
                                                       colony::Paternity::mixed,
                                                       {},
                                                       "bought",
                                                       "north",
                                                       Date::parse("2024-04-02"),
                                                       Date::parse("2024-06-01"),
                                                       7,
                                                       {}}));
  colony::ClutchRecord bare;
  bare.id = "C04";
  EXPECT_EQ(records.clutches[1], bare);
}

TEST(CsvScores, AreReadWithIdsMadeOfTheirContent) {
  const std::string text =
      "animal,marker,level,reason,scorer,sure,blind,on,recorded\n"
      "H1,crown-fleck,strong,,ana,0.9,TRUE,2024-06-11,2024-06-11T18:30:00Z\n"
      "H1,crown-fleck,faint,,ana,,no,2024-06-11,\n"
      "H1,crown-fleck,,masked,,,,,\n";
  const colony::Records records = records_in(text, CsvKind::scores);
  ASSERT_EQ(records.observations.size(), 3U);
  const colony::ObservationRecord& first = records.observations[0];
  EXPECT_EQ(first.id, "score:H1:crown-fleck:ana:2024-06-11");
  EXPECT_EQ(std::get<colony::ScoreRecord>(first.what),
            (colony::ScoreRecord{"H1", "crown-fleck", "strong", {}, "ana", 0.9, true}));
  EXPECT_EQ(first.on, Date::parse("2024-06-11"));
  EXPECT_EQ(first.recorded, colony::Timestamp::parse("2024-06-11T18:30:00Z"));
  EXPECT_EQ(first.place.text, "rack.csv row 2");
  EXPECT_EQ(records.observations[1].id, "score:H1:crown-fleck:ana:2024-06-11:2");
  EXPECT_EQ(std::get<colony::ScoreRecord>(records.observations[1].what).blind, false);
  EXPECT_EQ(records.observations[2].id, "score:H1:crown-fleck::");
  EXPECT_EQ(std::get<colony::ScoreRecord>(records.observations[2].what),
            (colony::ScoreRecord{"H1", "crown-fleck", {}, "masked", {}, {}, {}}));
  EXPECT_EQ(records_in(text, CsvKind::scores), records);
}

TEST(CsvResults, AreRead) {
  const colony::Records records = records_in(
      "id\tanimal\tassay\treport\tsample\ton\no3\tH1\tshed-pcr\tcarrier\tS-0091\t2024-07-02\n"
      "\tH2\tshed:pcr\tclear\t\t\n",
      CsvKind::results);
  ASSERT_EQ(records.observations.size(), 2U);
  EXPECT_EQ(records.observations[0].id, "o3");
  EXPECT_EQ(std::get<colony::ResultRecord>(records.observations[0].what),
            (colony::ResultRecord{"H1", "shed-pcr", "carrier", "S-0091"}));
  EXPECT_EQ(records.observations[1].id, "result:H2:shed%3Apcr::");
}

TEST(CsvRecords, RefuseUnknownAndMissingColumns) {
  EXPECT_EQ(
      faults_in("animal,marker,levle\nH1,m,x\n", CsvKind::scores),
      (colony::Faults{
          {"rack.csv row 1 column levle", "unknown column 'levle'", "did you mean 'level'?"},
          {"rack.csv row 1", "the column 'level' is missing", "add it, with a value a row"}}));
  EXPECT_EQ(faults_in("sex\nmale\n", CsvKind::animals),
            (colony::Faults{
                {"rack.csv row 1", "the column 'id' is missing", "add it, with a value a row"}}));
}

TEST(CsvRecords, RefuseIdsThatASpreadsheetChanged) {
  const auto fault = [](const std::string& row, const std::string& column, const std::string& id,
                        const std::string& became) {
    return colony::Fault{"rack.csv row " + row + " column " + column,
                         "'" + id + "' looks like an id that a spreadsheet turned into " + became,
                         "format the column as text, and write the id again"};
  };
  EXPECT_EQ(
      faults_in("id,dam,sire\n3-Feb,F01,M02\nH2,Feb-24,1.2E+05\n", CsvKind::animals),
      (colony::Faults{fault("2", "id", "3-Feb", "a date"), fault("3", "dam", "Feb-24", "a date"),
                      fault("3", "sire", "1.2E+05", "a number")}));
  EXPECT_EQ(faults_in("id,clutch\nH1,2024-02-07\n", CsvKind::animals),
            (colony::Faults{fault("2", "clutch", "2024-02-07", "a date")}));
  EXPECT_EQ(faults_in("id,sires\nC1,3. Feb\nC2,2/7/2024:1\n", CsvKind::clutches),
            (colony::Faults{fault("2", "sires", "3. Feb", "a date"),
                            fault("3", "sires", "2/7/2024", "a date")}));
  EXPECT_EQ(faults_in("animal,marker,level\n03.02.2024,m,1.2E+05\n", CsvKind::scores),
            (colony::Faults{fault("2", "animal", "03.02.2024", "a date")}));
}

TEST(CsvRecords, NameRowAndColumnOfEachFault) {
  EXPECT_EQ(
      faults_in("id,sex,hatched,clutch,dam\n,femle,30.06.2021,,\nF02 ,,2023-02-29,C1,F01\n",
                CsvKind::animals),
      (colony::Faults{
          {"rack.csv row 2 column id", "the cell is empty", "every row needs one: fill it in"},
          {"rack.csv row 2 column sex", "unknown sex 'femle'", "did you mean 'female'?"},
          {"rack.csv row 2 column hatched", "'30.06.2021' is not a day of the calendar",
           "write year-month-day, such as 2024-06-30 (ISO 8601); day and month in another order "
           "are "
           "not guessed"},
          {"rack.csv row 3 column id", "'F02 ' has a space at its beginning or end",
           "remove the space"},
          {"rack.csv row 3 column hatched", "'2023-02-29' is not a day of the calendar",
           "write year-month-day, such as 2024-06-30 (ISO 8601); day and month in another order "
           "are "
           "not guessed"},
          {"rack.csv row 3 column clutch", "a clutch is named beside a dam or sire",
           "name the clutch, or its dam and sire"}}));
  EXPECT_EQ(
      faults_in("animal,marker,level,sure,blind,recorded\nH1,,x,95%,perhaps,2024-06-11 18:30\n",
                CsvKind::scores),
      (colony::Faults{
          {"rack.csv row 2 column marker", "the cell is empty", "every row needs one: fill it in"},
          {"rack.csv row 2 column sure", "'95%' is not a number", "write it like 0.9"},
          {"rack.csv row 2 column blind", "unknown blind 'perhaps'",
           "known are 'true', 'false', 'yes', 'no', '1', '0'"},
          {"rack.csv row 2 column recorded",
           "'2024-06-11 18:30' is not a date and time with its offset",
           "write it like 2024-07-03T18:30:00Z (RFC 3339)"}}));
  EXPECT_EQ(faults_in("id;sires;eggs\nC1;M02:x;6,5\n", CsvKind::clutches),
            (colony::Faults{{"rack.csv row 2 column sires", "'M02:x' is not a list of sires",
                             "write ids with their shares, such as M02:0.7 M05:0.3"},
                            {"rack.csv row 2 column eggs", "'6,5' is not a count",
                             "write a whole number from 0"}}));
}

TEST(CsvRecords, AreWrittenWithTheirFieldNames) {
  colony::Records records;
  records.animals.push_back({"F01", genetics::Sex::female, "bought", {}, {}, {}, {}, {}});
  records.clutches.push_back({"C1", "F01", {{"M 2", 0.5}}, {}, {}, {}, {}, {}, {}, 7, {}});
  colony::ObservationRecord score;
  score.id = "=o1";
  score.what = colony::ScoreRecord{"F01", "m", {}, "stuck, shed", {}, 0.1, false};
  score.entered = colony::Timestamp::parse("2024-06-11T18:30:00Z");
  records.observations.push_back(score);
  EXPECT_EQ(write_csv_records(records, CsvKind::animals),
            "id,sex,origin,clutch,line,hatched\r\nF01,female,bought,,,\r\n");
  EXPECT_EQ(write_csv_records(records, CsvKind::clutches),
            "id,dam,sires,paternity,dam_origin,sire_origin,line,laid,hatched,eggs\r\n"
            "C1,F01,\"\"\"M 2\"\":0.5\",,,,,,,7\r\n");
  EXPECT_EQ(write_csv_records(records, CsvKind::scores),
            "id,animal,marker,level,reason,scorer,sure,blind,on,recorded\r\n"
            "'=o1,F01,m,,\"stuck, shed\",,0.1,false,,2024-06-11T18:30:00Z\r\n");
  EXPECT_EQ(write_csv_records(records, CsvKind::results),
            "id,animal,assay,report,sample,on,recorded\r\n");
}

RC_GTEST_PROP(CsvRecords, ReadBackWhatIsWritten, ()) {
  const colony::Records records = generated::table_records();
  const auto again = [&](CsvKind kind) {
    const auto read = read_csv_records(write_csv_records(records, kind), kind, "t.csv");
    RC_ASSERT(faults_of(read) == colony::Faults{});
    return std::get<colony::Records>(read);
  };
  RC_ASSERT(again(CsvKind::animals).animals == records.animals);
  RC_ASSERT(again(CsvKind::clutches).clutches == records.clutches);
  std::vector<colony::ObservationRecord> scores, results;
  for (const auto& observation : records.observations) {
    (std::holds_alternative<colony::ScoreRecord>(observation.what) ? scores : results)
        .push_back(observation);
  }
  RC_ASSERT(again(CsvKind::scores).observations == scores);
  RC_ASSERT(again(CsvKind::results).observations == results);
}

}  // namespace
}  // namespace likelihet::documents::csv_records_test
