// Halves drawn as halves.R draws them, and what a book of the tested half says of the others.
#include "reference/halves.hpp"

#include <algorithm>
#include <fstream>
#include <numeric>
#include <sstream>
#include <stdexcept>

#include <gtest/gtest.h>

namespace likelihet {

namespace {

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

// Positions in ascending order of the numbers, equal ones as they stand.
std::vector<std::size_t> ranking(const std::vector<double>& numbers) {
  std::vector<std::size_t> out(numbers.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  std::stable_sort(out.begin(), out.end(),
                   [&](std::size_t a, std::size_t b) { return numbers[a] < numbers[b]; });
  return out;
}

void draw_half(MinimalStandard& uniform, std::size_t half, std::vector<Marked>& all) {
  std::vector<double> drawn(all.size());
  for (double& u : drawn) u = uniform();
  const auto order = ranking(drawn);
  for (std::size_t i = 0; i < order.size(); ++i) all[order[i]].tested = i < half;
}

// Each woman on her own: a carrier as often as the tested are (Laplace's rule), whatever her
// markers.
colony::Colony colony_of(const std::vector<Marked>& all) {
  double tested = 2;
  double carriers = 1;
  for (const Marked& woman : all) {
    tested += woman.tested ? 1 : 0;
    carriers += woman.tested && woman.carrier ? 1 : 0;
  }
  const double rate = carriers / tested;
  support::RecordsBuilder records;
  for (std::size_t w = 0; w < all.size(); ++w) {
    const std::string id = "W" + std::to_string(w);
    records.founder(id).bought_as("trait", {{"+/+", 1 - rate}, {"+/e", rate}});
    record(records, id, all[w]);
  }
  return support::colony_of(support::made(marked_model(all.front().levels.size())),
                            records.records);
}

std::string told(const Skill& of) {
  return "AUC " + std::to_string(of.auc) + ", Brier " + std::to_string(of.brier);
}

}  // namespace

Measured measured(const std::string& file) {
  Measured out;
  for (const std::string& line : lines_of(file)) {
    std::istringstream cells(line);
    std::vector<double> numbers;
    for (double number = 0; cells >> number;) numbers.push_back(number);
    out.carrier.push_back(numbers.back() == 1);
    numbers.pop_back();
    out.columns.resize(numbers.size());
    for (std::size_t c = 0; c < numbers.size(); ++c) out.columns[c].push_back(numbers[c]);
  }
  return out;
}

std::vector<Marked> in_thirds(const Measured& from) {
  const std::size_t women = from.carrier.size();
  std::vector<Marked> out(women);
  for (std::size_t w = 0; w < women; ++w) out[w].carrier = from.carrier[w];
  for (const auto& column : from.columns) {
    const auto order = ranking(column);
    for (std::size_t place = 0; place < women; ++place) {
      out[order[place]].levels.push_back(place * 3 / women);
    }
  }
  return out;
}

Means over_halves(const std::string& file, const std::string& markers, std::vector<Marked> all,
                  std::size_t half, std::size_t halves) {
  const double each = 1 / static_cast<double>(halves);
  Means out;
  MinimalStandard uniform(753);
  for (const std::string& line : lines_of(file)) {
    std::istringstream cells(line);
    std::string name;
    std::size_t number = 0;
    std::size_t carriers = 0;
    Skill theirs;
    cells >> name >> number >> carriers >> theirs.auc >> theirs.brier;
    if (name != markers || number > halves) continue;
    draw_half(uniform, half, all);
    std::size_t untested = 0;
    for (const Marked& woman : all) untested += !woman.tested && woman.carrier ? 1 : 0;
    EXPECT_EQ(untested, carriers) << "half " << number;
    const Skill ours = skill(all, learned_chances(colony_of(all), all, 0));
    out.ours.auc += ours.auc * each;
    out.ours.brier += ours.brier * each;
    out.theirs.auc += theirs.auc * each;
    out.theirs.brier += theirs.brier * each;
  }
  testing::Test::RecordProperty("learned", told(out.ours));
  testing::Test::RecordProperty("logistic", told(out.theirs));
  return out;
}

std::vector<learning::Dependence> dependences(std::vector<Marked> all) {
  for (Marked& woman : all) woman.tested = true;
  const auto colony = colony_of(all);
  return std::get<learning::Learned>(learning::learn(colony, {})).dependences;
}

}  // namespace likelihet
