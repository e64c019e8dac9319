// What `audit` prints for programs: numbers that round-trip, ids as they are, fields of the
// contract.
#include <cmath>
#include <map>

#include "support/keeper.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <likelihet/documents/csv_table.hpp>

namespace likelihet::cli::audit_output_test {
namespace {

using nlohmann::json;
using support::Keeper;
using testing::HasSubstr;

std::string source(const std::string& path) {
  return std::string(LIKELIHET_SOURCE_DIR) + "/" + path;
}

class Audited : public testing::Test {
 protected:
  void SetUp() override {
    book_ = keeper_.path("demo.book");
    ASSERT_EQ(Keeper::run({"init", book_, "--model", source("models/demo/model.json")}).status(),
              ExitStatus::done);
    ASSERT_EQ(Keeper::run({"import", book_, source("models/demo/colony.json")}).status(),
              ExitStatus::done);
  }
  /// What the audit prints; worked out once for all tests, as each has the same records.
  [[nodiscard]] const std::string& audit(const std::vector<std::string>& options) const {
    static std::map<std::vector<std::string>, std::string> known;
    const auto found = known.find(options);
    return found != known.end() ? found->second
                                : known.emplace(options, audited(options)).first->second;
  }
  [[nodiscard]] std::string audited(std::vector<std::string> options) const {
    options.insert(options.begin(), {"audit", book_, "--resamples", "40"});
    const auto ended = Keeper::run(options);
    EXPECT_EQ(ended.status(), ExitStatus::done);
    return ended.output;
  }
  Keeper keeper_;
  std::string book_;
};

TEST_F(Audited, DocumentHasTheFieldsOthersRelyOn) {
  const auto document = json::parse(audit({"--json"}));
  EXPECT_EQ(document["format"], "likelihet-audit");
  EXPECT_EQ(document["version"], 1);
  ASSERT_FALSE(document["forecasts"].empty());
  for (const auto& forecast : document["forecasts"]) {
    for (const char* field :
         {"animal", "locus", "on", "basis", "scheme", "probability", "outcome"}) {
      EXPECT_TRUE(forecast.contains(field)) << field;
    }
    EXPECT_GE(forecast["probability"], 0);
    EXPECT_LE(forecast["probability"], 1);
    EXPECT_TRUE(forecast["outcome"] == 0 || forecast["outcome"] == 1);
    EXPECT_LT(forecast["on"], forecast["known_on"]);
  }
  for (const auto& score : document["scores"]) {
    for (const char* field : {"basis", "scheme", "score", "value", "interval"}) {
      EXPECT_TRUE(score.contains(field)) << field;
    }
  }
  for (const auto& marker : document["markers"]) {
    for (const char* field : {"marker", "context", "verdict"}) {
      EXPECT_TRUE(marker.contains(field)) << field;
    }
  }
}

TEST_F(Audited, TheFirstScoresAreThoseOfAllKindsTogether) {
  const auto document = json::parse(audit({"--json"}));
  EXPECT_EQ(document["scores"][0]["outcomes"], "all");
  EXPECT_TRUE(document["scores"][0]["locus"].is_null());
}

TEST_F(Audited, TableAndDocumentHoldTheSameNumbers) {
  const auto document = json::parse(audit({"--json"}));
  const auto read = documents::read_csv(audit({"--csv"}), "forecasts");
  const auto& table = std::get<documents::CsvTable>(read);
  ASSERT_EQ(table.rows.size(), document["forecasts"].size());
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const auto& forecast = document["forecasts"][row];
    EXPECT_EQ(table.rows[row][0], forecast["animal"]);
    EXPECT_EQ(std::stod(table.rows[row][9]), forecast["probability"].get<double>());
    EXPECT_EQ(std::stoi(table.rows[row][10]), forecast["outcome"].get<int>());
    EXPECT_EQ(std::stod(table.rows[row][11]), forecast["outcome_probability"].get<double>());
  }
}

// The pedigree basis can be worked out again by `odds` of a book without scores.
TEST_F(Audited, PedigreeForecastsAreTheOddsOfThatDayWithoutScores) {
  const auto document = json::parse(audit({"--json"}));
  auto colony = json::parse(Keeper::run({"export", book_}).output);
  auto& observations = colony["observations"];
  json kept = json::array();
  for (const auto& observation : observations) {
    if (observation["kind"] != "score") kept.push_back(observation);
  }
  observations = kept;
  const std::string bare = keeper_.path("bare.book");
  Keeper::run({"init", bare, "--model", source("models/demo/model.json")});
  ASSERT_EQ(Keeper::run({"import", bare, keeper_.file("bare.json", colony.dump())}).status(),
            ExitStatus::done);
  std::size_t compared = 0;
  for (const auto& forecast : document["forecasts"]) {
    if (forecast["basis"] != "pedigree" || forecast["scheme"] != "as-it-stood") continue;
    if (++compared > 12) break;
    const auto odds = json::parse(Keeper::run({"odds", bare, "--json", "--draws", "0", "--animal",
                                               forecast["animal"], "--as-of", forecast["on"]})
                                      .output);
    const double mean = odds["animals"][0]["loci"][forecast["locus"].get<std::string>()]["het"]
                            [forecast["allele"].get<std::string>()]["mean"];
    EXPECT_NEAR(forecast["probability"].get<double>(), mean, 1e-9) << forecast["animal"];
  }
  EXPECT_GE(compared, 10U);
}

TEST_F(Audited, AnEarlierDayKnowsFewerOutcomes) {
  const auto now = json::parse(audit({"--json"}));
  const auto then = json::parse(audit({"--json", "--as-of", "2024-12-31"}));
  EXPECT_EQ(then["as_of"], "2024-12-31");
  EXPECT_LT(then["forecasts"].size(), now["forecasts"].size());
  for (const auto& forecast : then["forecasts"]) EXPECT_LE(forecast["known_on"], "2024-12-31");
}

TEST_F(Audited, ReportIsWrittenWholeAndReplacesAnOldOne) {
  const std::string page = keeper_.file("page.html", "an older page");
  EXPECT_FALSE(audit({"--html", page, "--force"}).empty());
  std::ifstream file(page);
  std::ostringstream text;
  text << file.rdbuf();
  EXPECT_THAT(text.str(), HasSubstr("</html>"));
  EXPECT_EQ(text.str().find("an older page"), std::string::npos);
  EXPECT_EQ(Keeper::run({"audit", book_, "--html", page}).status(), ExitStatus::input);
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(page).parent_path())) {
    EXPECT_EQ(entry.path().string().find(".part"), std::string::npos);
  }
}

TEST_F(Audited, OptionsOutOfRangeAreRefusedBeforeTheBookIsOpened) {
  for (const auto& options : std::vector<std::vector<std::string>>{{"--threshold", "0"},
                                                                   {"--threshold", "nan"},
                                                                   {"--threshold", "half"},
                                                                   {"--known", "0.5"},
                                                                   {"--known-not", "0.6"},
                                                                   {"--resamples", "3"}}) {
    std::vector<std::string> words = {"audit", keeper_.path("no.book")};
    words.insert(words.end(), options.begin(), options.end());
    EXPECT_EQ(Keeper::run(words).status(), ExitStatus::usage) << options[0] << " " << options[1];
  }
}

TEST_F(Audited, NumbersRoundTrip) {
  const auto text = audit({"--json"});
  const auto document = json::parse(text);
  EXPECT_EQ(json::parse(document.dump()), document);
  EXPECT_EQ(text.find("nan"), std::string::npos);
  EXPECT_EQ(text.find("inf,"), std::string::npos);
}

}  // namespace
}  // namespace likelihet::cli::audit_output_test
