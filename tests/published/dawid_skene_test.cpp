// Five anaesthetists grade forty-five patients; nobody knows the true grade.
//
// Source: A. P. Dawid and A. M. Skene, "Maximum likelihood estimation of observer error-rates using
// the EM algorithm", Applied Statistics 28 (1979) 20-28. Table 1 was read in two open copies of the
// data, of which one is used where they differ (patient 7). The printed class proportions .40 .42
// .11 .07 are from memory; the further digits were recomputed from the table by the paper's
// formulas.
#include <array>

#include "published/taught.hpp"
#include <gtest/gtest.h>

namespace likelihet::published::dawid_skene_test {
namespace {

// By patient: three readings of observer 1, then one each of observers 2 to 5.
constexpr std::array<const char*, 45> table_1 = {
    "1111111", "3334334", "1122122", "2223121", "2223222", "2223322", "1222111", "3333433",
    "2222223", "2322223", "4444444", "2223343", "1111111", "2223212", "1211111", "1112111",
    "1111111", "1111111", "2222221", "2221322", "2222222", "2222221", "2223222", "2212222",
    "1111111", "1111111", "2322222", "1111111", "1111111", "1121121", "1111111", "3333233",
    "1111111", "2222222", "2223232", "4334343", "2212232", "2323233", "3333432", "1111111",
    "1111111", "1212111", "2322222", "1211111", "2222222"};

// The paper's start (equation 3.1): each patient's grades in proportion to what was said of it.
// EM has several modes here, and which one it climbs to depends on the start.
struct Start {
  double grades[4] = {};       // proportions
  double rates[5][4][4] = {};  // observer, grade, said

  Start() {
    for (const std::string readings : table_1) {
      for (const char of : readings) {
        const std::size_t grade = index(of);
        grades[grade] += 1.0 / 7 / 45;
        for (std::size_t i = 0; i < 7; ++i) {
          rates[i < 3 ? 0 : i - 2][grade][index(readings[i])] += 1.0 / 7;
        }
      }
    }
    for (auto& observer : rates) {
      for (auto& row : observer) {
        const double whole = row[0] + row[1] + row[2] + row[3];
        for (double& p : row) p /= whole;
      }
    }
  }
  static std::size_t index(char grade) { return static_cast<std::size_t>(grade - '1'); }
};

// The grade is the allele of a male at an X locus, whose proportions are free. Each of his
// daughters has that allele and a "+" of her dam, and bears one reading of observer 1: readings of
// one table that know the grade and nothing of each other.
class Anaesthetists {
 public:
  Anaesthetists() {
    for (int observer = 1; observer <= 5; ++observer) add_observer(observer);
    for (std::size_t patient = 0; patient < table_1.size(); ++patient) add_patient(patient);
  }

  colony::Colony colony() const {
    const Json model = {
        {"format", "likelihet-model"},
        {"version", 1},
        {"sex_chromosomes", "XY"},
        {"loci",
         {{{"id", "grade"},
           {"on", "X"},
           {"alleles", {"+", "1", "2", "3", "4"}},
           {"appearance", {{"default", "asleep"}}}}}},
        {"origins",
         {{{"id", "patients"},
           {"frequencies",
            {{"grade",
              {{"1", start_.grades[0]},
               {"2", start_.grades[1]},
               {"3", start_.grades[2]},
               {"4", 1 - start_.grades[0] - start_.grades[1] - start_.grades[2]}}}}},
           {"worth", hardly_any}}}},
        {"markers", markers_}};
    const Json colony = {{"format", "likelihet-colony"},
                         {"version", 1},
                         {"animals", animals_},
                         {"clutches", clutches_},
                         {"observations", observations_}};
    return read(model.dump(), colony.dump());
  }

 private:
  void add_observer(int observer) {
    Json rows = Json::array();
    for (int grade = 1; grade <= 4; ++grade) {
      Json expect = Json::array();
      for (double p : start_.rates[observer - 1][grade - 1]) expect.push_back(p);
      rows.push_back(
          {{"at", {{"grade", numbered("+/", grade)}}}, {"expect", expect}, {"worth", hardly_any}});
    }
    rows.push_back({{"at", Json::object()}, {"expect", {.25, .25, .25, .25}}, {"worth", 1}});
    markers_.push_back({{"id", numbered("observer ", observer)},
                        {"levels", {"1", "2", "3", "4"}},
                        {"rows", rows}});
  }

  void add_patient(std::size_t patient) {
    const std::string sire = numbered("patient ", patient + 1);
    animals_.push_back({{"id", sire}, {"sex", "male"}, {"origin", "patients"}});
    clutches_.push_back({{"id", sire}, {"sires", Json::array({{{"id", sire}}})}});
    const std::string readings = table_1[patient];
    for (std::size_t i = 0; i < 3; ++i) {
      const std::string daughter = sire + numbered(", reading ", i + 1);
      animals_.push_back({{"id", daughter}, {"sex", "female"}, {"clutch", sire}});
      add_reading(daughter, 1, readings[i]);
      for (std::size_t observer = 2; i == 0 && observer <= 5; ++observer) {
        add_reading(daughter, observer, readings[observer + 1]);
      }
    }
  }

  void add_reading(const std::string& daughter, std::size_t observer, char said) {
    observations_.push_back({{"id", numbered("o", observations_.size())},
                             {"kind", "score"},
                             {"animal", daughter},
                             {"marker", numbered("observer ", observer)},
                             {"level", std::string(1, said)}});
  }

  Start start_;
  Json markers_ = Json::array();
  Json animals_ = Json::array();
  Json clutches_ = Json::array();
  Json observations_ = Json::array();
};

TEST(DawidSkene, GradesAndErrorRates) {
  const odds::Tables tables = likeliest(Anaesthetists().colony());
  const auto& grades = tables.origins[0][0];
  const std::array printed = {.40, .42, .11, .07};
  const std::array recomputed = {0.39955475288, 0.42198339191, 0.11179518854, 0.06666666667};
  for (std::size_t k = 0; k < 4; ++k) {
    EXPECT_NEAR(grades[k + 1], printed[k], half_unit(2)) << k;
    EXPECT_NEAR(grades[k + 1], recomputed[k], 1e-5) << k;
  }
  // Error rates, recomputed: observer 1 in full, and what is not 0 or 1 of observer 4's first row.
  const double observer_1[4][4] = {{0.8894883487, 0.1105116513, 0, 0},
                                   {0.0705854505, 0.8763799368, 0.0530346126, 0},
                                   {0, 0.3388215402, 0.6611784598, 0},
                                   {0, 0, 0.5555555556, 0.4444444444}};
  for (std::size_t grade = 0; grade < 4; ++grade) {
    for (std::size_t said = 0; said < 4; ++said) {
      EXPECT_NEAR(tables.rows[0][0][grade][said], observer_1[grade][said], 1e-5);
    }
  }
  EXPECT_NEAR(tables.rows[3][0][0][0], 0.9444300399, 1e-5);
}

}  // namespace
}  // namespace likelihet::published::dawid_skene_test
