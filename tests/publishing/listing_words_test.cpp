// The words around the numbers: notes on health and cautions in every form, what markers lack, what
// would change a number, and what the policy changes of it. Numbers by hand.
#include <gmock/gmock.h>
#include <nlohmann/json.hpp>
#include <publishing/listed.hpp>

#include <likelihet/publishing/listing_document.hpp>
#include <likelihet/publishing/listing_html.hpp>
#include <likelihet/publishing/listing_markdown.hpp>
#include <likelihet/publishing/listing_notes.hpp>
#include <likelihet/publishing/markup.hpp>
#include <likelihet/publishing/sheet.hpp>
#include <likelihet/publishing/statement_words.hpp>

namespace likelihet::publishing::listing_words_test {
namespace {

using colony::Grade;
using genetics::Sex;
using support::recessive_model;
using support::RecordsBuilder;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

/// Out of a dam sold as het and a clear sire.
RecordsBuilder half() {
  return pair_sold_as(1, 0).hatchling("H", "C").shows("H", "tarnbrook", "plain");
}

/// A policy with one note on tarnbrook.
colony::Policy noted(Grade grade, const std::optional<std::string>& source) {
  colony::Policy policy;
  policy.health = {{"tarnbrook", "may see badly in bright light", grade, source}};
  return policy;
}

std::string sheet_of(Listed& listed, const std::string& id) {
  const Listing listing = listed.of(id);
  const auto evidence = evidence_of(listed.ground(), listing);
  return sheet(listed.colony(), listing, std::get<std::vector<Evidence>>(evidence), {});
}

struct Graded {
  Grade grade;
  std::optional<std::string> source;
  std::string word;
  std::string line;
};

class HealthNotes : public testing::TestWithParam<Graded> {};

TEST_P(HealthNotes, HaveTheirGradeInEveryForm) {
  const Graded& graded = GetParam();
  Listed listed(recessive_model(), half(), noted(graded.grade, graded.source));
  const auto made = listed.all_of({"H"});
  const auto document = nlohmann::json(listing_document(listed.colony(), made));
  const auto& note = document["listings"][0]["health"][0];
  EXPECT_EQ(note["grade"], graded.word);
  EXPECT_EQ(note["source"].is_null(), !graded.source);
  EXPECT_EQ(health_line(made[0].health[0]), graded.line);
  EXPECT_THAT(listing_html(listed.colony(), made), HasSubstr(escaped(graded.line).str()));
  EXPECT_THAT(listing_markdown(listed.colony(), made), HasSubstr(markdown_text(graded.line)));
  EXPECT_THAT(sheet_of(listed, "H"), HasSubstr("may see badly in bright light"));
}

INSTANTIATE_TEST_SUITE_P(
    Grades, HealthNotes,
    testing::Values(
        Graded{Grade::study, "an invented study", "study",
               "tarnbrook: may see badly in bright light (evidence: a published study, an invented "
               "study)"},
        Graded{Grade::reports, std::nullopt, "reports",
               "tarnbrook: may see badly in bright light (evidence: keepers' reports, no source "
               "given)"},
        Graded{Grade::unknown, std::nullopt, "unknown",
               "tarnbrook: may see badly in bright light (evidence: unknown, no source given)"}));

// Where a copy cannot be ruled out, however small the chance, the note stands.
TEST(HealthNotes, StandWhereverACopyIsPossible) {
  const auto records = pair_sold_as(0.001, 0).hatchling("H", "C");
  const Listed listed(recessive_model(), records, noted(Grade::reports, {}));
  EXPECT_THAT(listed.of("H").health, SizeIs(1));
  EXPECT_EQ(listed.at("H").published.high, 0);
  EXPECT_THAT(listed.at("H").headline, HasSubstr("below 1 %"));
  EXPECT_THAT(listed.at("H").plain, HasSubstr("fewer than 1 in 100"));
  EXPECT_THAT(listed.of("M").health, IsEmpty()) << "sold as clear, at that word";
}

// The step is for ranges with markers; numbers without markers are in whole percents whatever it
// is.
TEST(PolicyOfListings, TheStepTouchesNoNumberWithoutMarkers) {
  auto records = pair_sold_as(0.66, 0).hatchling("H", "C").score("H", "crown-fleck", "strong");
  colony::Policy coarse;
  coarse.step = 0.1;
  const Listed fine(recessive_model(), records);
  const Listed listed(recessive_model(), records, coarse);
  EXPECT_EQ(listed.at("H").published, fine.at("H").published);
  EXPECT_EQ(listed.at("H").published.step, 0.01);
  EXPECT_EQ(listed.at("H").headline, fine.at("H").headline);
}

TEST(PolicyOfListings, PricesAndWorthsOfItMoveNothing) {
  colony::Policy policy;
  policy.prices = {{"shed-pcr", 1000}};
  policy.worth = {{"tarnbrook", {{"+/e", 1e6}}, 1}};
  policy.random_one_in = 1;
  const Listed plain(recessive_model(), half());
  const Listed priced(recessive_model(), half(), policy);
  EXPECT_EQ(listing_document(plain.colony(), plain.all_of({"F", "M", "H"})),
            listing_document(priced.colony(), priced.all_of({"F", "M", "H"})));
}

MarkersShown markers(std::size_t readings) {
  MarkersShown out;
  out.readings.resize(readings);
  return out;
}

TEST(MarkersLine, SaysWhatWasSeenAndWhetherItCounts) {
  const Listed listed(recessive_model(), half());
  MarkersShown shown = markers(1);
  shown.count = true;
  EXPECT_EQ(markers_line(listed.colony(), shown),
            "Markers for tarnbrook counted (1 score): the audit has earned it.");
  shown = markers(3);
  shown.missing = {"tables not learned", "0 of 20 outcomes known"};
  EXPECT_EQ(
      markers_line(listed.colony(), shown),
      "Markers for tarnbrook seen (3 scores), not counted: tables not learned; 0 of 20 outcomes "
      "known.");
  shown = markers(0);
  shown.relatives = true;
  EXPECT_EQ(
      markers_line(listed.colony(), shown),
      "Markers for tarnbrook seen (none on the animal itself, some on relatives), and nothing left "
      "for them to tell.");
}

TEST(RecordLines, WithoutARecordSaySoOnce) {
  const Listed listed(recessive_model(), half());
  for (const auto& shown : {std::vector<MarkersShown>{}, {markers(1)}, {markers(1), markers(2)}}) {
    EXPECT_THAT(record_lines(listed.colony(), shown),
                testing::ElementsAre("No past percentages have been checked for these numbers."));
  }
}

TEST(Cautions, NameEachLocusWithItsDangerAndNoOther) {
  auto model = support::masked_model();
  model.loci[0].caution = "Invented: may lose balance.";
  model.loci[1].viability = {{"s/s", 0.0}, {"+/s", 0.5}};
  const auto made = support::made(model);
  EXPECT_THAT(cautions_of(*made, {}), SizeIs(3)) << "the estimate, the law, the veterinarian";
  EXPECT_THAT(cautions_of(*made, {0}), Contains("tarnbrook: Invented: may lose balance."));
  EXPECT_THAT(cautions_of(*made, {0}), Not(Contains(HasSubstr("do not live"))));
  // Only what never lives is called that; half of +/s do.
  EXPECT_THAT(cautions_of(*made, {1}),
              Contains(HasSubstr("offspring of s/s do not live. Do not pair")));
  EXPECT_THAT(cautions_of(*made, {0, 1}), SizeIs(5));
}

TEST(TraitName, NamesTheAlleleOnlyWhereThereAreSeveral) {
  auto model = recessive_model();
  const auto two = support::made(model);
  model.loci[0].alleles.push_back("f");
  model.loci[0].appearance = {{"default", {{"plain", 1.0}}}};
  model.markers.clear();
  model.assays.clear();
  const auto three = support::made(model);
  EXPECT_EQ(trait_name(two->loci()[0], 1), "tarnbrook");
  EXPECT_EQ(trait_name(three->loci()[0], 1), "e of tarnbrook");
  EXPECT_EQ(trait_name(three->loci()[0], 2), "f of tarnbrook");
}

// 1 : 2^n of non-visual offspring by a visual partner from even odds; 3/4 each by a het one. Below
// 5 %: 2^-n < 1/19 from 5 on, (3/4)^n < 1/19 from 11 on.
TEST(WouldChange, CountsTheOffspringOnlyWhereLookingTells) {
  const auto even = [](const colony::ModelDescription& model) {
    return Listed(model, half()).at("H").would_change;
  };
  EXPECT_THAT(even(recessive_model()),
              Contains(HasSubstr("about 5 more non-visual offspring by a visual partner, or 11")));
  auto fragile = recessive_model();
  fragile.loci[0].viability = {{"e/e", 0.5}};
  EXPECT_THAT(even(fragile), Not(Contains(HasSubstr("non-visual offspring"))))
      << "offspring that die unseen would be counted as clear";
  EXPECT_THAT(even(fragile), Contains("a visual offspring would prove a copy"));
  auto untested = recessive_model();
  untested.assays.clear();
  EXPECT_THAT(even(untested), Not(Contains(HasSubstr("a result of"))));
}

TEST(WouldChange, OfWhatIsCertainNamesTheConflict) {
  RecordsBuilder records;
  records.founder("F", Sex::female)
      .bought_as("tarnbrook", {{"e/e", 1.0}})
      .shows("F", "tarnbrook", "tarnbrook");
  records.founder("M", Sex::male).clutch("C", "F", {"M"}).hatchling("H", "C");
  const Listed listed(recessive_model(), records.shows("H", "tarnbrook", "plain"));
  EXPECT_THAT(
      listed.at("H").would_change,
      Contains("a result of shed-pcr against it would be a contradiction: to be held and tested "
               "again"));
  EXPECT_THAT(listed.at("H").would_change, Not(Contains(HasSubstr("non-visual offspring"))));
}

TEST(WouldChange, AsksForALookWhereNoneIsRecorded) {
  const auto bare = pair_sold_as(1, 0).hatchling("H", "C");
  EXPECT_THAT(Listed(recessive_model(), bare).at("H").would_change,
              Contains("recording what it looks like"));
  EXPECT_THAT(Listed(recessive_model(), half()).at("H").would_change,
              Not(Contains("recording what it looks like")));
}

TEST(PlainWords, CountAnimalsNotPercents) {
  const Listed listed(recessive_model(), half());
  EXPECT_EQ(listed.at("M").plain, "If the records are right, it does not carry it.");
  EXPECT_EQ(
      listed.at("F").plain,
      "If the records are right, it has one copy and passes it to about half of its offspring.");
  EXPECT_THAT(listed.at("H").plain, HasSubstr("Of animals with records like these, "));
  EXPECT_THAT(listed.at("H").plain, Not(HasSubstr("%")));
}

}  // namespace
}  // namespace likelihet::publishing::listing_words_test
