// Inbreeding coefficients of matings between relatives.
//
// Source: the list of coefficients after Wright (1922, American Naturalist 56:330) as encyclopedias
// give it (read). An allele of frequency q among founders gives young P(aa) = q^2 + F q (1 - q),
// which is solved for F; two values of q show that F does not depend on it.
#include <string>
#include <vector>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/kinship.hpp>

namespace likelihet::published::wright_inbreeding_test {
namespace {

// Adds founders as it goes: a mate of its own for everyone who needs one.
class Relatives {
 public:
  explicit Relatives(double q) : q_(q), colony_(recessive_model(q)) {}

  std::string founder() {
    const std::string id = numbered("founder", made_++);
    colony_.founder(id);
    return id;
  }
  std::string child(const std::string& dam, const std::string& sire) {
    const std::string id = numbered("animal", made_++);
    colony_.child(id, dam, sire);
    return id;
  }
  double coefficient(const std::string& dam, const std::string& sire) {
    const std::string young = child(dam, sire);
    const double homozygous = colony_.solve().posterior(young, "a/a");
    const auto built = colony_.colony();
    const std::vector<std::size_t> animal = {*built.find_animal(young)};
    by_descent_ = planning::Kinship(built, animal).inbreeding(animal[0]);
    return (homozygous - q_ * q_) / (q_ * (1 - q_));
  }
  // By descent alone, of the young whose coefficient() was asked for last.
  [[nodiscard]] double by_descent() const { return by_descent_; }

 private:
  double q_;
  double by_descent_ = 0;
  int made_ = 0;
  WorkedColony colony_;
};

class WrightsList : public testing::TestWithParam<double> {
 protected:
  Relatives relatives_{GetParam()};
  std::string dam_ = relatives_.founder();
  std::string sire_ = relatives_.founder();
};

TEST_P(WrightsList, FullSibs) {
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(dam_, sire_), relatives_.child(dam_, sire_)),
              0.25, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.25);
}

TEST_P(WrightsList, ParentAndOffspring) {
  EXPECT_NEAR(relatives_.coefficient(dam_, relatives_.child(dam_, sire_)), 0.25, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.25);
}

TEST_P(WrightsList, HalfSibs) {
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(dam_, sire_),
                                     relatives_.child(relatives_.founder(), sire_)),
              0.125, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.125);
}

TEST_P(WrightsList, GrandparentAndGrandchild) {
  const auto mother = relatives_.child(dam_, sire_);
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(mother, relatives_.founder()), sire_), 0.125,
              1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.125);
}

TEST_P(WrightsList, UncleAndNiece) {
  const auto uncle = relatives_.child(dam_, sire_);
  const auto mother = relatives_.child(dam_, sire_);
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(mother, relatives_.founder()), uncle), 0.125,
              1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.125);
}

TEST_P(WrightsList, HalfUncleAndNiece) {
  const auto uncle = relatives_.child(relatives_.founder(), sire_);
  const auto mother = relatives_.child(dam_, sire_);
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(mother, relatives_.founder()), uncle), 0.0625,
              1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.0625);
}

TEST_P(WrightsList, DoubleFirstCousins) {
  const auto other_dam = relatives_.founder();
  const auto other_sire = relatives_.founder();
  const auto her =
      relatives_.child(relatives_.child(dam_, sire_), relatives_.child(other_dam, other_sire));
  const auto his =
      relatives_.child(relatives_.child(other_dam, other_sire), relatives_.child(dam_, sire_));
  EXPECT_NEAR(relatives_.coefficient(her, his), 0.125, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.125);
}

TEST_P(WrightsList, FirstCousins) {
  const auto her = relatives_.child(relatives_.child(dam_, sire_), relatives_.founder());
  const auto his = relatives_.child(relatives_.founder(), relatives_.child(dam_, sire_));
  EXPECT_NEAR(relatives_.coefficient(her, his), 0.0625, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.0625);
}

TEST_P(WrightsList, FirstCousinsOnceRemoved) {
  const auto her = relatives_.child(relatives_.child(dam_, sire_), relatives_.founder());
  const auto his = relatives_.child(relatives_.founder(), relatives_.child(dam_, sire_));
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(her, relatives_.founder()), his), 0.03125,
              1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.03125);
}

TEST_P(WrightsList, HalfFirstCousins) {
  const auto her = relatives_.child(relatives_.child(dam_, sire_), relatives_.founder());
  const auto his =
      relatives_.child(relatives_.founder(), relatives_.child(relatives_.founder(), sire_));
  EXPECT_NEAR(relatives_.coefficient(her, his), 0.03125, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.03125);
}

TEST_P(WrightsList, SecondCousins) {
  const auto her = relatives_.child(relatives_.child(dam_, sire_), relatives_.founder());
  const auto his = relatives_.child(relatives_.founder(), relatives_.child(dam_, sire_));
  EXPECT_NEAR(relatives_.coefficient(relatives_.child(her, relatives_.founder()),
                                     relatives_.child(relatives_.founder(), his)),
              0.015625, 1e-11);
  EXPECT_EQ(relatives_.by_descent(), 0.015625);
}

INSTANTIATE_TEST_SUITE_P(Frequencies, WrightsList, testing::Values(0.01, 0.3));

}  // namespace
}  // namespace likelihet::published::wright_inbreeding_test
