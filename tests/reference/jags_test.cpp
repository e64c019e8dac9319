// The demo colony's posterior against JAGS.
//
// Reference: JAGS (Plummer 2003, "JAGS: a program for analysis of Bayesian graphical models using
// Gibbs sampling"); demo_jags.py builds its model and data from models/demo on its own and rewrites
// demo_jags.csv. Not from the program under test: nothing of it is run there.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <memory>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::reference::jags_test {
namespace {

std::string text(const std::string& path) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + '/' + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

struct Row {
  std::string animal, locus, genotype;
  double mean = 0;
  double error = 0;  // Monte Carlo standard error
};

std::vector<Row> sampled() {
  std::istringstream lines(text("tests/reference/demo_jags.csv"));
  std::vector<Row> rows;
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream cells(line);
    Row row;
    cells >> row.animal >> row.locus >> row.genotype >> row.mean >> row.error;
    rows.push_back(row);
  }
  return rows;
}

class JagsDemo : public testing::Test {
 protected:
  void SetUp() override {
    auto model = colony::Model::make(
        std::get<colony::ModelDescription>(documents::read_model(text("models/demo/model.json"))));
    auto made = colony::Colony::make(
        std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model))),
        std::get<colony::Records>(documents::read_colony(text("models/demo/colony.json"))));
    colony_ = std::make_unique<colony::Colony>(std::get<colony::Colony>(std::move(made)));
    odds::Options options;
    options.draws = 0;
    options.surprises = false;
    odds_ = std::get<odds::ColonyOdds>(odds::compute(*colony_, options));
  }

  double exact(const Row& row) const {
    const std::size_t animal = colony_->find_animal(row.animal).value();
    const std::size_t locus = colony_->model().find_locus(row.locus).value();
    const std::size_t genotype = colony_->model().loci()[locus].find(row.genotype).value();
    return odds_.animals[animal].loci[locus].posterior[genotype];
  }

  std::unique_ptr<colony::Colony> colony_;
  odds::ColonyOdds odds_;
};

TEST_F(JagsDemo, EveryAnimalWithinFourStandardErrors) {
  const auto rows = sampled();
  ASSERT_EQ(rows.size(), colony_->animals().size() * 9);  // three loci of three genotypes
  double largest = 0;
  for (const Row& row : rows) {
    // The output is printed to six decimals: half a unit of the last.
    const double rounding = 5e-7;
    EXPECT_NEAR(row.mean, exact(row), 4 * row.error + rounding)
        << row.animal << ' ' << row.locus << ' ' << row.genotype;
    largest = std::max(largest, std::abs(row.mean - exact(row)));
  }
  RecordProperty("probabilities", std::to_string(rows.size()));
  RecordProperty("largest_difference", std::to_string(largest));
}

// The errors are as large as they say: their standardised squares average about 1, and the sample
// is long enough to tell.
TEST_F(JagsDemo, ErrorsAreHonestAndSmall) {
  double squares = 0;
  std::size_t counted = 0;
  for (const Row& row : sampled()) {
    EXPECT_LT(row.error, 0.002);
    // Where the batches hardly differ, the printed digits are coarser than the errors.
    if (row.mean < 0.02 || row.mean > 0.98 || row.error < 1e-5) continue;
    squares += std::pow((row.mean - exact(row)) / row.error, 2);
    ++counted;
  }
  EXPECT_GE(counted, 40U);
  RecordProperty("mean_squared_error_in_standard_errors",
                 std::to_string(squares / static_cast<double>(counted)));
  EXPECT_LT(squares / static_cast<double>(counted), 2);
  EXPECT_GT(squares / static_cast<double>(counted), 0.3);
}

}  // namespace
}  // namespace likelihet::reference::jags_test
