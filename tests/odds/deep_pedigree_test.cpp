// Long lines, loops and large clutches: exact to the end, in orders of magnitude no double holds.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

namespace likelihet::odds::deep_pedigree_test {
namespace {

using support::RecordsBuilder;
using support::SolvedColony;

std::string numbered(std::string prefix, int number) {
  return prefix.append(std::to_string(number));
}

// G0 carries for sure; each Gn is out of G(n-1) and a clear mate of its own.
RecordsBuilder line_of(int generations) {
  RecordsBuilder records;
  records.founder("G0").bought_as("tarnbrook", {{"+/e", 1.0}});
  for (int n = 1; n <= generations; ++n) {
    records.founder(numbered("M", n));
    const bool dam = n % 2 == 1;  // hets of the line are dams and sires in turn
    const std::string clutch = numbered("C", n);
    const std::string before = numbered("G", n - 1);
    const std::string mate = numbered("M", n);
    records.clutch(clutch, dam ? before : mate, {dam ? mate : before});
    records.hatchling(numbered("G", n), clutch);
  }
  return records;
}

// Half of what is left in each generation: (1/2)^n.
TEST(LongLine, HalvesTheChanceEachGeneration) {
  const SolvedColony solved(support::recessive_model(), line_of(60));
  for (int n = 0; n <= 60; ++n) {
    const double expected = std::ldexp(1.0, -n);
    EXPECT_NEAR(solved.posterior(numbered("G", n), "+/e") / expected, 1, 1e-12) << n;
  }
}

// A visual at the end of 1,200 generations proves every one of them, at a chance of 2^-1201 that
// no double holds: ln = -1201 ln 2.
TEST(LongLine, IsProvedByAVisualAtItsEnd) {
  constexpr int generations = 1200;
  RecordsBuilder records = line_of(generations);
  records.founder("V").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.clutch("last", numbered("G", generations), {"V"}).hatchling("H", "last");
  records.shows("H", "tarnbrook", "tarnbrook");
  const SolvedColony solved(support::recessive_model(), records);
  for (const int n : {1, 2, 599, generations}) {
    EXPECT_EQ(solved.posterior(numbered("G", n), "+/e"), 1.0) << n;
  }
  EXPECT_NEAR(solved.odds().log_evidence, -(generations + 1) * std::log(2.0), 1e-8);
}

// Soft evidence against such a chance: 420 "carrier" reports of 0.985/0.003 at the end of 1,200
// generations are 10^1057 to 1 for 10^361 to 1 against, and the whole line is carried up with it.
TEST(LongLine, IsTurnedByEnoughReports) {
  constexpr int generations = 1200;
  RecordsBuilder records = line_of(generations);
  auto model = support::recessive_model();
  model.assays[0].mix_up = 0;
  for (int i = 0; i < 420; ++i) {
    records.result(numbered("G", generations), "shed-pcr", "carrier");
  }
  const SolvedColony solved(model, records);
  EXPECT_EQ(solved.posterior(numbered("G", generations), "+/e"), 1.0);
  EXPECT_EQ(solved.posterior("G1", "+/e"), 1.0);
  EXPECT_NEAR(solved.odds().log_evidence, 420 * std::log(0.985) - generations * std::log(2.0),
              1e-7);
}

// Back-crossed to one clear male over and over: a loop in every generation, the same halves.
TEST(BackCross, HalvesTheChanceInLoops) {
  RecordsBuilder records;
  records.founder("G0").bought_as("tarnbrook", {{"+/e", 1.0}}).founder("S");
  for (int n = 1; n <= 40; ++n) {
    const std::string clutch = numbered("C", n);
    records.clutch(clutch, numbered("G", n - 1), {"S"}).hatchling(numbered("G", n), clutch);
  }
  const SolvedColony solved(support::recessive_model(), records);
  for (int n = 0; n <= 40; ++n) {
    EXPECT_NEAR(solved.posterior(numbered("G", n), "+/e") * std::ldexp(1.0, n), 1, 1e-11) << n;
  }
}

// To one carrier instead: with c the chance of an e in a gamete of Gn and 1/4 his own part,
// c(n+1) = (c(n) + 1/2)/2, which nears 1/2; the chance of e/e is c(n)/2.
TEST(BackCross, ToACarrierNearsHisOwnGametes) {
  RecordsBuilder records;
  records.founder("G0").founder("S").bought_as("tarnbrook", {{"+/e", 1.0}});
  for (int n = 1; n <= 30; ++n) {
    const std::string clutch = numbered("C", n);
    records.clutch(clutch, numbered("G", n - 1), {"S"}).hatchling(numbered("G", n), clutch);
  }
  const SolvedColony solved(support::recessive_model(), records);
  double c = 0;
  for (int n = 1; n <= 30; ++n) {
    EXPECT_NEAR(solved.posterior(numbered("G", n), "e/e"), c / 2, 1e-13) << n;
    c = (c + 0.5) / 2;
  }
}

// Sib mated, two siblings a generation: heterozygosity h(n+2) = h(n+1)/2 + h(n)/4 (Wright
// 1921, Genetics 6:124; the recurrence from memory).
TEST(SibMating, LosesHeterozygosity) {
  RecordsBuilder records;
  for (const char* id : {"A0", "B0"}) records.founder(id).bought_as("tarnbrook", {{"+/e", 1.0}});
  for (int n = 1; n <= 25; ++n) {
    const std::string clutch = numbered("C", n);
    records.clutch(clutch, numbered("A", n - 1), {numbered("B", n - 1)});
    records.hatchling(numbered("A", n), clutch).hatchling(numbered("B", n), clutch);
  }
  const SolvedColony solved(support::recessive_model(), records);
  // Two unlike pairs of founders' alleles: h1 = 1/2 of A1 (1:2:1), h2 = 1/2 too.
  double before = 0.5;
  double now = 0.5;
  EXPECT_NEAR(solved.posterior("A1", "+/e"), before, 1e-14);
  EXPECT_NEAR(solved.posterior("B2", "+/e"), now, 1e-14);
  for (int n = 3; n <= 25; ++n) {
    const double next = now / 2 + before / 4;
    before = now;
    now = next;
    EXPECT_NEAR(solved.posterior(numbered("A", n), "+/e"), now, 1e-13) << n;
  }
}

// 5,000 plain hatchlings of one pair, each 3/4 if both carry: the pair's odds at once, and one
// visual among them settles it.
TEST(LargeClutch, IsWeighedWhole) {
  constexpr int offspring = 5000;
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/+", 0.5}, {"+/e", 0.5}});
  records.founder("S").bought_as("tarnbrook", {{"+/e", 1.0}}).clutch("C", "D", {"S"});
  for (int i = 0; i < offspring; ++i) {
    const std::string id = numbered("H", i);
    records.hatchling(id, "C").shows(id, "tarnbrook", "plain");
  }
  records.hatchling("last", "C");
  const SolvedColony plain(support::recessive_model(), records);
  // 0.75^5000 is 1e-625: less than any double, but not impossible, as the visual shows.
  EXPECT_LT(plain.posterior("D", "+/e"), 1e-300);
  EXPECT_NEAR(plain.odds().log_evidence, std::log(0.5), 1e-12);
  EXPECT_NEAR(plain.posterior("last", "+/e"), 0.5, 1e-14);
  records.shows("last", "tarnbrook", "tarnbrook");
  const SolvedColony proved(support::recessive_model(), records);
  EXPECT_EQ(proved.posterior("D", "+/e"), 1.0);
  EXPECT_NEAR(proved.posterior("H7", "+/e"), 2.0 / 3, 1e-14);
  EXPECT_NEAR(proved.odds().log_evidence,
              std::log(0.5) + offspring * std::log(0.75) - std::log(4.0), 1e-7);
}

}  // namespace
}  // namespace likelihet::odds::deep_pedigree_test
