// What "66 % possible het" and the like mean for young that do not show a recessive.
//
// Source: common practice among keepers, no source; the values computed from Mendel's first law.
// The update by a laboratory's report assumes a test that finds 97.5 % of carriers and calls 0.5 %
// of clear animals carriers.
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::possible_het_table_test {
namespace {

// A founder that shows nothing, believed a carrier with probability `het`.
Json claim(double het) {
  if (het >= 1) return surely("+/a");
  if (het <= 0) return surely("+/+");
  return {{"+/+", 1 - het}, {"+/a", het}};
}

double clear_young_of(const Json& dam, const Json& sire) {
  WorkedColony colony(recessive_model());
  colony.founder("dam", dam).founder("sire", sire).child("young", "dam", "sire");
  return colony.shows("young", "clear").solve().posterior("young", "+/a");
}

TEST(PossibleHet, Parents) {
  const Json visual = surely("a/a");
  EXPECT_NEAR(clear_young_of(visual, claim(0)), 1, 1e-12);
  EXPECT_NEAR(clear_young_of(visual, claim(0.5)), 1, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(1), claim(1)), 2. / 3, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(1), claim(0)), 1. / 2, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(2. / 3), claim(0)), 1. / 3, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(0.5), claim(0)), 1. / 4, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(2. / 3), claim(2. / 3)), 1. / 2, 1e-12);  // 44 % is wrong
  EXPECT_NEAR(clear_young_of(claim(2. / 3), claim(1)), 0.6, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(0.5), claim(1)), 4. / 7, 1e-12);
  EXPECT_NEAR(clear_young_of(claim(0.5), claim(0.5)), 0.4, 1e-12);
}

// Clear young needed to push a claim below 5 %.
int needed(double het, double trust, const std::string& partner) {
  int young = 0;
  double now = het * trust;
  while (now >= 0.05) {
    ++young;
    WorkedColony colony(recessive_model());
    colony.founder("animal", claim(het * trust));
    now = colony.brood("animal", partner, young).solve().posterior("animal", "+/a");
  }
  return young;
}

TEST(PossibleHet, YoungNeededToFallBelowFivePercent) {
  EXPECT_EQ(needed(0.5, 1, "a/a"), 5);
  EXPECT_EQ(needed(0.5, 1, "+/a"), 11);
  EXPECT_EQ(needed(2. / 3, 1, "a/a"), 6);
  EXPECT_EQ(needed(2. / 3, 1, "+/a"), 13);
  EXPECT_EQ(needed(1, 0.95, "a/a"), 9);
  EXPECT_EQ(needed(1, 0.95, "+/a"), 21);
}

double after_report(double het, const std::string& report) {
  Json model = recessive_model();
  add_assay(model, "lab", {"0 copies", "1 copy", "2 copies"}, {"+/+", "+/a", "a/a"},
            {{0.995, 0.005, 0}, {0.025, 0.975, 0}, {0, 0, 1}});
  WorkedColony colony(model);
  return colony.founder("animal", claim(het))
      .result("animal", "lab", report)
      .solve()
      .posterior("animal", "+/a");
}

TEST(PossibleHet, AfterALaboratorysReport) {
  // The tabled 0.047848 starts from 66.667 %; two thirds exactly leave 0.047847.
  EXPECT_NEAR(after_report(0.66667, "0 copies"), 0.047848, half_unit(6));
  EXPECT_NEAR(after_report(2. / 3, "0 copies"), 0.047847, half_unit(6));
  EXPECT_NEAR(after_report(0.5, "0 copies"), 0.02451, half_unit(5));
  EXPECT_NEAR(after_report(2. / 3, "1 copy"), 0.997442, half_unit(6));
  EXPECT_NEAR(after_report(0.05, "1 copy"), 0.911215, half_unit(6));
  // exactly: 2/3 25 / (2/3 25 + 1/3 995) and so on
  EXPECT_NEAR(after_report(2. / 3, "0 copies"), 50. / 1045, 1e-12);
  EXPECT_NEAR(after_report(0.05, "1 copy"), 975. / (975 + 19 * 5), 1e-12);
}

TEST(PossibleHet, DoubleHetMultipliesOnlyWhenUnlinked) {
  // Young of two animals that each carry both of two unlinked traits: 2/3 at each, 4/9 at both. The
  // odds of each locus are what the program gives; that they multiply is checked by a marker that
  // reads both: its probability is that of the pair.
  Json model = recessive_model(0.5);
  Json second = model["loci"][0];
  second["id"] = "other";
  model["origins"][0]["frequencies"]["other"] = {{"a", 0.5}};
  model["loci"].push_back(second);
  model["markers"].push_back(
      {{"id", "both"},
       {"levels", {"no", "yes"}},
       {"rows", Json::array({{{"at", {{"trait", "+/a"}, {"other", "+/a"}}}, {"expect", {0, 1}}},
                             {{"at", Json::object()}, {"expect", {1, 0}}}})}});
  const auto log_evidence = [&](bool with_marker) {
    WorkedColony colony(model);
    // A sib that shows both traits proves that its clear parents carry both.
    colony.founder("dam").founder("sire").young({"proof", "young"}, "dam", "sire");
    for (const char* locus : {"trait", "other"}) {
      for (const char* id : {"dam", "sire", "young"}) colony.shows(id, "clear", locus);
      colony.shows("proof", "affected", locus);
    }
    if (with_marker) colony.score("young", "both", "yes");
    return colony.solve().log_evidence();
  };
  EXPECT_NEAR(std::exp(log_evidence(true) - log_evidence(false)), 4. / 9, 1e-12);
}

}  // namespace
}  // namespace likelihet::published::possible_het_table_test
