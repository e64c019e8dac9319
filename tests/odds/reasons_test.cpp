// What may lie behind a surprise, each reading's weight by hand: exp(gain in log evidence) x its
// chance beforehand.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <string>

#include <gtest/gtest.h>
#include <support/solved_colony.hpp>

#include <likelihet/odds/surprises.hpp>

namespace likelihet::odds::reasons_test {
namespace {

using support::RecordsBuilder;

std::vector<Reason> reasons_of(const colony::ModelDescription& model, const RecordsBuilder& records,
                               const std::string& observation) {
  const auto colony = support::colony_of(model, records);
  return weigh_reasons(scenario(colony, std::nullopt),
                       colony.observations()[*colony.find_observation(observation)],
                       support::only_odds());
}

double share(const std::vector<Reason>& reasons, const std::string& code) {
  const auto found = std::find_if(reasons.begin(), reasons.end(),
                                  [&](const Reason& reason) { return reason.code == code; });
  return found == reasons.end() ? 0 : found->share;
}

void expect_shares(const std::vector<Reason>& reasons) {
  double sum = 0;
  for (std::size_t i = 0; i < reasons.size(); ++i) {
    EXPECT_GT(reasons[i].share, 0);
    EXPECT_FALSE(reasons[i].text.empty());
    if (i > 0) {
      EXPECT_LE(reasons[i].share, reasons[i - 1].share);
    }
    sum += reasons[i].share;
  }
  EXPECT_NEAR(sum, 1, 1e-3) << "all but those under 1e-4";
}

colony::ModelDescription mixing(double mix_up) {
  auto model = support::recessive_model();
  model.assays[0].reports = {"clear", "carrier"};
  model.assays[0].rows = {{"+/+", {0.99, 0.01}}, {"+/e", {0.02, 0.98}}, {"e/e", {0.02, 0.98}}};
  model.assays[0].mix_up = mix_up;
  return model;
}

// A clear founder reported "carrier": without mix-ups the test erred, there is no other reading.
TEST(Reasons, OfAFoundersReportAreTheTestAlone) {
  RecordsBuilder records;
  records.founder("F").result("F", "shed-pcr", "carrier");
  const auto reasons = reasons_of(mixing(0), records, "o1");
  ASSERT_EQ(reasons.size(), 1U);
  EXPECT_EQ(reasons[0].code, "test-erred");
  EXPECT_NEAR(reasons[0].share, 1, 1e-12);
}

// With 3 % mix-ups: erred 0.97 x 0.01 against mixed 0.03 x (0.01 + 0.98 + 0.98)/3.
TEST(Reasons, ShareBetweenTheTestAndTheSample) {
  RecordsBuilder records;
  records.founder("F").result("F", "shed-pcr", "carrier");
  const auto reasons = reasons_of(mixing(0.03), records, "o1");
  expect_shares(reasons);
  const double erred = 0.97 * 0.01;
  const double mixed = 0.03 * 1.97 / 3;
  EXPECT_NEAR(share(reasons, "test-erred"), erred / (erred + mixed), 1e-12);
  EXPECT_NEAR(share(reasons, "sample-mixed-up"), mixed / (erred + mixed), 1e-12);
  EXPECT_EQ(reasons[0].code, "sample-mixed-up");
}

// Where the animal may be what the report says, the record may be right: a carrier with p.
TEST(Reasons, CountTheRecordBeingRight) {
  const double p = 0.004;
  RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"+/+", 1 - p}, {"+/e", p}});
  records.result("F", "shed-pcr", "carrier");
  const auto reasons = reasons_of(mixing(0), records, "o1");
  const double right = p * 0.98;
  const double erred = (1 - p) * 0.01;
  EXPECT_NEAR(share(reasons, "right-as-it-stands"), right / (right + erred), 1e-12);
  EXPECT_NEAR(share(reasons, "test-erred"), erred / (right + erred), 1e-12);
}

