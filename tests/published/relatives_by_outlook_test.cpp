// Published coefficients of inbreeding through what a keeper asks: the outlook of two relatives,
// and the ranking of a book that holds them.
//
// Sources: as in wright_inbreeding_test.cpp (the list after Wright 1922, as encyclopedias give it,
// read), kinship2_matrix_test.cpp (the package's own printed test, read) and
// repeated_mating_test.cpp (Falconer's table, from memory).
#include <cmath>
#include <sstream>
#include <string>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/outlook.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::published::relatives_by_outlook_test {
namespace {

using genetics::Sex;

constexpr double q = 0.02;  // of e among founders "bought"

// Words "d:MOTHER,FATHER": an animal and its parents; a word without them is a founder. Names in
// capitals are males.
colony::Colony family(const std::string& text) {
  support::RecordsBuilder builder;
  std::istringstream words(text);
  std::string word;
  while (words >> word) {
    const std::string id = word.substr(0, word.find(':'));
    const Sex sex = id[0] >= 'A' && id[0] <= 'Z' ? Sex::male : Sex::female;
    if (word.find(':') == std::string::npos) {
      builder.founder(id, sex, "bought");
      continue;
    }
    const std::string parents = word.substr(word.find(':') + 1);
    const std::size_t comma = parents.find(',');
    builder.clutch("C-" + id, parents.substr(0, comma), {parents.substr(comma + 1)});
    builder.hatchling(id, "C-" + id, sex);
  }
  return support::colony_of(support::made(support::recessive_model()), builder.records);
}

struct Mating {
  const char* name;
  const char* animals;
  const char* dam;
  const char* sire;
  double coefficient;
};

const Mating matings[] = {
    {"full sibs", "d S she:d,S HE:d,S", "she", "HE", 1. / 4},
    {"parent and offspring", "d S HE:d,S", "d", "HE", 1. / 4},
    {"half sibs", "d e S she:d,S HE:e,S", "she", "HE", 1. / 8},
    {"uncle and niece", "d S M HE:d,S a:d,S she:a,M", "she", "HE", 1. / 8},
    {"double first cousins", "d S e T a:d,S B:d,S c:e,T D:e,T she:a,D HE:c,B", "she", "HE", 1. / 8},
    {"half uncle and niece", "d e S M HE:e,S a:d,S she:a,M", "she", "HE", 1. / 16},
    {"first cousins", "d S M f a:d,S B:d,S she:a,M HE:f,B", "she", "HE", 1. / 16},
    {"first cousins once removed", "d S M N f a:d,S B:d,S n:a,M she:n,N HE:f,B", "she", "HE",
     1. / 32},
    {"half first cousins", "d e S M f a:d,S B:e,S she:a,M HE:f,B", "she", "HE", 1. / 32},
    {"second cousins", "d S M N f g a:d,S B:d,S n:a,M O:f,B she:n,N HE:g,O", "she", "HE", 1. / 64},
    {"strangers", "d S", "d", "S", 0},
};

class Relatives : public testing::TestWithParam<Mating> {
 protected:
  colony::Colony colony_ = family(GetParam().animals);
  planning::Pair pair_ = {*colony_.find_animal(GetParam().dam),
                          *colony_.find_animal(GetParam().sire)};
};

// By descent, and by the odds of a young with two copies: q^2 + F q (1 - q).
TEST_P(Relatives, HaveTheCoefficientOfTheList) {
  const auto made = planning::outlook(colony_, pair_, {}, {});
  const auto& out = std::get<planning::Outlook>(made);
  const double f = GetParam().coefficient;
  EXPECT_EQ(out.inbreeding, f);
  EXPECT_NEAR(out.loci[0].genotypes[2].chance(), q * q + f * q * (1 - q), 1e-13);
  EXPECT_NEAR(out.loci[0].genotypes[1].chance(), 2 * q * (1 - q) * (1 - f), 1e-13);
}

// The ranking of the whole book has the pair with the same figures, and puts no pair of less kin
// that is as likely below it.
TEST_P(Relatives, AreRankedWithTheirCoefficient) {
  const planning::Goal goal{0, 2, 1};
  const auto made = planning::rank(colony_, goal, 6, {}, {});
  const auto& ranking = std::get<planning::Ranking>(made);
  bool found = false;
  for (std::size_t k = 0; k < ranking.pairs.size(); ++k) {
    const auto& one = ranking.pairs[k];
    if (one.pair == pair_) {
      found = true;
      EXPECT_EQ(one.inbreeding, GetParam().coefficient);
      EXPECT_NEAR(one.wanted.chance(), q * q + one.inbreeding * q * (1 - q), 1e-13);
    }
    if (k == 0) continue;
    const auto& before = ranking.pairs[k - 1];
    const double step = before.wanted.at_least_one(6) - one.wanted.at_least_one(6);
    EXPECT_GE(step, -1e-12);
    if (step == 0) {
      EXPECT_LE(before.inbreeding, one.inbreeding);
    }
  }
  EXPECT_TRUE(found);
}

INSTANTIATE_TEST_SUITE_P(WrightsList, Relatives, testing::ValuesIn(matings), [](const auto& of) {
  std::string name = of.param.name;
  for (char& letter : name) letter = letter == ' ' ? '_' : letter;
  return name;
});

// The loop of cousins that kinship2 prints: 10 is the young of 7 and 8, whose kinship is 0.0625; a
// pairing of 7 with her own son would have 0.28125, and one with 9, her cousin, the same 0.0625.
TEST(CousinLoop, OfThePackagesManual) {
  const auto colony = family(
      "ONE two f SIX THREE:two,ONE four:two,ONE seven:f,THREE EIGHT:four,SIX "
      "NINE:four,SIX TEN:seven,EIGHT");
  const auto inbreeding = [&](const char* dam, const char* sire) {
    const auto made =
        planning::outlook(colony, {*colony.find_animal(dam), *colony.find_animal(sire)}, {}, {});
    return std::get<planning::Outlook>(made).inbreeding;
  };
  EXPECT_EQ(inbreeding("seven", "EIGHT"), 0.0625);
  EXPECT_EQ(inbreeding("seven", "NINE"), 0.0625);
  EXPECT_EQ(inbreeding("seven", "TEN"), 0.28125);
  EXPECT_EQ(inbreeding("seven", "THREE"), 0.25);
  EXPECT_EQ(inbreeding("four", "TEN"), 0.1875);
  EXPECT_EQ(inbreeding("two", "TEN"), 0.125);
  EXPECT_EQ(inbreeding("f", "SIX"), 0.0);
}

// Eight backcrosses to one sire: the young of the n-th have 1/2 - 2^-n of inbreeding, and so tends
// the chance of two copies to that of an animal whose alleles are the sire's.
TEST(Backcross, EightTimesToOneSire) {
  std::string animals = "d S";
  std::string dam = "d";
  for (int n = 1; n <= 8; ++n) {
    const std::string young = "x" + std::to_string(n);
    animals += " " + young + ":" + dam + ",S";
    dam = young;
    const auto colony = family(animals);
    const auto made =
        planning::outlook(colony, {*colony.find_animal(young), *colony.find_animal("S")}, {}, {});
    const auto& out = std::get<planning::Outlook>(made);
    const double f = 0.5 - std::pow(2.0, -(n + 1));
    EXPECT_EQ(out.inbreeding, f);
    EXPECT_NEAR(out.loci[0].genotypes[2].chance(), q * q + f * q * (1 - q), 1e-13);
  }
}

}  // namespace
}  // namespace likelihet::published::relatives_by_outlook_test
