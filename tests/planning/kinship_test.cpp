// Kinship on small pedigrees by hand; sires in doubt against every way they can fall out.
#include <cmath>
#include <string>
#include <vector>

#include "support/small_model.hpp"
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/planning/kinship.hpp>

namespace likelihet::planning::kinship_test {
namespace {

using genetics::Chromosome;
using genetics::Sex;
using support::RecordsBuilder;

colony::Colony made(const RecordsBuilder& builder) {
  return support::colony_of(support::made(support::recessive_model()), builder.records);
}

Kinship kinship_of(const colony::Colony& colony, Chromosome on = Chromosome::autosome) {
  std::vector<std::size_t> all;
  for (std::size_t a = 0; a < colony.animals().size(); ++a) all.push_back(a);
  return Kinship(colony, all, on);
}

double between(const colony::Colony& colony, const Kinship& kinship, const std::string& one,
               const std::string& other) {
  return kinship.between(*colony.find_animal(one), *colony.find_animal(other));
}

TEST(Kinship, FoundersAreUnrelated) {
  const auto colony = made(RecordsBuilder().founder("A", Sex::female).founder("B", Sex::male));
  const Kinship kinship = kinship_of(colony);
  EXPECT_EQ(between(colony, kinship, "A", "A"), 0.5);
  EXPECT_EQ(between(colony, kinship, "A", "B"), 0.0);
  EXPECT_EQ(kinship.inbreeding(0), 0.0);
}

// Clutch-mates share parents that nobody named; another such clutch has others.
TEST(Kinship, UnnamedParentsAreOnePairAClutch) {
  const auto colony = made(RecordsBuilder()
                               .clutch("C", std::nullopt, {})
                               .hatchling("H1", "C")
                               .hatchling("H2", "C")
                               .clutch("D", std::nullopt, {})
                               .hatchling("K", "D"));
  const Kinship kinship = kinship_of(colony);
  EXPECT_EQ(between(colony, kinship, "H1", "H2"), 0.25);
  EXPECT_EQ(between(colony, kinship, "H1", "K"), 0.0);
}

// Two possible sires. One for the whole clutch: two offspring are full siblings, 1/4. One for each:
// full siblings with 1/2, else half-siblings: (1/4 + 1/8) / 2. Each has the sire's allele with half
// the chance.
TEST(Kinship, ASireInDoubt) {
  for (const auto paternity : {colony::Paternity::single, colony::Paternity::mixed}) {
    RecordsBuilder builder;
    builder.founder("F", Sex::female).founder("M", Sex::male).founder("N", Sex::male);
    builder.clutch("C", "F", {"M", "N"});
    builder.clutch_record().paternity = paternity;
    builder.hatchling("H1", "C").hatchling("H2", "C");
    const auto colony = made(builder);
    const Kinship kinship = kinship_of(colony);
    const bool single = paternity == colony::Paternity::single;
    EXPECT_EQ(between(colony, kinship, "H1", "H2"), single ? 0.25 : 0.1875);
    EXPECT_EQ(between(colony, kinship, "H1", "M"), 0.125);
    EXPECT_EQ(between(colony, kinship, "H1", "H1"), 0.5);
  }
}

// Shares weigh, and a sire that is the dam's own father makes the offspring inbred with his share.
TEST(Kinship, ASireInDoubtWhoIsKin) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).founder("M", Sex::male).founder("N", Sex::male);
  builder.clutch("C", "F", {"M"}).hatchling("D", "C", Sex::female);
  builder.clutch("E", "D", {"M", "N"});
  builder.clutch_record().sires[0].share = 3;
  builder.clutch_record().sires[1].share = 1;
  builder.hatchling("H", "E");
  const auto colony = made(builder);
  const Kinship kinship = kinship_of(colony);
  // k(D, M) = 1/4.
  EXPECT_NEAR(kinship.inbreeding(*colony.find_animal("H")), 0.75 * 0.25, 1e-15);
}

// The expectation over a clutch's sires, also where offspring of the clutch pair with the
// candidates and with one another: against the average of the pedigrees with each sire put in.
TEST(Kinship, DoubtIsAveragedExactly) {
  const auto pedigree = [](const std::vector<std::string>& first,
                           const std::vector<std::string>& second) {
    RecordsBuilder builder;
    builder.founder("F", Sex::female).founder("M", Sex::male).founder("N", Sex::male);
    builder.clutch("C", "F", first).hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male);
    builder.clutch("E", "D", second).hatchling("H", "E", Sex::female).hatchling("K", "E");
    builder.clutch("G", "H", {"S"}).hatchling("L", "G");
    return made(builder);
  };
  const auto doubt = pedigree({"M", "N"}, {"S", "M"});
  const Kinship expected = kinship_of(doubt);
  const std::size_t animals = doubt.animals().size();
  std::vector<double> mean(animals * animals, 0.0);
  for (const char* first : {"M", "N"}) {
    for (const char* second : {"S", "M"}) {
      const auto settled = pedigree({first}, {second});
      const Kinship kinship = kinship_of(settled);
      for (std::size_t i = 0; i < animals; ++i) {
        for (std::size_t j = 0; j < animals; ++j) {
          mean[i * animals + j] += kinship.between(i, j) / 4;
        }
      }
    }
  }
  for (std::size_t i = 0; i < animals; ++i) {
    for (std::size_t j = 0; j < animals; ++j) {
      EXPECT_NEAR(expected.between(i, j), mean[i * animals + j], 1e-15) << i << ' ' << j;
    }
  }
}

