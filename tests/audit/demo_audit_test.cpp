// The demo was made to show certain traps; its audit must name each. Source: the demo's own design
// (invented data), where each marker was simulated to be what is asked for here.
#include <algorithm>
#include <fstream>
#include <sstream>

#include "support/small_model.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/audit.hpp>
#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::audit::demo_audit_test {
namespace {

std::string demo_file(const std::string& name) {
  std::ifstream file(std::string(LIKELIHET_SOURCE_DIR) + "/models/demo/" + name);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

const colony::Colony& demo() {
  static const colony::Colony colony = [] {
    auto model = documents::read_model(demo_file("model.json"));
    auto records = documents::read_colony(demo_file("colony.json"));
    return support::colony_of(support::made(std::get<colony::ModelDescription>(std::move(model))),
                              std::get<colony::Records>(std::move(records)));
  }();
  return colony;
}

const Audit& audited() {
  static const Audit found = [] {
    Settings settings;
    settings.scores.resamples = 100;
    return std::get<Audit>(audit(demo(), settings));
  }();
  return found;
}

const MarkerAudit& marker(const std::string& id, const std::string& locus, std::size_t table = 0) {
  for (const MarkerAudit& one : audited().markers) {
    if (demo().model().markers()[one.marker].id == id && one.table == table &&
        demo().model().loci()[one.locus].id() == locus) {
      return one;
    }
  }
  throw std::logic_error("the audit has no " + id);
}

bool warns(const std::string& code) {
  const auto& all = audited().warnings;
  return std::any_of(all.begin(), all.end(), [&](const Warning& w) { return w.code == code; });
}

TEST(DemoAudit, NamesTheMarkerThatIsAnotherTraitsCarriers) {
  const auto& chin = marker("chin-freckle", "fennglass");
  EXPECT_EQ(chin.verdict, Verdict::explained_by_another_trait);
  EXPECT_EQ(demo().model().loci()[chin.other->locus].id(), "orrelwood");
}

TEST(DemoAudit, ClaimsNothingForTheUselessMarkerAndTellsThatScorersDisagree) {
  const auto& tail = marker("tail-tip-paling", "fennglass");
  EXPECT_EQ(tail.verdict, Verdict::no_evidence_yet);
  EXPECT_NE(tail.why.find("scorers agree poorly"), std::string::npos) << tail.why;
}

TEST(DemoAudit, WarnsOutsideTheLineInWhichAMarkWorks) {
  const auto& comma = marker("ventral-comma", "fennglass");
  EXPECT_EQ(comma.verdict, Verdict::predicts);
  EXPECT_NE(comma.why.find("outside line tarrow"), std::string::npos) << comma.why;
  EXPECT_EQ(marker("ventral-comma", "fennglass", 2).verdict, Verdict::no_evidence_yet);
}

TEST(DemoAudit, CountsMaskedAnimalsApartAndNeverAsAbsent) {
  EXPECT_EQ(marker("bar-break", "fennglass").masked, 10U);
}

TEST(DemoAudit, FindsNothingOfTheSecondMarkerBeyondTheOneItRepeats) {
  const auto& ring = marker("iris-ring", "fennglass");
  ASSERT_TRUE(ring.nearest_other);
  EXPECT_EQ(demo().model().markers()[*ring.nearest_other].id, "bar-break");
  EXPECT_GT(ring.adds_to_others->p, 0.05);
}

TEST(DemoAudit, SeesThatMarkersDecidedWhoWasTested) {
  EXPECT_TRUE(warns("tested-by-their-markers"));
  EXPECT_TRUE(warns("results-left-open"));
}

TEST(DemoAudit, NamesTheSeasonThatWasNotBlind) {
  ASSERT_EQ(audited().unblinded.size(), 1U);
  EXPECT_EQ(audited().unblinded[0].season, "2023");
}

TEST(DemoAudit, NamesTheResultThatFitsNeitherParent) {
  const auto& conflicts = audited().conflicts;
  const bool named = std::any_of(conflicts.begin(), conflicts.end(), [](const auto& surprise) {
    return surprise.why.find("24-C6-03") != std::string::npos;
  });
  EXPECT_TRUE(named);
}

}  // namespace
}  // namespace likelihet::audit::demo_audit_test
