// What a keeper publishes, through the commands: publish, claims, verify, withdraw, and what the
// listing, the sheet and the audit make of it.
#include <cctype>
#include <fstream>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "today.hpp"
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <support/keeper.hpp>

#include <likelihet/book/book.hpp>
#include <likelihet/publishing/claim.hpp>

namespace likelihet::cli::claims_commands_test {
namespace {

using nlohmann::json;
using support::Ended;
using support::Keeper;
using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

const std::string fixtures = std::string(LIKELIHET_SOURCE_DIR) + "/tests/console/fixtures/";

class Claims : public testing::Test {
 protected:
  // Two parents sold as het, trusted wholly; a visual, and two plain offspring: 66 % each.
  static json two_hets(const std::string& offspring = "H1", const std::string& other = "H2") {
    const json sold =
        json::array({{{"locus", "tarnbrook"}, {"odds", {{"+/e", 1.0}}}, {"trust", 1.0}}});
    json document = {{"format", "likelihet-colony"}, {"version", 1}};
    document["animals"] = {{{"id", "F"}, {"sex", "female"}, {"bought_as", sold}},
                           {{"id", "M"}, {"sex", "male"}, {"bought_as", sold}},
                           {{"id", offspring}, {"clutch", "C"}},
                           {{"id", other}, {"clutch", "C"}}};
    document["clutches"] = {{{"id", "C"},
                             {"dam", "F"},
                             {"sires", json::array({{{"id", "M"}}})},
                             {"hatched", "2024-06-01"}}};
    document["observations"] = {looks("o1", offspring), looks("o2", other)};
    return document;
  }
  static json looks(const std::string& id, const std::string& animal) {
    return {{"id", id},         {"kind", "appearance"}, {"animal", animal}, {"locus", "tarnbrook"},
            {"shows", "plain"}, {"on", "2024-06-02"}};
  }

  void make(const json& colony) {
    ASSERT_EQ(Keeper::run({"init", book, "--model", fixtures + "model.json"}).status(),
              ExitStatus::done);
    const Ended imported = run({"import", keeper.file("colony.json", colony.dump())});
    ASSERT_EQ(imported.status(), ExitStatus::done) << failure_text(*imported.failure);
  }

  // A command on the book; the book's name goes after the command's.
  Ended run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin() + 1, book);
    return Keeper::run(arguments);
  }
  Ended verify(const std::string& code, const std::vector<std::string>& options = {}) const {
    std::vector<std::string> arguments{"verify", book, code};
    arguments.insert(arguments.end(), options.begin(), options.end());
    return Keeper::run(arguments);
  }
  json claims_of(std::vector<std::string> arguments) const {
    arguments.emplace_back("--json");
    const Ended ended = run(arguments);
    EXPECT_EQ(ended.status(), ExitStatus::done);
    return json::parse(ended.output)["claims"];
  }
  /// The code of what is published of one animal.
  std::string publish(const std::string& animal) const {
    return claims_of({"publish", animal})[0]["code"];
  }
  static std::vector<std::string> codes(const json& claims) {
    std::vector<std::string> out;
    for (const json& claim : claims) out.push_back(claim["code"]);
    return out;
  }
  void expect_fault(const Ended& ended, ExitStatus status, const std::string& what) const {
    ASSERT_EQ(ended.status(), status) << what;
    // Lines are broken at words.
    const std::string told =
        std::regex_replace(failure_text(*ended.failure), std::regex("\n +"), " ");
    EXPECT_THAT(told, HasSubstr(what));
  }
  void test_carrier(const std::string& animal, const std::string& on = "2024-07-02") const {
    ASSERT_EQ(run({"result", animal, "shed-pcr", "carrier", "--on", on}).status(),
              ExitStatus::done);
  }

  Keeper keeper;
  std::string book = keeper.path("demo.book");
};

class TwoHets : public Claims {
 protected:
  TwoHets() { make(two_hets()); }
};