// F is clear and G a carrier, and their reports are the other way round: as they stand 0.0197 (F) x
// 0.0299.. with mix-ups; exchanged each is as expected. Weight: ratio x mix_up, beside 1.
TEST(Reasons, FindTwoSamplesSwapped) {
  RecordsBuilder records;
  records.founder("F").founder("G").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.result("F", "shed-pcr", "carrier").on("2024-05-01");
  records.result("G", "shed-pcr", "clear").on("2024-05-20");
  std::get<colony::ResultRecord>(records.observation().what).sample = "S-7";
  const double mix = 0.01;
  const auto reasons = reasons_of(mixing(mix), records, "o1");
  expect_shares(reasons);
  const double carrier_average = 1.97 / 3;
  const double clear_average = 1.03 / 3;
  const double f_carrier = 0.99 * 0.01 + mix * carrier_average;
  const double g_clear = 0.99 * 0.02 + mix * clear_average;
  const double f_clear = 0.99 * 0.99 + mix * clear_average;
  const double g_carrier = 0.99 * 0.98 + mix * carrier_average;
  const double swapped = mix * f_clear * g_carrier / (f_carrier * g_clear);
  EXPECT_NEAR(share(reasons, "samples-swapped"), swapped / (1 + swapped), 1e-10);
  EXPECT_EQ(reasons[0].code, "samples-swapped");
  EXPECT_EQ(reasons[0].text, "its sample and that of G (S-7) were swapped");
}

// Months apart they were in no envelope together.
TEST(Reasons, LeaveOutSamplesOfAnotherSeason) {
  RecordsBuilder records;
  records.founder("F").founder("G").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.result("F", "shed-pcr", "carrier").on("2024-05-01");
  records.result("G", "shed-pcr", "clear").on("2024-07-01");
  EXPECT_EQ(share(reasons_of(mixing(0.01), records, "o1"), "samples-swapped"), 0.0);
  records.on("2024-06-30");
  EXPECT_GT(share(reasons_of(mixing(0.01), records, "o1"), "samples-swapped"), 0.0)
      << "sixty days apart";
}

// A visual H out of a pair that can have none but by a rare claim. Right as it stands 1; another
// sire T, a visual, who fathered another clutch: 0.02 x (1/2 x P(D carries) ...) / P(H visual).
TEST(Reasons, OfALookWeighAnotherSire) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/+", 0.999}, {"+/e", 0.001}});
  records.founder("T").bought_as("tarnbrook", {{"e/e", 1.0}}).founder("K");
  records.clutch("C", "D", {"S"}).hatchling("H", "C").clutch("E", "K", {"T"}).hatchling("N", "E");
  records.shows("H", "tarnbrook", "tarnbrook");
  const auto reasons = reasons_of(support::recessive_model(), records, "o1");
  expect_shares(reasons);
  const double stands = 0.001 / 4;
  const double other_sire = 0.02 * 0.5 / stands;
  const double unplaced = 0.005 * (1.0 / 3) / stands;
  const double whole = 1 + other_sire + unplaced;
  EXPECT_NEAR(share(reasons, "wrong-sire"), other_sire / whole, 1e-10);
  EXPECT_NEAR(share(reasons, "wrong-pedigree"), unplaced / whole, 1e-10);
  EXPECT_NEAR(share(reasons, "right-as-it-stands"), 1 / whole, 1e-10);
  EXPECT_EQ(reasons[0].text, "another male fathered clutch C, T before others");
}

// A male that hatched after the clutch was laid, or out of it, fathered none of it.
TEST(Reasons, LeaveOutMalesThatCouldNot) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/+", 0.999}, {"+/e", 0.001}});
  records.founder("T").bought_as("tarnbrook", {{"e/e", 1.0}});
  records.animal().hatched = support::day("2024-05-01");
  records.founder("K").clutch("C", "D", {"S"});
  records.clutch_record().laid = support::day("2024-04-01");
  records.hatchling("H", "C").hatchling("M", "C");
  records.clutch("E", "K", {"T"}).hatchling("N", "E").clutch("G", "K", {"M"}).hatchling("O", "G");
  records.shows("H", "tarnbrook", "tarnbrook");
  EXPECT_EQ(share(reasons_of(support::recessive_model(), records, "o1"), "wrong-sire"), 0.0);
}

// The look belongs to a clutch-mate: I, as plain as H or visual by the same chance, so the record
// moved gains nothing, and weighs its 1 % beforehand.
TEST(Reasons, OfALookWeighAClutchMate) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/+", 0.999}, {"+/e", 0.001}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C");
  records.shows("H", "tarnbrook", "tarnbrook");
  const auto reasons = reasons_of(support::recessive_model(), records, "o1");
  const double unplaced = 0.005 * (1.0 / 3) / (0.001 / 4);
  EXPECT_NEAR(share(reasons, "wrong-animal"), 0.01 / (1 + 0.01 + unplaced), 1e-10);
}

