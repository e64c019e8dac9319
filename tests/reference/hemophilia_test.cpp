// Learned prediction against logistic regression on measurements of 75 women, 45 of them carriers.
//
// Reference: R's glm (R Core Team 2022, version 4.2.2) on twenty halves; hemophilia.R names the
// source of the data, fits, predicts and writes hemophilia_logistic.csv. The halves are drawn here
// again by the same generator. Marks are thirds of what was measured.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <numeric>
#include <sstream>
#include <stdexcept>

#include "reference/two_classes.hpp"
#include <gtest/gtest.h>

#include <likelihet/learning/learn.hpp>

namespace likelihet {
namespace {

constexpr std::size_t women = 75;
constexpr std::size_t half = 38;

struct Measured {
  std::vector<double> activity, antigen, ratio;  // log10, in units of 1e-4
  std::vector<bool> carrier;
};

std::vector<std::string> lines_of(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/tests/reference/" + name);
  std::vector<std::string> out;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::replace(line.begin(), line.end(), ',', ' ');
    out.push_back(line);
  }
  return out;
}

Measured measured() {
  Measured out;
  for (const std::string& line : lines_of("hemophilia.csv")) {
    std::istringstream cells(line);
    double activity = 0, antigen = 0;
    int carrier = 0;
    cells >> activity >> antigen >> carrier;
    out.activity.push_back(std::round(1e4 * activity));
    out.antigen.push_back(std::round(1e4 * antigen));
    out.ratio.push_back(out.antigen.back() - out.activity.back());
    out.carrier.push_back(carrier == 1);
  }
  return out;
}

// Positions in ascending order of the numbers, equal ones as they stand.
std::vector<std::size_t> ranking(const std::vector<double>& numbers) {
  std::vector<std::size_t> out(numbers.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  std::stable_sort(out.begin(), out.end(),
                   [&](std::size_t a, std::size_t b) { return numbers[a] < numbers[b]; });
  return out;
}

std::vector<Marked> marked(const Measured& from, const std::vector<double>& first) {
  std::vector<Marked> out(women);
  for (std::size_t w = 0; w < women; ++w) {
    out[w].carrier = from.carrier[w];
    out[w].levels.resize(2);
  }
  const std::array columns = {ranking(first), ranking(from.antigen)};
  for (std::size_t m = 0; m < columns.size(); ++m) {
    for (std::size_t place = 0; place < women; ++place) {
      out[columns[m][place]].levels[m] = place / (women / 3);
    }
  }
  return out;
}

void draw_half(MinimalStandard& uniform, std::vector<Marked>& all) {
  std::vector<double> drawn(women);
  for (double& u : drawn) u = uniform();
  const auto order = ranking(drawn);
  for (std::size_t i = 0; i < women; ++i) all[order[i]].tested = i < half;
}

// Each woman on her own: a carrier as often as the tested are (Laplace's rule), whatever her marks.
colony::Colony colony_of(const std::vector<Marked>& all) {
  double tested = 2;
  double carriers = 1;
  for (const Marked& woman : all) {
    tested += woman.tested ? 1 : 0;
    carriers += woman.tested && woman.carrier ? 1 : 0;
  }
  const double rate = carriers / tested;
  support::RecordsBuilder records;
  for (std::size_t w = 0; w < women; ++w) {
    const std::string id = "W" + std::to_string(w);
    records.founder(id).bought_as("trait", {{"+/+", 1 - rate}, {"+/e", rate}});
    record(records, id, all[w]);
  }
  return support::colony_of(support::made(marked_model(2)), records.records);
}

bool in_full() {
  return std::getenv("LIKELIHET_LONG") != nullptr;
}

// Means over the halves that R predicted, `marks` being "ratio" or "plain".
struct Means {
  Skill ours, theirs;
};

Means over_halves(const std::string& marks, std::vector<Marked> all) {
  const std::size_t halves = in_full() ? 20 : 8;
  const double each = 1 / static_cast<double>(halves);
  Means out;
  MinimalStandard uniform(753);
  for (const std::string& line : lines_of("hemophilia_logistic.csv")) {
    std::istringstream cells(line);
    std::string pair;
    std::size_t number = 0, carriers = 0;
    Skill theirs;
    cells >> pair >> number >> carriers >> theirs.auc >> theirs.brier;
    if (pair != marks || number > halves) continue;
    draw_half(uniform, all);
    std::size_t untested = 0;
    for (const Marked& woman : all) untested += !woman.tested && woman.carrier ? 1 : 0;
    EXPECT_EQ(untested, carriers) << "half " << number;
    const Skill ours = skill(all, learned_chances(colony_of(all), all, 0));
    out.ours.auc += ours.auc * each;
    out.ours.brier += ours.brier * each;
    out.theirs.auc += theirs.auc * each;
    out.theirs.brier += theirs.brier * each;
  }
  const auto told = [](const Skill& of) {
    return "AUC " + std::to_string(of.auc) + ", Brier " + std::to_string(of.brier);
  };
  testing::Test::RecordProperty("learned", told(out.ours));
  testing::Test::RecordProperty("logistic", told(out.theirs));
  return out;
}

// What learning tells of the two marks, every woman being tested.
learning::Dependence dependence(std::vector<Marked> all) {
  for (Marked& woman : all) woman.tested = true;
  const auto colony = colony_of(all);
  const auto learned = std::get<learning::Learned>(learning::learn(colony, {}));
  if (learned.dependences.size() != 1) throw std::runtime_error("no pair of marks");
  const learning::Dependence& found = learned.dependences.front();
  testing::Test::RecordProperty("correlation", std::to_string(found.correlation));
  testing::Test::RecordProperty("p", std::to_string(found.p));
  return found;
}

// Antigen less activity, the logarithm of their ratio, and antigen: these repeat each other little
// (correlations of 0.20 and 0.43 within the classes, before they are cut into thirds).
TEST(Hemophilia, MarksThatHardlyRepeatEachOtherPredictNoWorse) {
  const Measured from = measured();
  ASSERT_EQ(from.carrier.size(), women);
  const auto all = marked(from, from.ratio);
  const Means found = over_halves("ratio", all);
  EXPECT_GE(found.ours.auc, found.theirs.auc - 0.02);
  EXPECT_LE(found.ours.brier, found.theirs.brier);
  EXPECT_GT(dependence(all).p, 0.05);
}

// Activity and antigen rise together (0.80 and 0.64 within the classes). A product of likelihoods
// predicts worse than the regression there, which weighs one against the other (in full the
// figures are recorded); learning tells that the marks repeat each other.
TEST(Hemophilia, MarksThatRepeatEachOtherAreTold) {
  const Measured from = measured();
  const auto all = marked(from, from.activity);
  const learning::Dependence found = dependence(all);
  EXPECT_GT(found.correlation, 0.3);
  EXPECT_LT(found.p, 0.01);
  if (in_full()) over_halves("plain", all);
}

}  // namespace
}  // namespace likelihet