TEST_F(TwoHets, PublishNamesSeveralAnimalsAndAClutchOnceEach) {
  const json made = claims_of({"publish", "H2", "F", "H2", "--clutch", "C"});
  std::vector<std::string> animals;
  for (const json& claim : made) animals.push_back(claim["animal"]);
  EXPECT_THAT(animals, testing::UnorderedElementsAre("H1", "H2", "F"));
  EXPECT_THAT(claims_of({"claims"}), SizeIs(3));
  EXPECT_EQ(claims_of({"claims"}), made);
}

// The field by field meaning of a claim; 2/3 is the plain offspring's odds of two hets (Mendel).
TEST_F(TwoHets, PublishSaysInNumbersWhatItSaysInWords) {
  const json claim = claims_of({"publish", "H1"})[0];
  EXPECT_EQ(claim["state"], "current");
  EXPECT_EQ(claim["end"], nullptr);
  EXPECT_EQ(claim["tables"], nullptr);
  EXPECT_EQ(claim["day"], today().text());
  EXPECT_THAT(claim["correction"], IsEmpty());
  ASSERT_THAT(claim["numbers"], SizeIs(1));
  const json& number = claim["numbers"][0];
  EXPECT_EQ(number["locus"], "tarnbrook");
  EXPECT_EQ(number["allele"], "e");
  EXPECT_EQ(number["label"], "possible");
  EXPECT_EQ(number["basis"], "pedigree");
  EXPECT_NEAR(number["value"], 2.0 / 3, 1e-12);
  EXPECT_EQ(number["low"], 0.66);
  EXPECT_EQ(number["high"], 0.66);
  EXPECT_EQ(number["headline"], "66 % possible het for tarnbrook");
  EXPECT_EQ(number["now"]["state"], "current");
  EXPECT_EQ(number["now"]["value"], number["value"]);
  EXPECT_THAT(number["rests_on"], ElementsAre("o1"));
}

TEST_F(TwoHets, ClaimsAreWrittenWithEveryDigit) {
  test_carrier("H1");
  const json shown = claims_of({"publish", "H1"})[0]["numbers"][0];
  const auto kept = book::Book::open(book).claims();
  ASSERT_THAT(kept, SizeIs(1));
  const auto claim = publishing::read_claim(kept[0].document);
  ASSERT_TRUE(claim);
  EXPECT_EQ(shown["value"].get<double>(), claim->numbers[0].value);
  EXPECT_EQ(shown["low"].get<double>(), claim->numbers[0].published.low);
  EXPECT_EQ(shown["high"].get<double>(), claim->numbers[0].published.high);
  EXPECT_GT(claim->numbers[0].value, 0.99);
}

TEST_F(TwoHets, WhatIsSaidAlreadyIsKeptThoughOtherRecordsCame) {
  const std::string code = publish("H1");
  ASSERT_EQ(Keeper::run({"add", "animal", book, "X"}).status(), ExitStatus::done);
  const std::size_t entries = book::Book::open(book).ledger().size();
  EXPECT_EQ(publish("H1"), code);
  EXPECT_EQ(book::Book::open(book).ledger().size(), entries) << "nothing is written";
  EXPECT_THAT(codes(claims_of({"publish", "H1", "H2"})), testing::Contains(code));
  EXPECT_THAT(claims_of({"claims", "--all"}), SizeIs(2));
}

TEST_F(TwoHets, ClaimsAreShownOfOneAnimalAndTheEndedOnlyWhenAsked) {
  const std::string first = publish("H1");
  const std::string other = publish("H2");
  ASSERT_EQ(run({"withdraw", first, "--why", "another's photograph"}).status(), ExitStatus::done);
  EXPECT_THAT(codes(claims_of({"claims"})), ElementsAre(other));
  EXPECT_THAT(codes(claims_of({"claims", "--all"})), ElementsAre(first, other));
  EXPECT_EQ(run({"claims", "--animal", "H1"}).output, "no claim is current\n");
  const json ended = claims_of({"claims", "--animal", "H1", "--all"});
  ASSERT_THAT(ended, SizeIs(1));
  EXPECT_EQ(ended[0]["state"], "withdrawn");
  EXPECT_EQ(ended[0]["end"]["why"], "another's photograph");
  EXPECT_EQ(ended[0]["end"]["replaced_by"], nullptr);
  EXPECT_EQ(ended[0]["numbers"][0]["now"], nullptr) << "nobody relies on it";
  expect_fault(run({"claims", "--animal", "H3"}), ExitStatus::input, "no animal 'H3'");
}

