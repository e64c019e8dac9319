// What exact odds would take is known before it is taken.
#include <memory>
#include <string>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::odds::memory_test {
namespace {

// Alleles "+", "a1", "a2", ...: so many have n (n + 1) / 2 genotypes.
colony::Colony of_alleles(int alleles) {
  colony::ModelDescription description;
  colony::LocusDescription locus;
  locus.id = "wendlespar";
  locus.alleles = {"+"};
  for (int a = 1; a < alleles; ++a) locus.alleles.push_back("a" + std::to_string(a));
  locus.appearance = {{"default", {{"plain", 1.0}}}};
  description.loci = {locus};
  auto made = colony::Model::make(description);
  auto records = documents::read_colony(
      R"({"format":"likelihet-colony","version":1,"animals":[{"id":"D"},{"id":"S"},
          {"id":"H","clutch":"C"}],"clutches":[{"id":"C","dam":"D","sires":[{"id":"S"}]}],
          "observations":[]})");
  return std::get<colony::Colony>(colony::Colony::make(
      std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(made))),
      std::get<colony::Records>(std::move(records))));
}

Outcome with_memory(const colony::Colony& colony, std::size_t bytes) {
  Options options;
  options.memory_bytes = bytes;
  return compute(colony, options);
}

// 64 alleles have 2080 genotypes; their table of inheritance would be 2080^3 x 8 bytes, 67 GiB,
// four times.
TEST(Memory, ManyAllelesAreRefusedBeforeTheirTableIsMade) {
  const auto outcome = with_memory(of_alleles(64), std::size_t{2} << 30U);
  const auto* large = std::get_if<TooLarge>(&outcome);
  ASSERT_NE(large, nullptr);
  EXPECT_EQ(large->bytes, 4 * 2080.0 * 2080 * 2080 * 8);
  EXPECT_EQ(large->clique, (std::vector<std::pair<std::size_t, std::size_t>>{{2, 0}}));
  EXPECT_NE(large->what.find("wendlespar has 64 alleles and so 2080 genotypes"), std::string::npos);
  EXPECT_NE(large->what.find("2 GiB are allowed"), std::string::npos);
  EXPECT_NE(large->what.find("--memory"), std::string::npos);
}

TEST(Memory, AFewAllelesFit) {
  const auto outcome = with_memory(of_alleles(8), std::size_t{2} << 30U);
  ASSERT_TRUE(std::holds_alternative<ColonyOdds>(outcome));
  // Nobody carries anything but "+" unless an origin says so.
  EXPECT_EQ(std::get<ColonyOdds>(outcome).animals[2].loci[0].posterior[0], 1.0);
}

// Nothing is uncertain here, so nothing is joined.
TEST(Memory, CertainGenotypesNeedHardlyAny) {
  const auto outcome = with_memory(of_alleles(2), 1024);
  ASSERT_TRUE(std::holds_alternative<ColonyOdds>(outcome));
  EXPECT_EQ(std::get<ColonyOdds>(outcome).animals[2].loci[0].posterior,
            (std::vector<double>{1.0, 0.0, 0.0}));
}

}  // namespace
}  // namespace likelihet::odds::memory_test
