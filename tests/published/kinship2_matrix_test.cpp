// Kinship matrices of a ten-animal pedigree with a first-cousin loop, autosomal and of the X.
//
// Source: tests/test.kinX.Rout.save of the R package kinship2 (Sinnwell, Therneau and Schaid 2014,
// Human Heredity 78:91), read. There 8 and 9 are identical twins; here they are full sibs, so rows
// of 9 are left out where they differ, and the autosomal 8-9 and 9-10 are 0.25 and 0.15625 by the
// same tabular rules.
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/kinship.hpp>

namespace likelihet::published::kinship2_matrix_test {
namespace {

// Dam and sire turned round from the source's "dad, mom" columns.
colony::Colony family() {
  WorkedColony colony(recessive_model());
  for (const char* id : {"1", "6"}) colony.founder(id).sex(id, "male");
  for (const char* id : {"2", "5"}) colony.founder(id).sex(id, "female");
  colony.child("3", "2", "1", "male").child("4", "2", "1", "female");
  colony.child("7", "5", "3", "female");
  colony.child("8", "4", "6", "male").child("9", "4", "6", "male");
  colony.child("10", "7", "8", "female");
  return colony.colony();
}

planning::Kinship kinship_of(const colony::Colony& colony, genetics::Chromosome on) {
  std::vector<std::size_t> all(colony.animals().size());
  for (std::size_t a = 0; a < all.size(); ++a) all[a] = a;
  return planning::Kinship(colony, all, on);
}

using Row = std::vector<double>;

void expect_matrix(const std::vector<Row>& expected, genetics::Chromosome on) {
  const auto colony = family();
  const auto kinship = kinship_of(colony, on);
  for (std::size_t i = 0; i < 10; ++i) {
    for (std::size_t j = 0; j < 10; ++j) {
      EXPECT_NEAR(kinship.between(*colony.find_animal(std::to_string(i + 1)),
                                  *colony.find_animal(std::to_string(j + 1))),
                  expected[i][j], 1e-12)
          << i + 1 << ' ' << j + 1;
    }
  }
}

TEST(Kinship2Matrix, Autosome) {
  expect_matrix({{0.500, 0.000, 0.2500, 0.2500, 0.000, 0.000, 0.12500, 0.12500, 0.12500, 0.12500},
                 {0.000, 0.500, 0.2500, 0.2500, 0.000, 0.000, 0.12500, 0.12500, 0.12500, 0.12500},
                 {0.250, 0.250, 0.5000, 0.2500, 0.000, 0.000, 0.25000, 0.12500, 0.12500, 0.18750},
                 {0.250, 0.250, 0.2500, 0.5000, 0.000, 0.000, 0.12500, 0.25000, 0.25000, 0.18750},
                 {0.000, 0.000, 0.0000, 0.0000, 0.500, 0.000, 0.25000, 0.00000, 0.00000, 0.12500},
                 {0.000, 0.000, 0.0000, 0.0000, 0.000, 0.500, 0.00000, 0.25000, 0.25000, 0.12500},
                 {0.125, 0.125, 0.2500, 0.1250, 0.250, 0.000, 0.50000, 0.06250, 0.06250, 0.28125},
                 {0.125, 0.125, 0.1250, 0.2500, 0.000, 0.250, 0.06250, 0.50000, 0.25000, 0.28125},
                 {0.125, 0.125, 0.1250, 0.2500, 0.000, 0.250, 0.06250, 0.25000, 0.50000, 0.15625},
                 {0.125, 0.125, 0.1875, 0.1875, 0.125, 0.125, 0.28125, 0.28125, 0.15625, 0.53125}},
                genetics::Chromosome::autosome);
  const auto colony = family();
  EXPECT_NEAR(
      kinship_of(colony, genetics::Chromosome::autosome).inbreeding(*colony.find_animal("10")),
      0.0625, 1e-12);
}

// Twins' rows: 8-9 is k(4, 4) = 0.5 for full brothers, 9-10 half of k(7, 9) + k(8, 9) = 0.3125.
TEST(Kinship2Matrix, X) {
  expect_matrix({{1.00, 0.00, 0.000, 0.5000, 0.000, 0, 0.0000, 0.5000, 0.5000, 0.2500},
                 {0.00, 0.50, 0.500, 0.2500, 0.000, 0, 0.2500, 0.2500, 0.2500, 0.2500},
                 {0.00, 0.50, 1.000, 0.2500, 0.000, 0, 0.5000, 0.2500, 0.2500, 0.3750},
                 {0.50, 0.25, 0.250, 0.5000, 0.000, 0, 0.1250, 0.5000, 0.5000, 0.3125},
                 {0.00, 0.00, 0.000, 0.0000, 0.500, 0, 0.2500, 0.0000, 0.0000, 0.1250},
                 {0.00, 0.00, 0.000, 0.0000, 0.000, 1, 0.0000, 0.0000, 0.0000, 0.0000},
                 {0.00, 0.25, 0.500, 0.1250, 0.250, 0, 0.5000, 0.1250, 0.1250, 0.3125},
                 {0.50, 0.25, 0.250, 0.5000, 0.000, 0, 0.1250, 1.0000, 0.5000, 0.5625},
                 {0.50, 0.25, 0.250, 0.5000, 0.000, 0, 0.1250, 0.5000, 1.0000, 0.3125},
                 {0.25, 0.25, 0.375, 0.3125, 0.125, 0, 0.3125, 0.5625, 0.3125, 0.5625}},
                genetics::Chromosome::x);
}

// The same family with the sexes turned round: Z is X seen in a mirror.
TEST(Kinship2Matrix, ZIsXTurnedRound) {
  WorkedColony turned(recessive_model());
  for (const char* id : {"1", "6"}) turned.founder(id).sex(id, "female");
  for (const char* id : {"2", "5"}) turned.founder(id).sex(id, "male");
  turned.child("3", "1", "2", "female").child("4", "1", "2", "male");
  turned.child("7", "3", "5", "male");
  turned.child("8", "6", "4", "female").child("9", "6", "4", "female");
  turned.child("10", "8", "7", "male");
  const auto mirror = turned.colony();
  const auto colony = family();
  const auto z = kinship_of(mirror, genetics::Chromosome::z);
  const auto x = kinship_of(colony, genetics::Chromosome::x);
  for (int i = 1; i <= 10; ++i) {
    for (int j = 1; j <= 10; ++j) {
      const auto one = std::to_string(i), other = std::to_string(j);
      EXPECT_EQ(z.between(*mirror.find_animal(one), *mirror.find_animal(other)),
                x.between(*colony.find_animal(one), *colony.find_animal(other)));
    }
  }
}

}  // namespace
}  // namespace likelihet::published::kinship2_matrix_test
