// Learned prediction against logistic regression fitted to the same tested animals.
//
// Reference: R's glm (R Core Team 2022, version 4.2.2); logistic.R draws the herds, fits and
// predicts, and writes logistic.csv. The herds are drawn here again by the same generator.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "reference/two_classes.hpp"
#include <gtest/gtest.h>

namespace likelihet::reference::logistic_test {
namespace {

constexpr std::size_t animals_of_a_herd = 400;
constexpr std::size_t coefficients = 9;
constexpr std::uint64_t first_state = 753;

// As in logistic.R: the strongest marker first, the last telling nothing.
constexpr std::array markers = {MarkerTruth{{0.75, 0.20, 0.05}, {0.25, 0.35, 0.40}},
                                MarkerTruth{{0.60, 0.30, 0.10}, {0.35, 0.35, 0.30}},
                                MarkerTruth{{0.50, 0.30, 0.20}, {0.40, 0.30, 0.30}},
                                MarkerTruth{{0.40, 0.40, 0.20}, {0.40, 0.40, 0.20}}};

struct Herd {
  std::vector<Marked> animals;
  std::size_t visuals = 0;
};

Herd drawn(bool founders, MinimalStandard& uniform) {
  Herd out;
  while (out.animals.size() < animals_of_a_herd) {
    int copies = 0;
    for (int k = 0; k < (founders ? 2 : 1); ++k) copies += uniform() < (founders ? 0.25 : 0.5);
    if (copies == 2) {
      ++out.visuals;
      continue;
    }
    Marked animal;
    animal.carrier = copies == 1;
    animal.tested = out.animals.size() % 2 == 0;
    for (const MarkerTruth& marker : markers) {
      const double* row = animal.carrier ? marker.carrier : marker.other;
      const double u = uniform();
      animal.levels.push_back(u < row[0] ? 0 : u < row[0] + row[1] ? 1 : 2);
    }
    out.animals.push_back(std::move(animal));
  }
  return out;
}

// Founders out of one place, or forty clutches of ten out of a carrier and a male without "e".
std::vector<double> chances(const Herd& herd, bool founders) {
  support::RecordsBuilder records;
  for (std::size_t v = 0; v < herd.visuals; ++v) {
    const std::string id = "V" + std::to_string(v);
    records.founder(id, std::nullopt, "bought").shows(id, "trait", "tarnbrook");
  }
  std::size_t first = herd.visuals;
  if (!founders) {
    records.founder("S", genetics::Sex::male);
    first = 1;
    for (std::size_t c = 0; c < animals_of_a_herd / 10; ++c) {
      const std::string dam = "D" + std::to_string(c);
      records.founder(dam, genetics::Sex::female).bought_as("trait", {{"+/e", 1.0}});
      records.clutch("C" + std::to_string(c), dam, {"S"});
      ++first;
    }
  }
  for (std::size_t a = 0; a < herd.animals.size(); ++a) {
    const std::string id = "A" + std::to_string(a);
    if (founders) {
      records.founder(id, std::nullopt, "bought");
    } else {
      records.hatchling(id, "C" + std::to_string(a / 10));
    }
    record(records, id, herd.animals[a]);
  }
  const auto model = support::made(marked_model(markers.size()));
  return learned_chances(support::colony_of(model, records.records), herd.animals, first);
}

struct Fit {
  bool founders = false;
  std::size_t number = 0;
  std::size_t visuals = 0, carriers = 0;
  Skill skill;
  std::array<double, coefficients> beta{};