TEST_F(TwoHets, AnOvertakenClaimSaysSoEverywhereUntilItIsPublishedAnew) {
  const std::string code = publish("H1");
  test_carrier("H1");
  const json old = claims_of({"claims"})[0];
  EXPECT_EQ(old["state"], "out of date");
  EXPECT_EQ(old["numbers"][0]["now"]["state"], "too-low");
  EXPECT_THAT(old["correction"], SizeIs(2));
  const Ended text = run({"claims"});
  EXPECT_THAT(text.output, AllOf(HasSubstr("out of date"), HasSubstr("To send:")));
  for (const std::string command : {"listing", "sheet"}) {
    expect_fault(run({command, "H1"}), ExitStatus::failed, "claim " + code);
    EXPECT_EQ(run({command, "H2"}).status(), ExitStatus::done) << "the sib has no claim";
  }
  const json made = claims_of({"publish", "H1"});
  EXPECT_NE(made[0]["code"], code);
  const json both = claims_of({"claims", "--all"});
  ASSERT_THAT(both, SizeIs(2));
  EXPECT_EQ(both[0]["state"], "replaced");
  EXPECT_EQ(both[0]["end"]["replaced_by"], made[0]["code"]);
  EXPECT_EQ(both[0]["end"]["why"], "out of date");
  for (const std::string command : {"listing", "sheet"}) {
    EXPECT_THAT(run({command, "H1"}).output, HasSubstr(made[0]["code"].get<std::string>()));
  }
}

// What the listing of an earlier day says is no quotation of a claim of today.
TEST_F(TwoHets, AListingOfAnEarlierDayNeitherQuotesNorIsRefused) {
  const std::string code = publish("H1");
  EXPECT_THAT(run({"listing", "H1"}).output, HasSubstr(code));
  EXPECT_THAT(run({"listing", "H1", "--as-of", "2024-06-30"}).output, Not(HasSubstr(code)));
  test_carrier("H1");
  EXPECT_EQ(run({"listing", "H1", "--as-of", "2024-06-30"}).status(), ExitStatus::done);
}

TEST_F(TwoHets, ACodeIsKnownHoweverItIsTyped) {
  const std::string code = publish("H1");
  std::string bare, small, spaced = "  ";
  for (const char letter : code) {
    if (letter == '-') continue;
    bare += letter;
    small += static_cast<char>(std::tolower(letter));
    spaced += letter;
    spaced += ' ';
  }
  // Read from paper: zeros and ones as letters.
  std::string misread = code;
  for (char& letter : misread) letter = letter == '0' ? 'o' : letter == '1' ? 'l' : letter;
  for (const std::string& typed : {code, bare, small, spaced, misread}) {
    EXPECT_EQ(verify(typed).status(), ExitStatus::done) << typed;
    EXPECT_EQ(verify(typed).output, verify(code).output);
  }
}

TEST_F(TwoHets, AnUnknownCodeIsAnsweredWithTheNearest) {
  const std::string code = publish("H1");
  std::string near = code;
  near.back() = near.back() == '7' ? '8' : '7';
  const Ended ended = verify(near);
  expect_fault(ended, ExitStatus::input, "the book has no claim '" + near + "'");
  EXPECT_THAT(failure_text(*ended.failure), HasSubstr("did you mean '" + code + "'?"));
  expect_fault(verify("H1"), ExitStatus::input, "no claim 'H1'");
  expect_fault(verify(""), ExitStatus::input, "no claim ''");
}

