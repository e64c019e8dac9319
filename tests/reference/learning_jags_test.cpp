// What a colony of 200 animals teaches, against JAGS.
//
// Reference: JAGS (Plummer 2003); learning_jags.py draws the colony and runs the sampler, from the
// truth as its start, and writes learning_jags.csv. Nothing of the program under test is run there.
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <memory>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/learning/learn.hpp>

namespace likelihet::reference::learning_jags_test {
namespace {

std::string text(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/tests/reference/" + name);
  return {std::istreambuf_iterator<char>(file), {}};
}

struct Sampled {
  double mean = 0, error = 0, low = 0, high = 0;
};

// By the names that JAGS gives: "fleck[1 3]" is row 1, level 3.
std::map<std::string, Sampled> sampled() {
  std::istringstream lines(text("learning_jags.csv"));
  std::map<std::string, Sampled> out;
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    std::istringstream cells(line);
    std::string name;
    std::getline(cells, name, ',');
    char comma = 0;
    Sampled one;
    cells >> one.mean >> comma >> one.error >> comma >> one.low >> comma >> one.high;
    out[name] = one;
  }
  return out;
}

std::string name_of(const learning::Parameter& of) {
  using Kind = learning::Parameter::Kind;
  if (of.kind == Kind::scorer) return "sure";
  if (of.kind == Kind::origin) return of.entry == 1 ? "q" : "";
  return std::string(of.of == 0 ? "fleck" : "thread") + "[" + std::to_string(of.row + 1) + " " +
         std::to_string(of.entry + 1) + "]";
}

TEST(JagsLearning, MeansWithinThreeErrorsAndIntervalEndsWithinOneHundredth) {
  auto model = colony::Model::make(
      std::get<colony::ModelDescription>(documents::read_model(text("learning_model.json"))));
  auto made = colony::Colony::make(
      std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model))),
      std::get<colony::Records>(documents::read_colony(text("learning_colony.json"))));
  const auto& colony = std::get<colony::Colony>(made);
  learning::Settings settings;
  settings.draws = 16'000;
  settings.most_sweeps = 32'000;
  const auto found = std::get<learning::Learned>(learning::learn(colony, settings));
  EXPECT_TRUE(found.converged);
  const auto reference = sampled();
  std::size_t compared = 0;
  double largest = 0;
  double largest_end = 0;
  for (const learning::Summary& one : found.summaries) {
    const auto known = reference.find(name_of(one.parameter));
    if (known == reference.end()) continue;
    const Sampled& theirs = known->second;
    SCOPED_TRACE(known->first);
    // Ours has an error too: the spread over the root of its effective size.
    const double spread = (one.high - one.low) / 4;
    const double error = std::hypot(theirs.error, spread / std::sqrt(one.convergence.bulk));
    EXPECT_NEAR(one.mean, theirs.mean, 3 * error);
    EXPECT_NEAR(one.low, theirs.low, 0.01);
    EXPECT_NEAR(one.high, theirs.high, 0.01);
    largest = std::max(largest, std::abs(one.mean - theirs.mean) / error);
    largest_end =
        std::max({largest_end, std::abs(one.low - theirs.low), std::abs(one.high - theirs.high)});
    ++compared;
  }
  EXPECT_EQ(compared, 12U);
  RecordProperty("numbers", std::to_string(compared));
  RecordProperty("largest_difference_in_errors", std::to_string(largest));
  RecordProperty("largest_difference_of_an_end", std::to_string(largest_end));
}

}  // namespace
}  // namespace likelihet::reference::learning_jags_test
