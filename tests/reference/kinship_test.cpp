// Kinship of random pedigrees against the tabular method in R.
//
// Reference: kinship.R (R Core Team 2022, version 4.2.2) draws the pedigrees, averages doubtful
// sires and unknown sexes over every way they can fall out, and writes both tables.
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/planning/kinship.hpp>

namespace likelihet {
namespace {

using Cells = std::map<std::string, std::string>;

std::vector<std::string> parts(const std::string& text, char between) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    if (c == between) {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

// Rows by pedigree, each cell under its title.
std::map<std::string, std::vector<Cells>> read(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/tests/reference/" + name);
  std::string line;
  std::getline(file, line);
  const auto titles = parts(line, ',');
  std::map<std::string, std::vector<Cells>> out;
  while (std::getline(file, line)) {
    const auto cells = parts(line, ',');
    Cells row;
    for (std::size_t c = 0; c < titles.size(); ++c) row[titles[c]] = cells.at(c);
    out[row["pedigree"]].push_back(row);
  }
  return out;
}

colony::Colony colony_of(const std::vector<Cells>& rows) {
  support::RecordsBuilder builder;
  std::string clutch;
  for (const Cells& row : rows) {
    std::optional<genetics::Sex> sex;
    if (!row.at("sex").empty()) {
      sex = row.at("sex") == "female" ? genetics::Sex::female : genetics::Sex::male;
    }
    if (row.at("clutch").empty()) {
      builder.founder(row.at("animal"), sex);
      continue;
    }
    if (row.at("clutch") != clutch) {
      clutch = row.at("clutch");
      const auto sires =
          row.at("sires").empty() ? std::vector<std::string>{} : parts(row.at("sires"), ' ');
      builder.clutch(clutch, row.at("dam").empty() ? std::nullopt : std::optional(row.at("dam")),
                     sires);
      auto& record = builder.clutch_record();
      const auto shares = parts(row.at("shares"), ' ');
      for (std::size_t s = 0; s < record.sires.size(); ++s) {
        record.sires[s].share = std::stod(shares.at(s));
      }
      record.paternity =
          row.at("paternity") == "mixed" ? colony::Paternity::mixed : colony::Paternity::single;
    }
    builder.hatchling(row.at("animal"), clutch, sex);
  }
  return support::colony_of(support::made(support::recessive_model()), builder.records);
}

TEST(KinshipInR, EveryPedigree) {
  const auto pedigrees = read("kinship_pedigrees.csv");
  const auto reference = read("kinship.csv");
  ASSERT_EQ(pedigrees.size(), 12u);
  std::size_t compared = 0;
  for (const auto& [number, rows] : pedigrees) {
    const auto colony = colony_of(rows);
    std::vector<std::size_t> all(colony.animals().size());
    for (std::size_t a = 0; a < all.size(); ++a) all[a] = a;
    const std::pair<const char*, genetics::Chromosome> chromosomes[] = {
        {"autosome", genetics::Chromosome::autosome},
        {"X", genetics::Chromosome::x},
        {"Z", genetics::Chromosome::z}};
    for (const auto& [title, on] : chromosomes) {
      const planning::Kinship kinship(colony, all, on);
      for (const Cells& row : reference.at(number)) {
        EXPECT_NEAR(kinship.between(*colony.find_animal(row.at("one")),
                                    *colony.find_animal(row.at("other"))),
                    std::stod(row.at(title)), 1e-12)
            << "pedigree " << number << ' ' << title << ' ' << row.at("one") << ' '
            << row.at("other");
        ++compared;
      }
    }
  }
  EXPECT_GT(compared, 5000u);
}

}  // namespace
}  // namespace likelihet