TEST_F(TwoHets, AClaimThatEndedHeldThenAndIsNotToBeReliedOn) {
  const std::string withdrawn = publish("H1");
  run({"withdraw", withdrawn, "--why", "sold"});
  const std::string replaced = publish("H2");
  test_carrier("H2");
  publish("H2");
  for (const auto& [code, state] : std::vector<std::pair<std::string, std::string>>{
           {withdrawn, "withdrawn"}, {replaced, "replaced"}}) {
    const Ended ended = verify(code, {"--json"});
    expect_fault(ended, ExitStatus::failed, "held when it was published, and is " + state + " now");
    const json found = json::parse(ended.output);
    EXPECT_EQ(found["holds"], true);
    EXPECT_EQ(found["derived_again"], true);
    EXPECT_EQ(found["state"], state);
  }
}

TEST_F(TwoHets, AnOvertakenClaimStillComesOutOfTheEvidenceOfItsDay) {
  const std::string code = publish("H1");
  test_carrier("H1");
  run({"withdraw", "o1", "--why", "another animal"});
  const Ended ended = verify(code);
  expect_fault(ended, ExitStatus::failed, "out of date");
  EXPECT_THAT(ended.output, AllOf(HasSubstr("yes  the same numbers"), Not(HasSubstr("NO "))));
}

// The claim goes by the model and the policy of its day; what comes later is another state.
TEST_F(TwoHets, AClaimIsDerivedByTheModelAndPolicyOfItsDay) {
  const std::string code = publish("H1");
  std::ifstream file(fixtures + "model.json");
  json model = json::parse(file);
  model["loci"][0]["appearance"]["e/e"] = "quillmarsh";
  model["assays"][0]["mix_up"] = 0.25;
  ASSERT_EQ(run({"import", keeper.file("model.json", model.dump())}).status(), ExitStatus::done);
  ASSERT_EQ(run({"import", fixtures + "policy.json"}).status(), ExitStatus::done);
  EXPECT_EQ(verify(code).status(), ExitStatus::done);
  EXPECT_EQ(claims_of({"claims"})[0]["state"], "current");
}

