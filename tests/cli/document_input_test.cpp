// Files as a keeper names them: documents, tables told by their columns, and what is neither.
#include "document_input.hpp"

#include <cstdlib>
#include <string>

#include "change_output.hpp"
#include "failure.hpp"
#include "input_file.hpp"
#include <fcntl.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/keeper.hpp>
#include <sys/stat.h>

namespace likelihet::cli::document_input_test {
namespace {

using documents::CsvKind;

colony::Records records_in(const std::string& text, const std::string& name,
                           std::optional<CsvKind> kind = std::nullopt) {
  return std::get<colony::Records>(imported(text, name, kind));
}

template <class Act>
colony::Fault fault_of(Act act) {
  try {
    act();
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.status(), ExitStatus::input);
    return failure.faults().front();
  }
  return {"", "no fault", ""};
}

constexpr const char* colony_text =
    R"({"format":"likelihet-colony","version":1,"animals":[{"id":"F"}],"clutches":[],
        "observations":[]})";

TEST(Imported, IsADocumentWhateverItsName) {
  EXPECT_EQ(records_in(colony_text, "colony.json").animals.size(), 1U);
  EXPECT_EQ(records_in(colony_text, "colony").animals.size(), 1U);
  EXPECT_EQ(records_in(colony_text, "-").animals.size(), 1U);
}

TEST(Imported, IsAModelWhereItSaysSo) {
  const auto read = imported(
      R"({"format":"likelihet-model","version":1,"loci":[{"id":"tarnbrook","alleles":["+","e"]}]})",
      "m.json", std::nullopt);
  EXPECT_EQ(std::get<colony::Model>(read).loci().size(), 1U);
}

TEST(Imported, TellsTablesByTheirColumns) {
  EXPECT_EQ(records_in("animal,marker,level\nH,fleck,clear\n", "rack.csv").observations.size(), 1U);
  EXPECT_EQ(records_in("animal,assay,report\nH,pcr,clear\n", "lab.CSV").observations.size(), 1U);
  EXPECT_EQ(records_in("id,sires\nC,M\n", "c.csv").clutches.size(), 1U);
  EXPECT_EQ(records_in("id,sex\nF,female\n", "a.csv").animals.size(), 1U);
  EXPECT_EQ(records_in("id\tsex\nF\tmale\n", "a.tsv").animals.size(), 1U);
  EXPECT_EQ(records_in("id,sex\nF,female\n", "-").animals.size(), 1U) << "standard input";
}

TEST(Imported, IsTheTableThatIsSaid) {
  EXPECT_EQ(records_in("id\nC\n", "things.txt", CsvKind::clutches).clutches.size(), 1U);
  EXPECT_EQ(records_in("id\nC\n", "things.txt", CsvKind::animals).animals.size(), 1U);
}

TEST(Imported, RefusesATableOfUnknownColumns) {
  const auto fault = fault_of([] { imported("name,colour\nF,red\n", "x.csv", std::nullopt); });
  EXPECT_EQ(fault.place, "x.csv row 1");
  EXPECT_EQ(fault.what, "the columns do not tell what the rows are");
  EXPECT_NE(fault.mend.find("--as animals"), std::string::npos);
}

TEST(Imported, NamesStandardInput) {
  const auto fault =
      fault_of([] { imported("animal,marker,level\n,fleck,clear\n", "-", std::nullopt); });
  EXPECT_TRUE(fault.place.starts_with("standard input row 2")) << fault.place;
}

TEST(Imported, RefusesWhatIsNeither) {
  for (const char* text : {"", "hello", "[]", "{\"format\":\"other\",\"version\":1}"}) {
    EXPECT_NE(fault_of([&] { imported(text, "x.json", std::nullopt); }).what, "no fault") << text;
  }
}

TEST(ReadInput, ReadsWholeFiles) {
  const support::Keeper keeper;
  EXPECT_EQ(read_input(keeper.file("empty", "")), "");
  std::string long_text(200'000, 'x');
  long_text[100'000] = '\0';
  EXPECT_EQ(read_input(keeper.file("long", long_text)), long_text);
}

TEST(ReadInput, RefusesWhatIsNoFileAndNeverWaits) {
  const support::Keeper keeper;
  EXPECT_NE(fault_of([&] { read_input(keeper.path("")); }).what.find("is a folder"),
            std::string::npos);
  EXPECT_NE(fault_of([&] { read_input(keeper.path("none")); }).what.find("cannot be read"),
            std::string::npos);
  EXPECT_NE(fault_of([] { read_input("/dev/null"); }).what.find("is a device"), std::string::npos);
  ASSERT_EQ(mkfifo(keeper.path("pipe").c_str(), 0600), 0);
  EXPECT_NE(fault_of([&] { read_input(keeper.path("pipe")); }).what.find("is a pipe"),
            std::string::npos);
}

TEST(ChangeText, TellsWhatWasDone) {
  ChangeTold told;
  EXPECT_EQ(change_text(told), "nothing to change");
  told.change.animals_added = 4;
  told.change.clutches_added = 1;
  told.change.unchanged = 2;
  EXPECT_EQ(change_text(told), "4 animals and 1 clutch added; 2 records already there");
  told.change.observations_added = 1;
  told.change.clutches_completed = 2;
  told.change.unchanged = 0;
  told.written = false;
  EXPECT_EQ(change_text(told),
            "4 animals, 1 clutch and 1 observation added; 2 clutches completed (a dry run: nothing "
            "was written)");
  ChangeTold model;
  model.change.model_replaced = true;
  EXPECT_EQ(change_text(model), "model replaced");
}

TEST(ChangeJson, HasMovesOnlyWhereOddsWereComputed) {
  ChangeTold told;
  told.observation = "o7";
  auto document = nlohmann::json::parse(change_json(told));
  EXPECT_EQ(document["observation"], "o7");
  EXPECT_FALSE(document.contains("moved"));
  told.moves = MovesTold{{{"H", "tarnbrook", "e", 0.25, 0.5, false, false}}, std::nullopt};
  document = nlohmann::json::parse(change_json(told));
  EXPECT_EQ(document["moved"][0]["after"], 0.5);
  EXPECT_TRUE(document["surprise"].is_null());
}

TEST(Counted, HasASingularAndNone) {
  EXPECT_EQ(counted(0, "animal", "animals"), "no animals");
  EXPECT_EQ(counted(1, "animal", "animals"), "1 animal");
  EXPECT_EQ(counted(2, "animal", "animals"), "2 animals");
}

}  // namespace
}  // namespace likelihet::cli::document_input_test
