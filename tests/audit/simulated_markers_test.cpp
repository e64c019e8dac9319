// Verdicts on markers whose truth is known, over many simulated seasons. The shares asked for are
// those that the rules of verdict.hpp promise.
#include <algorithm>

#include "audit/simulated_season.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit::simulated_markers_test {
namespace {

using Row = std::vector<double>;

SeasonMarker marker(const std::string& id, std::function<Row(const Hatchling&)> shows) {
  return {id, 3, std::move(shows), false};
}
SeasonMarker useless() {
  return marker("tail-tint", [](const Hatchling&) { return Row{0.6, 0.25, 0.15}; });
}
Row strong_row(bool carrier) {
  return carrier ? Row{0.25, 0.35, 0.4} : Row{0.8, 0.15, 0.05};
}
SeasonMarker strong() {
  return marker("crown-fleck", [](const Hatchling& h) { return strong_row(h.carrier); });
}

std::vector<MarkerAudit> audited(const Season& season) {
  const colony::Colony colony = season.colony();
  const TruthSettings settings;
  auto found = truths(colony, settings);
  auto background = marker_background(colony, std::get<std::vector<Truth>>(found), settings);
  return audit_markers(colony, std::get<MarkerBackground>(background), 0, 1);
}

const MarkerAudit& of_tarnbrook(const std::vector<MarkerAudit>& markers, std::size_t marker) {
  for (const MarkerAudit& one : markers) {
    if (one.marker == marker && one.locus == 0) return one;
  }
  throw std::logic_error("the marker was not audited");
}

// Share of seasons in which the first marker's verdict is one of these.
double share(const SeasonSettings& settings, const std::vector<Verdict>& wanted,
             std::size_t n = books(200, 60)) {
  std::size_t hits = 0;
  for (std::size_t seed = 0; seed < n; ++seed) {
    const auto markers = audited(simulated_season(settings, 1000 + seed));
    const Verdict verdict = of_tarnbrook(markers, 0).verdict;
    hits += std::find(wanted.begin(), wanted.end(), verdict) != wanted.end() ? 1 : 0;
  }
  const double found = static_cast<double>(hits) / static_cast<double>(n);
  testing::Test::RecordProperty("share", std::to_string(found));
  testing::Test::RecordProperty("books", std::to_string(n));
  return found;
}

// In an instrumented build a dozen books are drawn, for memory and not for statistics: any verdict
// that more than half of them give will do there.
double asked(double wanted) {
#ifdef __SANITIZE_ADDRESS__
  return std::min(wanted, 0.5);
#else
  return wanted;
#endif
}

// Tests whoever shows the first marker clearly, and few others.
double promising_first(const Hatchling& h) {
  return h.levels[0] == 0 ? 0.15 : h.levels[0] == 1 ? 0.5 : 0.85;
}

TEST(SimulatedMarkers, AUselessOneIsCalledUselessOrWithoutEvidence) {
  SeasonSettings settings;
  settings.markers = {useless(), strong()};
  settings.tested = promising_first;
  EXPECT_GE(share(settings, {Verdict::no_evidence_yet, Verdict::does_not_predict}), asked(0.95));
}

TEST(SimulatedMarkers, AUselessOneInALargeBookIsCalledUseless) {
  SeasonSettings settings;
  settings.clutches = 200;
  settings.markers = {useless()};
  settings.tested = promising_first;
  EXPECT_GE(share(settings, {Verdict::does_not_predict}, books(40, 20)), asked(0.5));
}

TEST(SimulatedMarkers, AStrongOneIsFound) {
  SeasonSettings settings;
  settings.markers = {strong(), useless()};
  settings.tested = promising_first;
  EXPECT_GE(share(settings, {Verdict::predicts}), asked(0.9));
}

// Two copies of the other trait hide the marker: hidden animals must not count as "absent".
TEST(SimulatedMarkers, AMaskedOneIsNotBlamed) {
  SeasonSettings settings;
  settings.markers = {marker("crown-fleck", [](const Hatchling& h) {
    return h.shows_other ? Row{1, 0, 0} : strong_row(h.carrier);
  })};
  settings.markers[0].masked_by_other = true;
  settings.other_trait = true;
  settings.clutches = 16;
  EXPECT_GE(share(settings, {Verdict::predicts}), asked(0.9));
}

TEST(SimulatedMarkers, OneThatWorksInOneLineIsFoundWithTwentyAnimalsALine) {
  SeasonSettings settings;
  settings.lines = true;
  settings.clutches = 4;
  settings.hatchlings = 10;
  settings.markers = {marker("crown-fleck", [](const Hatchling& h) {
    if (h.line != "north") return Row{0.6, 0.25, 0.15};
    return h.carrier ? Row{0.05, 0.25, 0.7} : Row{0.9, 0.07, 0.03};
  })};
  settings.tested = [](const Hatchling&) { return 1.0; };
  EXPECT_GE(share(settings, {Verdict::only_in_some_lines}), asked(0.8));
}

TEST(SimulatedMarkers, AnotherTraitsMarkerIsNamedAsSuch) {
  SeasonSettings settings;
  settings.other_trait = true;
  settings.other_tested = true;
  settings.markers = {
      marker("chin-speck", [](const Hatchling& h) { return strong_row(h.other_carrier); })};
  settings.tested = promising_first;
  EXPECT_GE(share(settings, {Verdict::explained_by_another_trait}), asked(0.9));
}

// Who knows the parents sees what is expected: here, in clutches read openly, the marker is written
// down for hets that the scorer already believes in.
TEST(SimulatedMarkers, OneThatWorksOnlyUnblindedIsNamed) {
  SeasonSettings settings;
  settings.clutches = 16;
  settings.blind = [](std::size_t clutch) { return clutch % 2 == 0; };
  settings.markers = {marker("crown-fleck", [](const Hatchling& h) {
    return h.blind ? Row{0.6, 0.25, 0.15}
                   : (h.carrier ? Row{0.1, 0.25, 0.65} : Row{0.85, 0.1, 0.05});
  })};
  settings.tested = [](const Hatchling&) { return 0.9; };
  EXPECT_GE(share(settings, {Verdict::only_unblinded}), asked(0.8));
}

// Testing mostly the promising ones makes the naive sensitivity far too high; the corrected one is
// right on average (Begg and Greenes 1983, Biometrics 39:207).
TEST(SimulatedMarkers, CorrectedSensitivityIsRightWhereTheNaiveOneIsFarOff) {
  SeasonSettings settings;
  settings.clutches = 40;
  settings.markers = {strong()};
  settings.tested = [](const Hatchling& h) { return h.levels[0] == 0 ? 0.1 : 0.7; };
  const std::size_t n = books(200, 60);
  double naive = 0;
  double corrected = 0;
  for (std::size_t seed = 0; seed < n; ++seed) {
    const auto markers = audited(simulated_season(settings, 5000 + seed));
    const auto& cut = of_tarnbrook(markers, 0).cuts[0];
    naive += cut.sensitivity.naive.value / static_cast<double>(n);
    corrected += cut.sensitivity.corrected.value / static_cast<double>(n);
  }
  const double truth = 0.75;
  RecordProperty("naive_error", std::to_string(naive - truth));
  RecordProperty("corrected_error", std::to_string(corrected - truth));
  EXPECT_GT(naive - truth, 0.10);
  EXPECT_NEAR(corrected, truth, 0.02);
}

}  // namespace
}  // namespace likelihet::audit::simulated_markers_test