// Z: the female has one copy, from her sire. X: the male, from his dam.
TEST(Kinship, SexLinked) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).founder("M", Sex::male);
  builder.clutch("C", "F", {"M"});
  builder.hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male).hatchling("U", "C");
  const auto colony = made(builder);
  const Kinship z = kinship_of(colony, Chromosome::z);
  EXPECT_EQ(between(colony, z, "F", "F"), 1.0);
  EXPECT_EQ(between(colony, z, "M", "M"), 0.5);
  EXPECT_EQ(between(colony, z, "D", "M"), 0.5);
  EXPECT_EQ(between(colony, z, "D", "F"), 0.0);
  EXPECT_EQ(between(colony, z, "S", "F"), 0.5);
  EXPECT_EQ(between(colony, z, "S", "M"), 0.25);
  EXPECT_EQ(between(colony, z, "D", "S"), 0.25);
  // Of unknown sex: half of each.
  EXPECT_EQ(between(colony, z, "U", "F"), 0.25);
  EXPECT_EQ(between(colony, z, "U", "U"), 0.75);
  const Kinship x = kinship_of(colony, Chromosome::x);
  EXPECT_EQ(between(colony, x, "M", "M"), 1.0);
  EXPECT_EQ(between(colony, x, "S", "F"), 0.5);
  EXPECT_EQ(between(colony, x, "S", "M"), 0.0);
  EXPECT_EQ(between(colony, x, "D", "M"), 0.5);
}

TEST(Kinship, LooksAtAncestorsAlone) {
  RecordsBuilder builder;
  builder.founder("F", Sex::female).founder("M", Sex::male);
  builder.clutch("C", "F", {"M"}).hatchling("D", "C", Sex::female).hatchling("S", "C", Sex::male);
  for (int k = 0; k < 50; ++k) builder.founder("stranger" + std::to_string(k));
  const auto colony = made(builder);
  const std::vector<std::size_t> pair = {*colony.find_animal("D"), *colony.find_animal("S")};
  EXPECT_EQ(Kinship::numbers(colony, pair), 16.0);
  EXPECT_EQ(inbreeding_of_offspring(colony, pair[0], pair[1]), 0.25);
}

// 600 generations of back-crossing to one founder: the worst depth, and a closed form. The
// offspring of generation n are inbred by (1 - 2^(1 - n)) / 2.
TEST(Kinship, ManyGenerations) {
  RecordsBuilder builder;
  builder.founder("M", Sex::male).founder("F0", Sex::female);
  for (int n = 1; n <= 600; ++n) {
    const std::string clutch = "C" + std::to_string(n);
    builder.clutch(clutch, "F" + std::to_string(n - 1), {"M"});
    builder.hatchling("F" + std::to_string(n), clutch, Sex::female);
  }
  const auto colony = made(builder);
  const Kinship kinship = kinship_of(colony);
  for (int n : {1, 2, 3, 10, 40, 600}) {
    EXPECT_NEAR(kinship.inbreeding(*colony.find_animal("F" + std::to_string(n))),
                (1 - std::pow(2.0, 1 - n)) / 2, 1e-15);
  }
}

// Symmetric, from 0 to 1, positive semi-definite as a matrix of covariances must be (checked with
// random combinations), and free of the order of records.
RC_GTEST_PROP(KinshipProperty, IsACovariance, ()) {
  RecordsBuilder builder;
  builder.founder("f0", Sex::female).founder("m0", Sex::male).founder("m1", Sex::male);
  std::vector<std::string> females = {"f0"}, males = {"m0", "m1"};
  const auto size = *rc::gen::inRange(1, 9);
  for (int k = 0; k < size; ++k) {
    const auto number = std::to_string(k);
    std::vector<std::string> sires = {*rc::gen::elementOf(males)};
    const auto second = *rc::gen::elementOf(males);
    if (second != sires[0]) sires.push_back(second);
    builder.clutch("c" + number, *rc::gen::elementOf(females), sires);
    if (*rc::gen::arbitrary<bool>()) {
      builder.clutch_record().paternity = colony::Paternity::mixed;
    }
    builder.hatchling("d" + number, "c" + number, Sex::female);
    builder.hatchling("s" + number, "c" + number, Sex::male);
    females.push_back("d" + number);
    males.push_back("s" + number);
  }
  const auto colony = made(builder);
  const std::size_t animals = colony.animals().size();
  for (auto on : {Chromosome::autosome, Chromosome::x, Chromosome::z}) {
    const Kinship kinship = kinship_of(colony, on);
    double form = 0;
    const auto at = *rc::gen::container<std::vector<int>>(animals, rc::gen::inRange(-5, 6));
    for (std::size_t i = 0; i < animals; ++i) {
      for (std::size_t j = 0; j < animals; ++j) {
        const double k = kinship.between(i, j);
        RC_ASSERT(k >= 0 && k <= 1);
        RC_ASSERT(k == kinship.between(j, i));
        form += at[i] * at[j] * k;
      }
    }
    RC_ASSERT(form >= -1e-9);
  }
}

}  // namespace
}  // namespace likelihet::planning::kinship_test
