// Intervals of three proportions, two of them near or at 0.
//
// Source: R. G. Newcombe, "Two-sided confidence intervals for the single proportion: comparison of
// seven methods", Statistics in Medicine 17 (1998) 857-872, Table I. Inputs and printed limits are
// from memory; all methods were recomputed in R.
#include <array>

#include "published/worked_colony.hpp"
#include <gtest/gtest.h>

#include <likelihet/audit/proportion.hpp>

namespace likelihet::published::newcombe_intervals_test {
namespace {

using Method = audit::Interval (*)(double events, double n, double level);

constexpr std::array<Method, 5> methods = {audit::wilson, audit::wilson_corrected,
                                           audit::clopper_pearson, audit::mid_p, audit::jeffreys};

struct Row {
  double events, n;
  std::array<audit::Interval, 5> recomputed;  // in the order of `methods`
};

constexpr std::array<Row, 3> rows = {{{81,
                                       263,
                                       {{{0.25528851988, 0.36620957698},
                                         {0.2535086823, 0.36817620104},
                                         {0.25273674559, 0.3676219226},
                                         {0.25440210495, 0.36577347426},
                                         {0.25452193499, 0.36564749917}}}},
                                      {0,
                                       20,
                                       {{{0, 0.16112515805},
                                         {0, 0.20045334501},
                                         {0, 0.16843347098},
                                         {0, 0.13910834067},
                                         {0, 0.1166389829}}}},
                                      {1,
                                       29,
                                       {{{0.0061132142928, 0.17175521879},
                                         {0.0018026402133, 0.19628175101},
                                         {0.00087264688358, 0.17764429549},
                                         {0.0017247701147, 0.15853738368},
                                         {0.0037461736491, 0.150077686}}}}}};

TEST(Newcombe, EveryMethod) {
  for (const Row& row : rows) {
    for (std::size_t m = 0; m < methods.size(); ++m) {
      SCOPED_TRACE(std::to_string(row.events) + ", method " + std::to_string(m));
      const audit::Interval found = methods[m](row.events, row.n, 0.95);
      EXPECT_NEAR(found.low, row.recomputed[m].low, 1e-10);
      EXPECT_NEAR(found.high, row.recomputed[m].high, 1e-10);
    }
  }
}

void expect_printed(const audit::Interval& found, double low, double high) {
  EXPECT_NEAR(found.low, low, half_unit(4));
  EXPECT_NEAR(found.high, high, half_unit(4));
}

TEST(Newcombe, PrintedLimits) {
  expect_printed(audit::wilson(81, 263), .2553, .3662);
  expect_printed(audit::clopper_pearson(81, 263), .2527, .3676);
  expect_printed(audit::wilson(0, 20), 0, .1611);
  expect_printed(audit::wilson(1, 29), .0061, .1718);
}

}  // namespace
}  // namespace likelihet::published::newcombe_intervals_test
