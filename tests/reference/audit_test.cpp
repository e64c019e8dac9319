// Statistics of forecasts against other programs on the same lists.
//
// Reference: audit_r.csv, written by audit.R beside it with R (4.2.2) and its packages pROC, epiR,
// rms, psych and vcd, and audit_python.csv, written by audit.py with scikit-learn (1.2.1), from
// audit_forecasts_1.csv to _6: three made to be awkward (audit_forecasts.py), and three that the
// program exported of books drawn like the demo's (audit_books.py).
#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <likelihet/audit/agreement.hpp>
#include <likelihet/audit/calibration.hpp>
#include <likelihet/audit/isotonic.hpp>
#include <likelihet/audit/roc.hpp>
#include <likelihet/audit/score.hpp>
#include <likelihet/audit/two_by_two.hpp>

namespace likelihet::audit::audit_test {
namespace {

constexpr double tolerance = 1e-6;
// val.prob stops its own fit at a change of 0.00025 in deviance; glm, on the same lists, does not.
constexpr double val_prob_tolerance = 1e-5;
constexpr double nowhere = -1;  // in place of a forecast, for what is of the whole list

struct At {
  std::string statistic;
  double forecast = nowhere;
  auto operator<=>(const At&) const = default;
};

using Found = std::map<At, double>;

std::vector<std::vector<std::string>> rows_of(const std::string& name) {
  std::ifstream file(LIKELIHET_SOURCE_DIR "/tests/reference/" + name);
  std::vector<std::vector<std::string>> out;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    auto& row = out.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(cell);
  }
  return out;
}

// Those whose outcome is certain, as the scripts take them. Clusters are clutches.
std::vector<Case> cases_of(const std::string& list) {
  std::vector<Case> out;
  std::map<std::string, std::size_t> clutches;
  for (const auto& row : rows_of("audit_forecasts_" + list + ".csv")) {
    const double outcome = std::stod(row.at(4));
    if (outcome != 0 && outcome != 1) continue;
    const auto clutch = clutches.try_emplace(row.at(1), clutches.size()).first->second;
    out.push_back({std::stod(row.at(3)), outcome, clutch});
  }
  return out;
}

template <class Change>
std::vector<Case> changed(std::vector<Case> cases, Change change) {
  for (Case& one : cases) one.probability = change(one.probability);
  return cases;
}

void add(Found& found, const std::string& name, const Estimate& of) {
  found[{name}] = of.value;
  found[{name + " low"}] = of.interval.low;
  found[{name + " high"}] = of.interval.high;
}

void add_scores(Found& found, const std::vector<Case>& cases) {
  const auto clamped =
      changed(cases, [](double p) { return std::clamp(p, least_on_logit, 1 - least_on_logit); });
  found[{"brier"}] = brier(cases);
  found[{"clamped brier"}] = brier(clamped);
  found[{"log score"}] = log_score(cases);
  found[{"clamped log score"}] = log_score(clamped);
  if (const auto ratio = observed_expected(cases)) found[{"observed to expected"}] = *ratio;
  if (const auto z = spiegelhalter_z(cases)) found[{"spiegelhalter z"}] = *z;
  if (const auto z = spiegelhalter_z(clamped)) found[{"clamped spiegelhalter z"}] = *z;
  if (const auto area = auc(clamped)) found[{"clamped auc"}] = area->value;
  if (const auto large = calibration_intercept(cases)) found[{"intercept in the large"}] = *large;
  if (const auto fit = calibration_slope(cases)) {
    found[{"intercept"}] = found[{"val.prob intercept"}] = fit->intercept;
    found[{"slope"}] = found[{"val.prob slope"}] = fit->slope;
    found[{"variance of intercept"}] = fit->covariance[0];
    found[{"covariance"}] = fit->covariance[1];
    found[{"variance of slope"}] = fit->covariance[3];
  }
}

void add_curves(Found& found, const std::vector<Case>& cases) {
  if (const auto area = auc(cases)) {
    add(found, "auc", {area->value, area->interval});
    found[{"auc variance"}] = area->standard_error * area->standard_error;
  }
  const auto coarse = changed(cases, [](double p) { return std::nearbyint(10 * p) / 10; });
  if (const auto difference = auc_difference(cases, coarse); difference && difference->z) {
    found[{"auc difference z"}] = *difference->z;
    found[{"auc difference p"}] = *difference->p;
  }
  for (const RocPoint& point : roc_points(cases)) {
    if (!point.threshold) continue;
    found[{"false positive", *point.threshold}] = point.false_positive;
    found[{"true positive", *point.threshold}] = point.true_positive;
  }
  for (const IsotonicStep& step : isotonic(cases)) {
    found[{"isotonic", step.probability}] = step.observed;
  }
  found[{"isotonic index"}] = integrated_calibration_index(cases);
}

void add_table(Found& found, const std::vector<Case>& cases) {
  TwoByTwo table;
  for (const Case& one : cases) {
    const bool called = one.probability >= 0.5;
    if (one.outcome == 1) (called ? table.true_positive : table.false_negative) += 1;
    if (one.outcome == 0) (called ? table.false_positive : table.true_negative) += 1;
  }
  add(found, "se", sensitivity(table));
  add(found, "sp", specificity(table));
  add(found, "lr.pos", positive_ratio(table));
  add(found, "lr.neg", negative_ratio(table));
  add(found, "diag.or", odds_ratio(table));
}

// Calls and outcomes as two scorers: at 1/2, and in thirds with outcomes at the ends.
void add_agreement(Found& found, const std::vector<Case>& cases) {
  for (std::size_t k : {std::size_t{2}, std::size_t{3}}) {
    std::vector<double> table(k * k);
    for (const Case& one : cases) {
      std::size_t call = 0;
      for (std::size_t cut = 1; cut < k; ++cut) {
        const double bound = static_cast<double>(cut) / static_cast<double>(k);
        call += one.probability >= bound ? 1 : 0;
      }
      table[call * k + (one.outcome == 1 ? k - 1 : 0)] += 1;
    }
    const auto put = [&](const std::string& name, const std::vector<double>& weights) {
      const Kappa kappa = cohen_kappa(table, k, weights);
      if (!kappa.value) return;
      found[{name + " of " + std::to_string(k)}] = *kappa.value;
      found[{name + " error of " + std::to_string(k)}] = kappa.standard_error;
    };
    put("kappa", unweighted(k));
    put("linear kappa", linear_weights(k));
    put("quadratic kappa", quadratic_weights(k));
  }
}

Found found_in(const std::string& list) {
  const auto cases = cases_of(list);
  Found out;
  add_scores(out, cases);
  add_curves(out, cases);
  add_table(out, cases);
  add_agreement(out, cases);
  return out;
}

void expect_as_in(const std::string& name, std::size_t at_least) {
  std::map<std::string, Found> ours;
  for (const char* list : {"1", "2", "3", "4", "5", "6"}) ours[list] = found_in(list);
  std::size_t compared = 0;
  for (const auto& row : rows_of(name)) {
    const At at{row.at(1), row.at(2).empty() ? nowhere : std::stod(row.at(2))};
    SCOPED_TRACE("list " + row.at(0) + ", " + at.statistic + " " + row.at(2));
    const Found& of = ours.at(row.at(0));
    const auto found = of.find(at);
    if (row.at(3) == "NA") {
      EXPECT_TRUE(found == of.end());
      continue;
    }
    ASSERT_TRUE(found != of.end());
    const bool by_val_prob = at.statistic.starts_with("val.prob");
    EXPECT_NEAR(found->second, std::stod(row.at(3)), by_val_prob ? val_prob_tolerance : tolerance);
    ++compared;
  }
  EXPECT_GE(compared, at_least);
}

TEST(AuditReference, AgreesWithR) {
  expect_as_in("audit_r.csv", 150);
}

TEST(AuditReference, AgreesWithPython) {
  expect_as_in("audit_python.csv", 150);
}

}  // namespace
}  // namespace likelihet::audit::audit_test
