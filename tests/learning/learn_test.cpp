// Whole runs: the same whatever the threads, stoppable, kept and read again.
#include "learning/learning_colony.hpp"

#include <likelihet/learning/learn.hpp>
#include <likelihet/learning/learned_text.hpp>

namespace likelihet::learning::learn_test {
namespace {

using support::recessive_model;
using support::RecordsBuilder;

Ready herd() {
  RecordsBuilder records;
  records.founder("D", genetics::Sex::female).bought_as("tarnbrook", {{"+/e", 1.0}});
  records.founder("S", genetics::Sex::male, "bought").clutch("C", "D", {"S"});
  const char* levels[3] = {"absent", "faint", "strong"};
  for (int i = 0; i < 12; ++i) {
    const std::string id = "H" + std::to_string(i);
    records.hatchling(id, "C").score(id, "crown-fleck", levels[(i * 5) % 3], "ana");
    if (i % 3 == 0) records.result(id, "shed-pcr", i % 2 == 0 ? "carrier" : "clear");
  }
  return {recessive_model(), records.records};
}

Settings quick() {
  Settings settings;
  settings.draws = 300;
  settings.kept = 200;
  return settings;
}

TEST(Learn, DoesNotDependOnThreads) {
  const Ready ready = herd();
  Settings one = quick();
  one.threads = 1;
  Settings many = quick();
  many.threads = 4;
  const auto a = std::get<Learned>(learn(ready.colony(), one));
  const auto b = std::get<Learned>(learn(ready.colony(), many));
  EXPECT_EQ(flat_draws(a, ready.model()), flat_draws(b, ready.model()));
  EXPECT_EQ(write_learned(a), write_learned(b));
}

TEST(Learn, StopsWhenAsked) {
  const Ready ready = herd();
  const std::atomic<bool> stop{true};
  Settings settings = quick();
  settings.stop = &stop;
  EXPECT_TRUE(std::holds_alternative<Stopped>(learn(ready.colony(), settings)));
}

TEST(Learn, SaysWhenChainsDoNotAgreeYet) {
  const Ready ready = herd();
  Settings settings = quick();
  settings.draws = 10;
  settings.most_sweeps = 20;
  const auto found = std::get<Learned>(learn(ready.colony(), settings));
  EXPECT_FALSE(found.converged);
  EXPECT_EQ(found.sweeps, 20U);
}

TEST(Learn, TellsHowFarItIs) {
  const Ready ready = herd();
  Settings settings = quick();
  std::vector<double> told;
  settings.progress = [&](const Progress& progress) { told.push_back(progress.done); };
  learn(ready.colony(), settings);
  ASSERT_FALSE(told.empty());
  for (double done : told) {
    EXPECT_GT(done, 0);
    EXPECT_LE(done, 1);
  }
}

TEST(Learn, IsReadAgainAsItWasWritten) {
  const Ready ready = herd();
  const auto found = std::get<Learned>(learn(ready.colony(), quick()));
  const auto again =
      read_learned(write_learned(found), flat_draws(found, ready.model()), ready.model());
  ASSERT_TRUE(again);
  EXPECT_EQ(write_learned(*again), write_learned(found));
  ASSERT_EQ(again->draws.size(), found.draws.size());
  for (std::size_t d = 0; d < found.draws.size(); ++d) {
    EXPECT_EQ(flat(again->draws[d]), flat(found.draws[d]));
  }
}

TEST(Learn, RefusesWhatDoesNotFitTheModel) {
  const Ready ready = herd();
  const auto found = std::get<Learned>(learn(ready.colony(), quick()));
  auto draws = flat_draws(found, ready.model());
  const std::string text = write_learned(found);
  EXPECT_FALSE(read_learned("{", draws, ready.model()));
  EXPECT_FALSE(read_learned("{}", draws, ready.model()));
  auto other = recessive_model();
  other.markers.push_back(other.markers[0]);
  other.markers[1].id = "side-thread";
  EXPECT_FALSE(read_learned(text, draws, *support::made(other)));
  draws[0] = 2;
  EXPECT_FALSE(read_draws(draws, ready.model()));
  draws.pop_back();
  EXPECT_FALSE(read_draws(draws, ready.model()));
}

// Text that is JSON but lacks something, or holds too little of it.
TEST(Learn, RefusesWhatIsDamaged) {
  const Ready ready = herd();
  const auto found = std::get<Learned>(learn(ready.colony(), quick()));
  const auto draws = flat_draws(found, ready.model());
  const std::string text = write_learned(found);
  for (const char* field : {"modes", "animals", "summaries", "worst", "trace", "chains"}) {
    std::string damaged = text;
    damaged.replace(damaged.find(field), 1, "X");
    EXPECT_FALSE(read_learned(damaged, draws, ready.model())) << field;
  }
  EXPECT_FALSE(read_learned(R"({"version":1,"summaries":7})", draws, ready.model()));
}

// Averaged odds lie between those of the draws, and their intervals around them.
TEST(Learn, OddsAverageOverTheDraws) {
  const Ready ready = herd();
  const auto found = std::get<Learned>(learn(ready.colony(), quick()));
  odds::Options options;
  options.surprises = false;
  options.learned = &found.draws;
  const auto averaged = std::get<odds::ColonyOdds>(odds::compute(ready.colony(), options));
  const std::size_t h = *ready.colony().find_animal("H1");
  double sum = 0;
  double log_sum = 0;
  for (const odds::Tables& draw : found.draws) {
    const auto values = ready.prepared().net.values(odds::Layer::posterior, draw);
    const auto beliefs = inference::infer(*ready.prepared().plan, values);
    sum += odds::genotype_odds(ready.prepared(), beliefs, h, 0)[1];
    log_sum += std::exp(beliefs.log_evidence);
  }
  const auto count = static_cast<double>(found.draws.size());
  const auto& locus = averaged.animals[h].loci[0];
  EXPECT_NEAR(locus.posterior[1], sum / count, 1e-13);
  EXPECT_NEAR(locus.het[0].mean, sum / count, 1e-13);
  EXPECT_LT(locus.het[0].low, locus.het[0].mean);
  EXPECT_GT(locus.het[0].high, locus.het[0].mean);
  EXPECT_NEAR(averaged.log_evidence, std::log(log_sum / count), 1e-9);
}

}  // namespace
}  // namespace likelihet::learning::learn_test
