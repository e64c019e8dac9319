// Three markers of a poor outcome in 113 patients: areas under ROC curves and their differences.
//
// Source: N. Turck et al., Intensive Care Medicine 36 (2010) 107-115; the data as given out with
// the R package pROC (1.18.0; X. Robin et al., BMC Bioinformatics 12 (2011) 77). The area .7314 of
// S100B and its interval .6301 to .8326 were read in print; the other markers and the paired tests
// are that package's output, by the method of E. R. DeLong, D. M. DeLong and D. L. Clarke-Pearson,
// Biometrics 44 (1988) 837-845.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/roc.hpp>

namespace likelihet::published::turck_roc_test {
namespace {

struct Patient {
  int poor;
  double wfns;   // grade, 1 to 5
  double s100b;  // micrograms a litre
  double ndka;   // micrograms a litre
};

constexpr std::array<Patient, 113> patients = {
    {{0, 1, 0.13, 3.01},  {0, 1, 0.14, 8.54},  {0, 1, 0.1, 8.09},    {0, 1, 0.04, 10.42},
     {1, 3, 0.13, 17.4},  {1, 2, 0.1, 12.75},  {0, 5, 0.47, 6},      {1, 4, 0.16, 13.2},
     {0, 1, 0.18, 15.54}, {0, 2, 0.1, 6.01},   {1, 5, 0.12, 15.96},  {0, 2, 0.1, 17.86},
     {1, 5, 0.44, 5.18},  {1, 5, 0.71, 8.9},   {0, 1, 0.04, 13.41},  {0, 2, 0.08, 20.75},
     {1, 5, 0.49, 11.6},  {0, 2, 0.04, 16.11}, {1, 2, 0.07, 32.37},  {1, 5, 0.33, 54.82},
     {1, 2, 0.09, 32.41}, {0, 1, 0.09, 49.94}, {1, 1, 0.07, 40.34},  {0, 1, 0.11, 9.47},
     {0, 1, 0.07, 6.29},  {0, 2, 0.17, 12.53}, {0, 1, 0.07, 6.54},   {0, 2, 0.11, 6.3},
     {0, 1, 0.13, 80.3},  {0, 1, 0.19, 12.8},  {0, 3, 0.05, 9.8},    {0, 4, 0.16, 9.81},
     {1, 2, 0.41, 9.85},  {0, 1, 0.14, 18.21}, {0, 4, 0.34, 5.03},   {1, 5, 0.35, 14.04},
     {1, 4, 0.48, 21.93}, {0, 1, 0.09, 8.02},  {1, 4, 0.96, 7.42},   {1, 2, 0.25, 8.38},
     {0, 5, 0.5, 6.59},   {0, 5, 0.46, 9.63},  {0, 1, 0.16, 13.12},  {0, 1, 0.07, 7.96},
     {0, 2, 0.43, 14.34}, {0, 4, 0.45, 41.43}, {0, 1, 0.11, 7.63},   {0, 1, 0.08, 7.06},
     {0, 2, 0.09, 12.59}, {1, 5, 0.86, 13.56}, {1, 5, 0.52, 3.87},   {0, 2, 0.08, 9.44},
     {0, 1, 0.06, 7.66},  {0, 2, 0.13, 12.98}, {1, 5, 2.07, 419.19}, {0, 1, 0.1, 27.19},
     {0, 2, 0.14, 22.27}, {0, 2, 0.15, 9.95},  {1, 2, 0.07, 21.22},  {0, 1, 0.06, 11.73},
     {1, 5, 0.77, 10.4},  {0, 1, 0.05, 58.83}, {0, 1, 0.09, 6.39},   {1, 2, 0.3, 11.09},
     {1, 5, 0.03, 12.22}, {1, 2, 0.09, 13.67}, {0, 1, 0.04, 17.21},  {1, 4, 0.23, 22.63},
     {1, 5, 0.7, 12.9},   {0, 2, 0.09, 9.7},   {1, 4, 0.27, 21.57},  {1, 4, 0.71, 8.23},
     {1, 1, 0.08, 72.57}, {1, 4, 0.26, 15.54}, {0, 1, 0.08, 10.51},  {0, 2, 0.16, 10.6},
     {0, 1, 0.09, 14.57}, {1, 4, 0.13, 5.19},  {1, 2, 0.1, 9.63},    {0, 1, 0.08, 4.61},
     {1, 2, 0.11, 21.48}, {0, 3, 0.33, 17.3},  {0, 2, 0.11, 12.71},  {0, 4, 0.28, 9.44},
     {0, 2, 0.07, 11.07}, {0, 1, 0.1, 19.46},  {0, 4, 0.32, 10.83},  {1, 5, 0.22, 5.37},
     {0, 1, 0.07, 11.97}, {0, 1, 0.05, 7.75},  {0, 5, 0.24, 9.83},   {0, 4, 0.38, 10.55},
     {0, 2, 0.1, 28.49},  {0, 2, 0.15, 8.53},  {0, 1, 0.08, 12.57},  {0, 1, 0.14, 12.9},
     {0, 1, 0.1, 46.83},  {0, 3, 0.07, 11.68}, {0, 1, 0.04, 12.67},  {0, 2, 0.19, 9.01},
     {1, 5, 0.56, 9.57},  {1, 2, 0.14, 34.06}, {1, 2, 0.58, 11.72},  {1, 5, 0.32, 14.26},
     {1, 5, 0.82, 47.61}, {1, 5, 0.74, 11.67}, {0, 2, 0.15, 24.58},  {0, 4, 0.47, 10.33},
     {0, 4, 0.17, 13.87}, {1, 5, 0.44, 15.89}, {0, 1, 0.15, 22.43},  {0, 1, 0.5, 6.79},
     {0, 1, 0.48, 13.45}}};

// Any rising function of a marker has its ROC curve: here a multiple that lies in [0, 1].
std::vector<audit::Case> by(double Patient::*marker, double scale) {
  std::vector<audit::Case> out;
  for (const Patient& patient : patients) {
    out.push_back({patient.*marker * scale, static_cast<double>(patient.poor), 0});
  }
  return out;
}

const std::vector<audit::Case> wfns = by(&Patient::wfns, 0.1);
const std::vector<audit::Case> s100b = by(&Patient::s100b, 0.1);
const std::vector<audit::Case> ndka = by(&Patient::ndka, 0.001);

void expect_area(const std::vector<audit::Case>& cases, double value, double low, double high) {
  const auto found = audit::auc(cases);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->value, value, 1e-10);
  EXPECT_NEAR(found->interval.low, low, 1e-10);
  EXPECT_NEAR(found->interval.high, high, 1e-10);
}

TEST(Turck, PrintedArea) {
  const auto found = audit::auc(s100b);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->value, .7314, half_unit(4));
  EXPECT_NEAR(found->interval.low, .6301, half_unit(4));
  EXPECT_NEAR(found->interval.high, .8326, half_unit(4));
  EXPECT_NEAR(found->standard_error * found->standard_error, 0.0026686824572, 1e-12);
}