// A visual H out of D by S, and other males who sired clutches: `odds` are those of each to be
// visual, else clear. In the order given, under the names given.
std::vector<Reason> of_other_sires(const std::vector<std::pair<std::string, double>>& males) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/+", 0.999}, {"+/e", 0.001}});
  for (const auto& [name, visual] : males) {
    records.founder(name).bought_as("tarnbrook", {{"+/+", 1 - visual}, {"e/e", visual}});
  }
  records.founder("K").clutch("C", "D", {"S"}).hatchling("H", "C");
  for (const auto& [name, visual] : males) records.clutch("C-" + name, "K", {name});
  records.shows("H", "tarnbrook", "tarnbrook");
  return reasons_of(support::recessive_model(), records, "o1");
}

std::string text(const std::vector<Reason>& reasons, const std::string& code) {
  const auto found = std::find_if(reasons.begin(), reasons.end(),
                                  [&](const Reason& reason) { return reason.code == code; });
  return found == reasons.end() ? "" : found->text;
}

TEST(Reasons, NameAMaleOnlyWhereHeIsClearlyAhead) {
  EXPECT_EQ(text(of_other_sires({{"T", 0.5}, {"U", 0.25}}), "wrong-sire"),
            "another male fathered clutch C, T before others");
  EXPECT_EQ(text(of_other_sires({{"T", 0.5}, {"U", 0.3}}), "wrong-sire"),
            "another male fathered clutch C; none of 2 stands out");
  EXPECT_EQ(text(of_other_sires({{"T", 0.7}, {"U", 0.7}, {"V", 0.7}}), "wrong-sire"),
            "another male fathered clutch C; none of 3 stands out");
}

TEST(Reasons, TryEveryMale) {
  std::vector<std::pair<std::string, double>> males;
  for (int m = 0; m < 60; ++m) males.emplace_back("M" + std::to_string(m), 0.001);
  males.emplace_back("T", 1.0);
  EXPECT_EQ(text(of_other_sires(males), "wrong-sire"),
            "another male fathered clutch C, T before others");
}

TEST(Reasons, NameAClutchMateOnlyWhereOneIsClearlyAhead) {
  RecordsBuilder records;
  records.founder("D").bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S").bought_as("tarnbrook", {{"+/+", 0.999}, {"+/e", 0.001}});
  records.clutch("C", "D", {"S"}).hatchling("H", "C").hatchling("I", "C").hatchling("J", "C");
  records.shows("H", "tarnbrook", "tarnbrook");
  EXPECT_EQ(text(reasons_of(support::recessive_model(), records, "o1"), "wrong-animal"),
            "it belongs to a clutch-mate; none of 2 stands out");
}

// What is said depends on neither the names of males nor the order of their records.
TEST(Reasons, OfSiresHangOnNoNamesAndNoOrder) {
  std::size_t named = 0;
  for (unsigned seed = 1; seed <= 100; ++seed) {
    std::mt19937 random(seed);
    const std::size_t count = 1 + random() % 50;
    std::vector<double> odds;
    for (std::size_t m = 0; m < count; ++m)
      odds.push_back(0.01 + 0.2 * static_cast<double>(random() % 3));
    if (seed % 2 == 0) odds[random() % count] = 1;
    std::vector<std::string> names;
    for (std::size_t m = 0; m < count; ++m) names.push_back("M" + std::to_string(m));
    const auto said = [&](const std::vector<std::size_t>& order) {
      std::vector<std::pair<std::string, double>> males;
      for (const std::size_t m : order) males.emplace_back(names[m], odds[m]);
      const auto reasons = of_other_sires(males);
      std::string words = text(reasons, "wrong-sire");
      for (std::size_t m = 0; m < count; ++m) {
        const std::string name = ", " + names[m] + " before others";
        if (!words.ends_with(name)) continue;
        words = "male " + std::to_string(m);
        ++named;
      }
      return std::pair(words, share(reasons, "wrong-sire"));
    };
    std::vector<std::size_t> order(count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto first = said(order);
    std::shuffle(order.begin(), order.end(), random);
    std::shuffle(names.begin(), names.end(), random);
    const auto second = said(order);
    EXPECT_EQ(first.first, second.first) << "seed " << seed;
    EXPECT_NEAR(first.second, second.second, 1e-12) << "seed " << seed;
  }
  EXPECT_GT(named, 50U);
}

// A founder has no clutch to be wrong about.
TEST(Reasons, OfAFoundersLookAreNone) {
  RecordsBuilder records;
  records.founder("F", std::nullopt, "bought").shows("F", "tarnbrook", "tarnbrook");
  const auto reasons = reasons_of(support::recessive_model(), records, "o1");
  ASSERT_EQ(reasons.size(), 1U);
  EXPECT_EQ(reasons[0].code, "right-as-it-stands");
  EXPECT_NEAR(reasons[0].share, 1, 1e-15);
}

}  // namespace
}  // namespace likelihet::odds::reasons_test