  [[nodiscard]] double chance(const Marked& animal) const {
    double sum = beta[0];
    for (std::size_t m = 0; m < markers.size(); ++m) {
      if (animal.levels[m] > 0) sum += beta[2 * m + animal.levels[m]];
    }
    return 1 / (1 + std::exp(-sum));
  }
};

std::string name(const Fit& fit) {
  return (fit.founders ? "founders " : "clutches ") + std::to_string(fit.number);
}

// In the order in which their herds are drawn.
std::vector<Fit> fits() {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/tests/reference/logistic.csv");
  std::vector<Fit> out;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    for (char& c : line) c = c == ',' ? ' ' : c;
    std::istringstream cells(line);
    std::string herd;
    Fit fit;
    cells >> herd >> fit.number >> fit.visuals >> fit.carriers >> fit.skill.auc >> fit.skill.brier;
    for (double& b : fit.beta) cells >> b;
    fit.founders = herd == "founders";
    if (cells) out.push_back(fit);
  }
  return out;
}

// The herd is R's, the fit is where the likelihood of the tested is highest (its derivative is 0),
// and its skill is what R printed.
TEST(Logistic, FitsAreThoseOfTheHerdsDrawnHere) {
  const auto all = fits();
  ASSERT_EQ(all.size(), 20U);
  MinimalStandard uniform(first_state);
  for (const Fit& fit : all) {
    SCOPED_TRACE(name(fit));
    const Herd herd = drawn(fit.founders, uniform);
    std::array<double, coefficients> slope{};
    std::vector<double> untested;
    std::size_t carriers = 0;
    for (const Marked& animal : herd.animals) {
      carriers += animal.carrier ? 1 : 0;
      const double p = fit.chance(animal);
      if (!animal.tested) {
        untested.push_back(p);
        continue;
      }
      const double residual = (animal.carrier ? 1 : 0) - p;
      slope[0] += residual;
      for (std::size_t m = 0; m < markers.size(); ++m) {
        if (animal.levels[m] > 0) slope[2 * m + animal.levels[m]] += residual;
      }
    }
    EXPECT_EQ(herd.visuals, fit.visuals);
    EXPECT_EQ(carriers, fit.carriers);
    for (double s : slope) EXPECT_NEAR(s, 0, 1e-8);
    const Skill found = skill(herd.animals, untested);
    EXPECT_NEAR(found.auc, fit.skill.auc, 1e-9);
    EXPECT_NEAR(found.brier, fit.skill.brier, 1e-9);
  }
}

// P(carrier) by the tables and the frequency that the herd was drawn with, of the untested.
std::vector<double> true_chances(const Herd& herd, bool founders) {
  std::vector<double> out;
  for (const Marked& animal : herd.animals) {
    if (animal.tested) continue;
    double odds = founders ? 2 * 0.25 / 0.75 : 1;  // 2q(1 - q) : (1 - q)^2
    for (std::size_t m = 0; m < markers.size(); ++m) {
      odds *= markers[m].carrier[animal.levels[m]] / markers[m].other[animal.levels[m]];
    }
    out.push_back(odds / (1 + odds));
  }
  return out;
}

// Over the herds of one kind.
struct Comparison {
  std::size_t herds = 0, lower = 0;
  double ours = 0, theirs = 0, truth = 0;  // sums of Brier scores
  double least_auc = 1;                    // the least difference, ours less theirs

  void add(const Skill& of_ours, const Skill& of_theirs, const Skill& of_truth) {
    ++herds;
    lower += of_ours.brier <= of_theirs.brier ? 1 : 0;
    ours += of_ours.brier;
    theirs += of_theirs.brier;
    truth += of_truth.brier;
    least_auc = std::min(least_auc, of_ours.auc - of_theirs.auc);
  }
  [[nodiscard]] std::string told() const {
    const auto mean = [&](double sum) { return std::to_string(sum / static_cast<double>(herds)); };
    return "Brier " + mean(ours) + " learned; " + mean(theirs) + " logistic; " + mean(truth) +
           " true tables; lower in " + std::to_string(lower) + " of " + std::to_string(herds) +
           "; least gain of AUC " + std::to_string(least_auc);
  }
};

// AUC in each herd, the Brier score on average over the herds of a kind. In a single herd chance
// decides between scores so close: there logistic regression may pass even the true tables.
TEST(Logistic, LearnedOddsPredictNoWorse) {
  const std::size_t of_a_kind = std::getenv("LIKELIHET_LONG") != nullptr ? 10 : 3;
  MinimalStandard uniform(first_state);
  Comparison founders;
  Comparison clutches;
  for (const Fit& fit : fits()) {
    const Herd herd = drawn(fit.founders, uniform);
    if (fit.number > of_a_kind) continue;
    SCOPED_TRACE(name(fit));
    const Skill ours = skill(herd.animals, chances(herd, fit.founders));
    EXPECT_GE(ours.auc, fit.skill.auc - 0.02);
    const Skill truth = skill(herd.animals, true_chances(herd, fit.founders));
    (fit.founders ? founders : clutches).add(ours, fit.skill, truth);
  }
  for (const Comparison& kind : {founders, clutches}) {
    EXPECT_EQ(kind.herds, of_a_kind);
    EXPECT_LE(kind.ours, kind.theirs);
  }
  RecordProperty("founders", founders.told());
  RecordProperty("clutches", clutches.told());
}

}  // namespace
}  // namespace likelihet::reference::logistic_test
