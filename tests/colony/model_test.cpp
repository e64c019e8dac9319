// A sound model resolves; every fault of a description is told with its place.
#include <cmath>
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

namespace likelihet::colony::model_test {
namespace {

using namespace likelihet::colony;
using namespace likelihet::support;
using likelihet::genetics::Chromosome;
using likelihet::genetics::SexSystem;
using testing::ElementsAre;
using testing::UnorderedElementsAre;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(Model, ResolvesTheExampleOfTheDocuments) {
  const auto model = made(masked_model());
  EXPECT_EQ(model->sex_system(), SexSystem::zw);
  ASSERT_EQ(model->loci().size(), 2U);
  EXPECT_EQ(model->loci()[0].appearances(), (std::vector<std::string>{"plain", "tarnbrook"}));
  EXPECT_EQ(model->loci()[0].shows(1, 0), 1.0);
  EXPECT_EQ(model->loci()[0].shows(2, 1), 1.0);
  EXPECT_EQ(model->origins()[0].frequencies,
            (std::vector<std::vector<double>>{{0.98, 0.02}, {1.0, 0.0}}));
  EXPECT_EQ(model->origins()[0].worth, 50);
  const Marker& marker = model->markers()[0];
  ASSERT_EQ(marker.rows.size(), 3U);
  EXPECT_EQ(marker.rows[0].at, (std::vector<std::pair<std::size_t, std::size_t>>{{0, 2}}));
  EXPECT_TRUE(marker.rows[2].at.empty());
  EXPECT_EQ(marker.contexts[0].shows, (std::pair<std::size_t, std::size_t>{1, 1}));
  EXPECT_TRUE(marker.contexts[0].ignore);
  EXPECT_EQ(model->assays()[0].expect[1][1], 0.985);
  EXPECT_EQ(model->scorers()[0].sure, 0.95);
  EXPECT_EQ(model->description(), masked_model());
}

TEST(Model, FindsByIdAndOnlyByIt) {
  const auto model = made(masked_model());
  EXPECT_EQ(model->find_locus("brackmoor"), 1U);
  EXPECT_EQ(model->find_origin("bought"), 0U);
  EXPECT_EQ(model->find_marker("crown-fleck"), 0U);
  EXPECT_EQ(model->find_assay("shed-pcr"), 0U);
  EXPECT_EQ(model->find_scorer("ana"), 0U);
  EXPECT_EQ(model->find_locus("Brackmoor"), std::nullopt);
  EXPECT_EQ(model->find_scorer(""), std::nullopt);
}

TEST(Model, FillsInWhatIsNotGiven) {
  ModelDescription model = recessive_model();
  model.loci[0].appearance.clear();
  model.origins[0].worth.reset();
  model.origins[0].frequencies.clear();
  model.markers[0].weight.reset();
  model.markers[0].rows[0].worth.reset();
  model.assays[0].mix_up.reset();
  model.scorers[0].sure.reset();
  const auto made_model = made(model);
  EXPECT_EQ(made_model->loci()[0].appearances(), (std::vector<std::string>{"plain"}));
  EXPECT_EQ(made_model->loci()[0].shows(2, 0), 1.0);
  EXPECT_EQ(made_model->origins()[0].worth, 10);
  EXPECT_EQ(made_model->origins()[0].frequencies[0], (std::vector<double>{1, 0}));
  EXPECT_EQ(made_model->markers()[0].weight, 1);
  EXPECT_EQ(made_model->markers()[0].rows[0].worth, 10);
  EXPECT_EQ(made_model->assays()[0].mix_up, 0);
  EXPECT_EQ(made_model->scorers()[0].sure, 1);
}

TEST(Model, KeepsNumbersAsWritten) {
  ModelDescription model = recessive_model();
  model.markers[0].rows[0].expect = {0.2, 0.3, 0.5 + 5e-10};
  EXPECT_EQ(made(model)->markers()[0].rows[0].expect[2], 0.5 + 5e-10);
}

TEST(Model, AllowsAnyPrintableIdOfUpTo200Bytes) {
  for (const std::string& id : {std::string("a/b \"c\" ~ d"), std::string("Glühwurm ♀"),
                                std::string(200, 'x'), std::string(" ")}) {
    ModelDescription model = recessive_model();
    model.origins[0].id = id;
    EXPECT_EQ(told(faults_of(model)), "") << id;
  }
}

TEST(Model, AllowsBothSexChromosomes) {
  EXPECT_EQ(told(faults_of(sex_linked_model(Chromosome::x))), "");
  EXPECT_EQ(told(faults_of(sex_linked_model(Chromosome::z))), "");
}

// One change that spoils the example, and the one fault that it must lead to.
struct Spoilt {
  const char* name;
  std::function<void(ModelDescription&)> spoil;
  std::string place, what, mend;
  friend void PrintTo(const Spoilt& spoilt, std::ostream* out) { *out << spoilt.name; }
};

class ModelFault : public testing::TestWithParam<Spoilt> {};

TEST_P(ModelFault, IsToldOnceWithItsPlace) {
  ModelDescription model = masked_model();
  GetParam().spoil(model);
  const Faults faults = faults_of(model);
  EXPECT_THAT(faults, one_fault(GetParam().place, GetParam().what, GetParam().mend))
      << told(faults);
}

using D = ModelDescription;

const std::vector<Spoilt> spoilt_loci = {
    {"EmptyId", [](D& m) { m.origins[0].id = ""; }, "/origins/0/id", "is empty", "1 to 200"},
    {"LongId", [](D& m) { m.origins[0].id = std::string(201, 'x'); }, "/origins/0/id", "201 bytes",
     "1 to 200"},
    {"ControlInId", [](D& m) { m.scorers[0].id = "an\na"; }, "/scorers/0/id", "'an\\x0Aa'",
     "control"},
    {"C1ControlInId", [](D& m) { m.scorers[0].id = "an\xC2\x85"; }, "/scorers/0/id", "control",
     "control"},
    {"TwoLociOfOneId", [](D& m) { m.loci.push_back(recessive_locus()); }, "/loci/2/id",
     "'tarnbrook' is that of /loci/0", "an id of its own"},
    {"OneAllele",
     [](D& m) {
       m.loci[1].alleles = {"+"};
       m.loci[1].appearance.clear();
       m.markers[0].contexts.clear();
     },
     "/loci/1/alleles", "there are 1", "at least 2"},
    {"TwoAllelesOfOneName",
     [](D& m) {
       m.loci[0].alleles = {"+", "e", "e"};
     },
     "/loci/0/alleles/2", "'e' is given twice", "once"},
    {"EmptyAllele",
     [](D& m) {
       m.loci[0].alleles = {"+", "e", ""};
     },
     "/loci/0/alleles/2", "is empty", "1 to 200"},
    {"SlashInAllele",
     [](D& m) {
       m.loci[0].alleles = {"+", "e", "e/f"};
     },
     "/loci/0/alleles/2", "'e/f'", "'/' joins"},
    {"TooManyAlleles",
     [](D& m) {
       for (int i = 0; i < 63; ++i) m.loci[0].alleles.push_back("a" + std::to_string(i));
     },
     "/loci/0/alleles", "there are 65", "at most 64"},
    {"XWithoutXy", [](D& m) { m.loci[1].on = Chromosome::x; }, "/loci/1/on",
     "on X, but sex_chromosomes is ZW", "XY"},
    {"WrongOrderInAppearance", [](D& m) { m.loci[0].appearance[1].first = "e/+"; },
     "/loci/0/appearance/e~1+", "'e/+'", "write '+/e'"},
    {"UnknownKeyInAppearance", [](D& m) { m.loci[0].appearance[1].first = "e/f"; },
     "/loci/0/appearance/e~1f", "'e/f'", "did you mean 'e/e'?"},
    {"AppearanceOutOfRange",
     [](D& m) {
       m.loci[0].appearance[1].second = {{"tarnbrook", 1.5}, {"plain", 0.5}};
     },
     "/loci/0/appearance/e~1e/tarnbrook", "1.5", "from 0 to 1"},
    {"AppearanceSum",
     [](D& m) {
       m.loci[0].appearance[1].second = {{"tarnbrook", 0.9}, {"plain", 0.05}};
     },
     "/loci/0/appearance/e~1e", "sum to 0.95", "sum to 1"},
    {"EmptyDistribution", [](D& m) { m.loci[0].appearance[1].second.clear(); },
     "/loci/0/appearance/e~1e", "sum to 0", "sum to 1"},
    {"NoDefault", [](D& m) { m.loci[0].appearance.erase(m.loci[0].appearance.begin()); },
     "/loci/0/appearance", "'+/+', '+/e'", "default"},
    {"UnknownKeyInViability",
     [](D& m) {
       m.loci[0].viability = {{"+e", 0.5}};
     },
     "/loci/0/viability/+e", "'+e'", "did you mean '+/e'?"},
    {"NegativeViability",
     [](D& m) {
       m.loci[0].viability = {{"e/e", -0.5}};
     },
     "/loci/0/viability/e~1e", "-0.5", "0 or more"},
    {"InfiniteViability",
     [](D& m) {
       m.loci[0].viability = {{"e/e", infinity}};
     },
     "/loci/0/viability/e~1e", "inf", "finite"},
    {"ViabilityThatSumsLose",
     [](D& m) {
       m.loci[0].viability = {{"e/e", 1e-320}};
     },
     "/loci/0/viability/e~1e", "1e-320", "at least 1e-250"},
    {"ViabilityWithoutBound",
     [](D& m) {
       m.loci[0].viability = {{"e/e", 1e300}};
     },
     "/loci/0/viability/e~1e", "1e+300", "at most 1e+09"},
    {"AllLethal",
     [](D& m) {
       m.loci[0].viability = {{"+/+", 0}, {"+/e", 0}, {"e/e", 0}};
     },
     "/loci/0/viability", "lethal", "above 0"},
    {"LocusInOrigin", [](D& m) { m.origins[0].frequencies[0].first = "tarnbrok"; },
     "/origins/0/frequencies/tarnbrok", "'tarnbrok'", "did you mean 'tarnbrook'?"},
    {"AlleleInOrigin",
     [](D& m) {
       m.origins[0].frequencies[0].second = {{"x", 0.1}};
     },
     "/origins/0/frequencies/tarnbrook/x", "no allele 'x'", "'+'"},
    {"FrequencyOutOfRange",
     [](D& m) {
       m.origins[0].frequencies[0].second = {{"e", -0.1}};
     },
     "/origins/0/frequencies/tarnbrook/e", "-0.1", "from 0 to 1"},
    {"FrequencySum",
     [](D& m) {
       m.origins[0].frequencies[0].second = {{"+", 0.9}, {"e", 0.2}};
     },
     "/origins/0/frequencies/tarnbrook", "sum to 1.1", "sum to 1"},
    {"FrequencyOfTheFirstAlone",
     [](D& m) {
       m.origins[0].frequencies[0].second = {{"+", 0.9}};
     },
     "/origins/0/frequencies/tarnbrook", "sum to 0.9", "sum to 1"},
    {"WorthOfOrigin", [](D& m) { m.origins[0].worth = -1; }, "/origins/0/worth", "-1", "0 or more"},
    {"WorthBeyondAllBooks", [](D& m) { m.origins[0].worth = 1e305; }, "/origins/0/worth", "1e+305",
     "at most 1e+09"},
};

const std::vector<Spoilt> spoilt_markers = {
    {"OneLevel",
     [](D& m) {
       m.markers[0].levels = {"absent"};
       for (auto& row : m.markers[0].rows) row.expect = {1};
     },
     "/markers/0/levels", "there are 1", "at least 2"},
    {"TwoLevelsOfOneName", [](D& m) { m.markers[0].levels[2] = "faint"; }, "/markers/0/levels/2",
     "'faint'", "once"},
    {"Weight", [](D& m) { m.markers[0].weight = 1.5; }, "/markers/0/weight", "1.5", "from 0 to 1"},
    {"NoRows", [](D& m) { m.markers[0].rows.clear(); }, "/markers/0/rows", "no rows", "{}"},
    {"NoLastRow", [](D& m) { m.markers[0].rows.pop_back(); }, "/markers/0/rows/1/at", "last row",
     "{}"},
    {"UnreachableRows", [](D& m) { m.markers[0].rows[1].at.clear(); }, "/markers/0/rows/1/at",
     "never used", "last"},
    {"LocusInRow", [](D& m) { m.markers[0].rows[0].at[0].first = "tarnbrooks"; },
     "/markers/0/rows/0/at/tarnbrooks", "'tarnbrooks'", "did you mean 'tarnbrook'?"},
    {"KeyInRow", [](D& m) { m.markers[0].rows[1].at[0].second = "e/+"; },
     "/markers/0/rows/1/at/tarnbrook", "'e/+'", "write '+/e'"},
    {"LocusTwiceInRow",
     [](D& m) {
       m.markers[0].rows[0].at.push_back({"tarnbrook", "+/e"});
     },
     "/markers/0/rows/0/at/tarnbrook", "twice", "once"},
    {"TooFewNumbers",
     [](D& m) {
       m.markers[0].rows[2].expect = {0.5, 0.5};
     },
     "/markers/0/rows/2/expect", "2 numbers", "3 levels"},
    {"ExpectOutOfRange",
     [](D& m) {
       m.markers[0].rows[2].expect = {0.5, 1.5, 0.5};
     },
     "/markers/0/rows/2/expect/1", "1.5", "from 0 to 1"},
    {"ExpectNotANumber",
     [](D& m) {
       m.markers[0].rows[2].expect = {0.5, nan, 0.5};
     },
     "/markers/0/rows/2/expect/1", "nan", "from 0 to 1"},
    {"ExpectSum",
     [](D& m) {
       m.markers[0].rows[2].expect = {0.5, 0.25, 0.25 + 2e-9};
     },
     "/markers/0/rows/2/expect", "sum to 1.000000002", "within 1e-9"},
    {"RowWorthBeyondAllBooks", [](D& m) { m.markers[0].rows[2].worth = 1e12; },
     "/markers/0/rows/2/worth", "1e+12", "at most 1e+09"},
    {"NoWorth", [](D& m) { m.markers[0].rows[2].worth = 0; }, "/markers/0/rows/2/worth", "0",
     "above 0"},
    {"LocusInContext", [](D& m) { m.markers[0].contexts[0].locus = "brackmor"; },
     "/markers/0/contexts/0/when/locus", "'brackmor'", "did you mean 'brackmoor'?"},
    {"ShowsInContext", [](D& m) { m.markers[0].contexts[0].shows = "thornwik"; },
     "/markers/0/contexts/0/when/shows", "'thornwik'", "did you mean 'thornwick'?"},
    {"HalfAContext", [](D& m) { m.markers[0].contexts[0].shows.reset(); },
     "/markers/0/contexts/0/when", "only one", "either"},
    {"EmptyContext",
     [](D& m) {
       m.markers[0].contexts[0] = {{}, {}, {}, true, {}};
     },
     "/markers/0/contexts/0/when", "none of", "either"},
    {"TwofoldContext", [](D& m) { m.markers[0].contexts[0].line = "old"; },
     "/markers/0/contexts/0/when", "'line' together", "either"},
    {"EmptyLine",
     [](D& m) {
       m.markers[0].contexts[0] = {{}, {}, "", true, {}};
     },
     "/markers/0/contexts/0/when/line", "is empty", "1 to 200"},
    {"IgnoreWithRows", [](D& m) { m.markers[0].contexts[0].rows = m.markers[0].rows; },
     "/markers/0/contexts/0/rows", "3 rows", "leave the rows out"},
    {"RowsWithoutRows", [](D& m) { m.markers[0].contexts[0].ignore = false; },
     "/markers/0/contexts/0/rows", "no rows", "{}"},
    {"RowOfAContext",
     [](D& m) {
       m.markers[0].contexts[0].ignore = false;
       m.markers[0].contexts[0].rows = {{{}, {0.5, 0.5, 0.5}, std::nullopt}};
     },
     "/markers/0/contexts/0/rows/0/expect", "sum to 1.5", "sum to 1"},
};

const std::vector<Spoilt> spoilt_evidence = {
    {"AssayLocus", [](D& m) { m.assays[0].locus = "tarnbrok"; }, "/assays/0/locus", "'tarnbrok'",
     "did you mean 'tarnbrook'?"},
    {"ReportsTwice", [](D& m) { m.assays[0].reports[3] = "clear"; }, "/assays/0/reports/3",
     "'clear'", "once"},
    {"AssayKey", [](D& m) { m.assays[0].rows[1].at = "e/+"; }, "/assays/0/rows/1/at", "'e/+'",
     "write '+/e'"},
    {"AssayRowMissing", [](D& m) { m.assays[0].rows.erase(m.assays[0].rows.begin() + 1); },
     "/assays/0/rows", "'+/e'", "each genotype"},
    {"AssayRowTwice", [](D& m) { m.assays[0].rows.push_back(m.assays[0].rows[1]); },
     "/assays/0/rows/3/at", "two rows for genotype '+/e'", "one row"},
    {"AssaySum", [](D& m) { m.assays[0].rows[1].expect[0] = 0.5; }, "/assays/0/rows/1/expect",
     "sum to 1.49", "sum to 1"},
    {"AssayColumns", [](D& m) { m.assays[0].rows[1].expect = {1}; }, "/assays/0/rows/1/expect",
     "1 number", "4 reports"},
    {"MixUp", [](D& m) { m.assays[0].mix_up = -0.1; }, "/assays/0/mix_up", "-0.1", "from 0 to 1"},
    {"Price", [](D& m) { m.assays[0].price = -45; }, "/assays/0/price", "-45", "0 or more"},
    {"Sure", [](D& m) { m.scorers[0].sure = 95; }, "/scorers/0/sure", "95", "from 0 to 1"},
    {"TwoScorersOfOneId",
     [](D& m) {
       m.scorers.push_back({"ana", 0.5});
     },
     "/scorers/1/id", "'ana' is that of /scorers/0", "an id of its own"},
    {"TogetherUnknown",
     [](D& m) {
       m.together = {{"pattern", {"crown-fleck", "side-thread"}}};
     },
     "/together/0/markers/1", "'side-thread'", "known are 'crown-fleck'"},
    {"TogetherTwice",
     [](D& m) {
       m.together = {{"pattern", {"crown-fleck", "crown-fleck"}}};
     },
     "/together/0/markers/1", "/together/0/markers/0 already", "once"},
    {"TogetherWithoutSpread",
     [](D& m) {
       m.markers.push_back(m.markers.front());
       m.markers.back().id = "side-thread";
       m.together = {{"pattern", {"crown-fleck", "side-thread"}, std::nullopt, 0.0}};
     },
     "/together/0/spread", "it is 0", "above 0"},
    {"TogetherAlone",
     [](D& m) {
       m.together = {{"pattern", {"crown-fleck"}}};
     },
     "/together/0/markers", "there are 1", "at least 2"},
};

std::string name_of(const testing::TestParamInfo<Spoilt>& info) {
  return info.param.name;
}
INSTANTIATE_TEST_SUITE_P(Loci, ModelFault, testing::ValuesIn(spoilt_loci), name_of);
INSTANTIATE_TEST_SUITE_P(Markers, ModelFault, testing::ValuesIn(spoilt_markers), name_of);
INSTANTIATE_TEST_SUITE_P(Evidence, ModelFault, testing::ValuesIn(spoilt_evidence), name_of);

TEST(ModelFaults, NameAnAlleleLikeThePartnerChromosome) {
  ModelDescription model = sex_linked_model(Chromosome::z);
  model.loci[0].alleles = {"+", "W"};
  model.loci[0].appearance.clear();
  model.origins.clear();
  EXPECT_THAT(faults_of(model),
              one_fault("/loci/0/alleles/1", "named like the partner", "another name"));
  // Y is nothing special where the partner is W.
  model.loci[0].alleles = {"+", "Y"};
  EXPECT_EQ(told(faults_of(model)), "");
}

TEST(ModelFaults, TellASexThatCannotLive) {
  ModelDescription model = sex_linked_model(Chromosome::z);
  model.loci[0].viability = {{"+/W", 0}, {"e/W", 0}};
  EXPECT_THAT(faults_of(model), one_fault("/loci/0/viability", "a female can have", "above 0"));
}

TEST(ModelFaults, AreAllTold) {
  ModelDescription model = masked_model();
  model.loci[0].viability = {{"e/e", nan}};
  model.origins[0].worth = nan;
  model.markers[0].weight = 2;
  model.markers[0].rows[0].worth = -1;
  model.assays[0].price = nan;
  model.scorers[0].sure = -1;
  model.together = {{"a", {"crown-fleck", "none"}}, {"b", {"crown-fleck", "other"}}};
  EXPECT_THAT(
      places(faults_of(model)),
      ElementsAre("/loci/0/viability/e~1e", "/origins/0/worth", "/markers/0/weight",
                  "/markers/0/rows/0/worth", "/assays/0/price", "/scorers/0/sure",
                  "/together/0/markers/1", "/together/1/markers/0", "/together/1/markers/1"));
}

// What refers to a locus with faults is not faulty for that.
TEST(ModelFaults, DoNotSpreadToWhatRefersToThem) {
  ModelDescription model = masked_model();
  model.loci[0].alleles = {"+", "e", "e"};
  model.loci[0].on = Chromosome::x;
  EXPECT_THAT(places(faults_of(model)), ElementsAre("/loci/0/on", "/loci/0/alleles/2"));
}

TEST(ModelFaults, AreCountedBeyondAThousand) {
  ModelDescription model = recessive_model();
  for (int i = 0; i < 1500; ++i) model.scorers.push_back({"s" + std::to_string(i), 2.0});
  const Faults faults = faults_of(model);
  ASSERT_EQ(faults.size(), 1001U);
  EXPECT_EQ(faults[999].place, "/scorers/1000/sure");
  EXPECT_EQ(faults[1000].what, "500 more faults were found");
}

// Whatever the numbers are, making either tells faults or gives rows that sum to 1.
RC_GTEST_PROP(ModelProperty, AcceptsOnlyDistributions, ()) {
  const auto number =
      rc::gen::map(rc::gen::inRange(-1, 12), [](int tenths) { return tenths / 10.0; });
  ModelDescription model = recessive_model();
  model.markers[0].rows[1].expect = *rc::gen::container<std::vector<double>>(3, number);
  const auto result = Model::make(model);
  const auto& expect = model.markers[0].rows[1].expect;
  bool distribution = true;
  double sum = 0;
  for (const double p : expect) {
    distribution = distribution && p >= 0 && p <= 1;
    sum += p;
  }
  distribution = distribution && std::abs(sum - 1) <= 1e-9;
  RC_ASSERT(std::holds_alternative<Model>(result) == distribution);
}

// Worst case in size: an allelic series of 64 has 2080 genotypes and as many assay rows.
TEST(Model, HoldsTheLongestAllelicSeries) {
  ModelDescription model;
  LocusDescription locus;
  locus.id = "series";
  AssayDescription assay;
  assay.id = "panel";
  assay.locus = "series";
  assay.reports = {"yes", "no"};
  for (int a = 0; a < 64; ++a) locus.alleles.push_back("a" + std::to_string(a));
  for (int a = 0; a < 64; ++a) {
    for (int b = a; b < 64; ++b) {
      assay.rows.push_back({"a" + std::to_string(a) + "/a" + std::to_string(b), {0.5, 0.5}});
    }
  }
  model.loci = {locus};
  model.assays = {assay};
  EXPECT_EQ(made(model)->assays()[0].expect.size(), 2080U);
}

}  // namespace
}  // namespace likelihet::colony::model_test