TEST(Turck, Areas) {
  expect_area(s100b, 0.73136856369, 0.63011821176, 0.83261891561);
  expect_area(ndka, 0.61195799458, 0.50124499927, 0.72267098989);
  expect_area(wfns, 0.82367886179, 0.74853488782, 0.89882283576);
}

void expect_test(const std::vector<audit::Case>& first, const std::vector<audit::Case>& second,
                 double z, double p) {
  const auto found = audit::auc_difference(first, second);
  ASSERT_TRUE(found && found->z && found->p);
  EXPECT_NEAR(*found->z, z, 1e-9);
  EXPECT_NEAR(*found->p, p, 1e-10);
}

TEST(Turck, PairedDifferences) {
  expect_test(s100b, ndka, 1.3907700257, 0.16429517522);
  expect_test(wfns, s100b, 2.2089835914, 0.027175782229);
}

// Of the trapezoids under the curve.
TEST(Turck, CurveHasTheArea) {
  const auto points = audit::roc_points(s100b);
  double area = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    area += (points[i].false_positive - points[i - 1].false_positive) *
            (points[i].true_positive + points[i - 1].true_positive) / 2;
  }
  EXPECT_NEAR(area, 0.73136856369, 1e-10);
}

}  // namespace
}  // namespace likelihet::published::turck_roc_test