TEST_F(TwoHets, WithdrawingAClaimTakesNoDayOrIdOfARecord) {
  const std::string code = publish("H1");
  for (const auto& options :
       std::vector<std::vector<std::string>>{{"--on", "2024-07-01"}, {"--id", "w1"}}) {
    std::vector<std::string> arguments{"withdraw", code, "--why", "x"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    expect_fault(run(arguments), ExitStatus::usage, "a claim ends now");
  }
  expect_fault(run({"withdraw", code}), ExitStatus::usage, "--why");
  EXPECT_THAT(codes(claims_of({"claims"})), ElementsAre(code)) << "it still stands";
  EXPECT_EQ(run({"withdraw", code, "--why", "x"}).status(), ExitStatus::done);
  expect_fault(run({"withdraw", code, "--why", "x"}), ExitStatus::input, "ended already");
  EXPECT_THAT(codes(claims_of({"claims", "--all"})), ElementsAre(code));
}

// Withdrawing a claim that is out of date leaves something to tell: whoever was told the old
// number.
TEST_F(TwoHets, WithdrawingAnOvertakenClaimSaysWhatToSend) {
  const std::string code = publish("H1");
  test_carrier("H1");
  const Ended ended = run({"withdraw", code, "--why", "sold meanwhile"});
  EXPECT_THAT(ended.output,
              AllOf(HasSubstr("withdrawn on"), HasSubstr("To send:"), HasSubstr("consumer law")));
  EXPECT_EQ(run({"listing", "H1"}).status(), ExitStatus::done) << "nothing stands against it";
}

// An observation may be called like a code; the claim's comes first, and only of this book.
TEST_F(TwoHets, AnObservationNamedLikeACodeIsStillWithdrawn) {
  ASSERT_EQ(run({"appearance", "H1", "tarnbrook", "plain", "--id", "0000-0000-0000-0000"}).status(),
            ExitStatus::done);
  publish("H1");
  EXPECT_EQ(run({"withdraw", "0000-0000-0000-0000", "--why", "twice"}).status(), ExitStatus::done);
  const json claim = claims_of({"claims"})[0];
  EXPECT_EQ(claim["state"], "out of date");
  EXPECT_THAT(claim["numbers"][0]["now"]["withdrawn"], ElementsAre("0000-0000-0000-0000"));
}

TEST_F(TwoHets, TheSameNumberSaidAfterItsRecordWasTakenBackIsANewClaim) {
  const std::string code = publish("H1");
  run({"withdraw", "o1", "--why", "another animal"});
  ASSERT_EQ(run({"appearance", "H1", "tarnbrook", "plain", "--id", "look"}).status(),
            ExitStatus::done);
  const json claim = claims_of({"claims"})[0];
  EXPECT_EQ(claim["state"], "out of date");
  EXPECT_EQ(claim["numbers"][0]["now"]["state"], "basis-withdrawn");
  EXPECT_EQ(claim["numbers"][0]["now"]["headline"], claim["numbers"][0]["headline"]);
  EXPECT_NE(publish("H1"), code);
  EXPECT_EQ(run({"listing", "H1"}).status(), ExitStatus::done);
}

TEST_F(TwoHets, NothingIsPublishedFromRecordsThatContradictThemselves) {
  const std::string code = publish("H1");
  ASSERT_EQ(run({"appearance", "F", "tarnbrook", "tarnbrook", "--id", "odd"}).status(),
            ExitStatus::contradiction);
  EXPECT_EQ(run({"publish", "H2"}).status(), ExitStatus::contradiction);
  EXPECT_EQ(run({"claims"}).status(), ExitStatus::contradiction);
  EXPECT_THAT(book::Book::open(book).claims(), SizeIs(1));
  run({"withdraw", "odd", "--why", "wrong rack"});
  EXPECT_EQ(verify(code).status(), ExitStatus::done);
}

// Parents of whom neither is certain, so that there is something to compute.
TEST_F(Claims, NothingIsPublishedWhereMemoryDoesNotSuffice) {
  std::ifstream file(fixtures + "colony.json");
  make(json::parse(file));
  EXPECT_EQ(run({"publish", "H0302", "--memory", "1"}).status(), ExitStatus::too_large);
  EXPECT_THAT(book::Book::open(book).claims(), IsEmpty());
  const std::string code = publish("H0302");
  EXPECT_EQ(run({"claims", "--memory", "1"}).status(), ExitStatus::too_large);
  EXPECT_EQ(verify(code, {"--memory", "1"}).status(), ExitStatus::too_large);
}

// Outcomes count from the day after publication on; those known by then say nothing of it.
TEST_F(TwoHets, TheAuditHoldsClaimsAgainstResultsThatCameLater) {
  claims_of({"publish", "H1", "H2"});
  const auto audit = [&] { return json::parse(run({"audit", "--json"}).output)["claims"]; };
  EXPECT_EQ(audit()["made"], 2);
  EXPECT_EQ(audit()["open"], 2);
  const std::string later = colony::Date::of_days(today().days() + 1)->text();
  test_carrier("H1", later);
  const json found = audit();
  EXPECT_EQ(found["made"], 2);
  EXPECT_EQ(found["open"], 1);
  EXPECT_EQ(found["known_already"], 0);
  ASSERT_THAT(found["resolved"], SizeIs(1));
  const json& one = found["resolved"][0];
  EXPECT_EQ(one["animal"], "H1");
  EXPECT_EQ(one["on"], today().text());
  EXPECT_EQ(one["known_on"], later);
  // By hand: 2 : 1 by pedigree; "carrier" in 985 and 3 of 1000 samples of each, and in the mean of
  // the three rows, 991/3000, of the 4 in 1000 that were mixed up.
  const double mixed = 0.004 * 991 / 3000;
  const double het = 2 * (0.996 * 0.985 + mixed), clear = 0.996 * 0.003 + mixed;
  const double outcome = het / (het + clear);
  EXPECT_NEAR(one["outcome_probability"], outcome, 1e-12);
  EXPECT_NEAR(found["brier"], outcome * 0.34 * 0.34 + (1 - outcome) * 0.66 * 0.66, 1e-12);
  ASSERT_THAT(found["bands"], SizeIs(1));
  EXPECT_EQ(found["bands"][0]["n"], 1);
  EXPECT_EQ(found["expected"], 0.66);
}

TEST_F(TwoHets, TheAuditCountsAsKnownWhatWasKnownWhenItWasSaid) {
  test_carrier("H1");
  const std::string code = publish("H1");
  const auto audit = [&] { return json::parse(run({"audit", "--json"}).output)["claims"]; };
  EXPECT_EQ(audit()["known_already"], 1);
  // Withdrawn or not, it was said.
  run({"withdraw", code, "--why", "x"});
  EXPECT_EQ(audit()["made"], 1);
  EXPECT_THAT(audit()["resolved"], IsEmpty());
  EXPECT_EQ(audit()["brier"], nullptr);
}

// Letters that are markup, quotes or written from right to left. Characters that turn the direction
// cannot be ids, but stand in what a keeper writes.
class HostileIds : public Claims {
 protected:
  const std::vector<std::string> ids{"\"><script>alert(1)</script>",
                                     "a'b\\c&lt;\u05D0\u05D1"
                                     "d"};
  HostileIds() { make(two_hets(ids[0], ids[1])); }
};

TEST_F(HostileIds, ComeBackUnchangedForPrograms) {
  for (const std::string& id : ids) {
    const json claim = claims_of({"publish", id})[0];
    EXPECT_EQ(claim["animal"], id);
    EXPECT_EQ(claims_of({"claims", "--animal", id})[0], claim);
    const Ended found = verify(claim["code"], {"--json"});
    EXPECT_EQ(found.status(), ExitStatus::done);
    EXPECT_EQ(json::parse(found.output)["animal"], id);
  }
}

TEST_F(HostileIds, CannotTurnTheTextRound) {
  const json made = claims_of({"publish", ids[0], ids[1]});
  test_carrier(ids[0]);
  test_carrier(ids[1]);
  std::string all = run({"claims"}).output;
  for (const std::string& code : codes(made)) {
    const Ended ended = verify(code);
    all += ended.output + failure_text(*ended.failure);
    all += run({"withdraw", code, "--why", "\xE2\x80\xAE \"'</p>"}).output;
  }
  EXPECT_THAT(all, HasSubstr("\\u202e"));
  EXPECT_THAT(all, Not(HasSubstr("\xE2\x80\xAE")));
}

TEST_F(HostileIds, AreOnlyTextInThePagesThatQuoteTheirClaim) {
  claims_of({"publish", ids[0], ids[1]});
  for (const std::string& page : {run({"listing", ids[0], ids[1], "--format", "html"}).output,
                                  run({"sheet", ids[0]}).output}) {
    EXPECT_THAT(page, Not(HasSubstr("<script>alert")));
    EXPECT_THAT(page, HasSubstr("&lt;script&gt;"));
  }
}

// Every field that a schema names occurs in what the commands print.
std::set<std::string> named_fields(const json& schema) {
  std::set<std::string> out;
  if (schema.is_object() && schema.contains("properties")) {
    for (const auto& [name, ignored] : schema["properties"].items()) out.insert(name);
  }
  for (const json& part : schema) {
    if (part.is_structured()) out.merge(named_fields(part));
  }
  return out;
}

std::set<std::string> fields_of(const json& document) {
  std::set<std::string> out;
  if (document.is_object()) {
    for (const auto& [name, ignored] : document.items()) out.insert(name);
  }
  for (const json& part : document) {
    if (part.is_structured()) out.merge(fields_of(part));
  }
  return out;
}

json schema(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/models/schema/" + name + ".schema.json");
  return json::parse(file);
}

TEST_F(TwoHets, EveryFieldOfTheSchemasIsPrinted) {
  const std::string code = publish("H1");
  publish("H2");
  run({"withdraw", code, "--why", "x"});
  EXPECT_EQ(fields_of(json::parse(run({"claims", "--all", "--json"}).output)),
            named_fields(schema("likelihet-claims")));
  EXPECT_EQ(fields_of(json::parse(verify(code, {"--json"}).output)),
            named_fields(schema("likelihet-verification")));
}

}  // namespace
}  // namespace likelihet::cli::claims_commands_test
