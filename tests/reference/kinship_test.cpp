// Kinship of random pedigrees, and of those that other tests use, against the tabular method in R.
//
// Reference: kinship.R (R Core Team 2022, version 4.2.2) draws the pedigrees, averages doubtful
// sires and unknown sexes over every way they can fall out, and writes both tables; kinship_named.R
// writes those of worked matings and of the demo.
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/planning/kinship.hpp>

namespace likelihet::reference::kinship_test {
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

planning::Kinship kinship_of_all(const colony::Colony& colony, genetics::Chromosome on) {
  std::vector<std::size_t> all(colony.animals().size());
  for (std::size_t a = 0; a < all.size(); ++a) all[a] = a;
  return planning::Kinship(colony, all, on);
}

// Every pair of every pedigree: what the table leaves out is 0.
TEST(KinshipInR, EveryNamedPedigree) {
  const auto pedigrees = read("kinship_named_pedigrees.csv");
  const auto reference = read("kinship_named.csv");
  ASSERT_EQ(pedigrees.size(), 15u);
  std::size_t above_zero = 0, zero = 0;
  for (const auto& [name, rows] : pedigrees) {
    const auto colony = colony_of(rows);
    std::map<std::pair<std::string, std::string>, Cells> table;
    for (const Cells& row : reference.at(name)) {
      table[{row.at("one"), row.at("other")}] = table[{row.at("other"), row.at("one")}] = row;
    }
    for (const auto& [title, on] :
         {std::pair{"autosome", genetics::Chromosome::autosome},
          std::pair{"X", genetics::Chromosome::x}, std::pair{"Z", genetics::Chromosome::z}}) {
      const auto kinship = kinship_of_all(colony, on);
      for (const auto& one : colony.animals()) {
        for (const auto& other : colony.animals()) {
          const auto found = table.find({one.id, other.id});
          const double expected = found == table.end() ? 0 : std::stod(found->second.at(title));
          EXPECT_NEAR(kinship.between(*colony.find_animal(one.id), *colony.find_animal(other.id)),
                      expected, 1e-12)
              << name << ' ' << title << ' ' << one.id << ' ' << other.id;
          ++(expected > 0 ? above_zero : zero);
        }
      }
    }
  }
  EXPECT_GT(above_zero, 9000u);
  EXPECT_GT(zero, 9000u);
}

// The tables of R themselves, against what is published of the last young: Wright's list (1922, as
// encyclopedias give it), Falconer's table of sib matings (from memory, to three digits).
TEST(KinshipInR, TheReferenceAgreesWithWhatIsPublished) {
  const auto reference = read("kinship_named.csv");
  const auto inbreeding = [&](const std::string& pedigree, const std::string& animal) {
    for (const Cells& row : reference.at(pedigree)) {
      if (row.at("one") == animal && row.at("other") == animal) {
        return 2 * std::stod(row.at("autosome")) - 1;
      }
    }
    return -1.0;
  };
  const std::map<std::string, double> wright = {{"full sibs", 1. / 4},
                                                {"parent and offspring", 1. / 4},
                                                {"half sibs", 1. / 8},
                                                {"grandparent and grandchild", 1. / 8},
                                                {"uncle and niece", 1. / 8},
                                                {"double first cousins", 1. / 8},
                                                {"half uncle and niece", 1. / 16},
                                                {"first cousins", 1. / 16},
                                                {"first cousins once removed", 1. / 32},
                                                {"half first cousins", 1. / 32},
                                                {"second cousins", 1. / 64}};
  for (const auto& [name, expected] : wright) EXPECT_EQ(inbreeding(name, "Y"), expected) << name;
  EXPECT_EQ(inbreeding("cousin loop", "10"), 1. / 16);
  const double falconer[] = {0, .25, .375, .5, .594, .672, .734, .785, .826, .859, .886};
  for (int g = 0; g < 11; ++g) {
    EXPECT_NEAR(inbreeding("twenty generations of sibs", "d" + std::to_string(g + 1)), falconer[g],
                5.0001e-4);
  }
  // Each backcross to one founder takes half of what is left to 1/2.
  for (int g = 2; g <= 8; ++g) {
    const auto animal = "x" + std::to_string(g);
    const auto before = "x" + std::to_string(g - 1);
    EXPECT_EQ(0.5 - inbreeding("eight backcrosses", animal),
              (0.5 - inbreeding("eight backcrosses", before)) / 2);
  }
}

std::string text_of(const std::string& path) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/" + path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

colony::Colony demo_colony() {
  return support::colony_of(
      support::made(std::get<colony::ModelDescription>(
          documents::read_model(text_of("models/demo/model.json")))),
      std::get<colony::Records>(documents::read_colony(text_of("models/demo/colony.json"))));
}

// What the demo's table says is what the demo's own document gives: the same animals and parents.
TEST(KinshipInR, TheDemoIsTheDocument) {
  const auto rows = read("kinship_named_pedigrees.csv").at("demo");
  const auto from_table = colony_of(rows);
  const auto demo = demo_colony();
  ASSERT_EQ(demo.animals().size(), from_table.animals().size());
  const auto expected = kinship_of_all(from_table, genetics::Chromosome::z);
  const auto found = kinship_of_all(demo, genetics::Chromosome::z);
  for (const auto& one : demo.animals()) {
    for (const auto& other : demo.animals()) {
      EXPECT_NEAR(
          found.between(*demo.find_animal(one.id), *demo.find_animal(other.id)),
          expected.between(*from_table.find_animal(one.id), *from_table.find_animal(other.id)),
          1e-15)
          << one.id << ' ' << other.id;
    }
  }
}

}  // namespace
}  // namespace likelihet::reference::kinship_test
