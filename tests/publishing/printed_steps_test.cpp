// The steps of a sheet multiply as they are printed: start odds x factors = the odds after each
// row.
#include <cmath>
#include <limits>
#include <regex>

#include "properties/random_colony.hpp"
#include <gtest/gtest.h>
#include <publishing/listed.hpp>

#include <likelihet/publishing/sheet.hpp>
#include <likelihet/publishing/step_rows.hpp>

namespace likelihet::publishing::printed_steps_test {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// What a printed figure may stand for. Ends are nonnegative, infinity included.
struct Between {
  double low = 0;
  double high = 0;
};

Between operator*(const Between& a, const Between& b) {
  const auto times = [](double x, double y, double unknown) {
    return (x == 0 && std::isinf(y)) || (std::isinf(x) && y == 0) ? unknown : x * y;
  };
  return {times(a.low, b.low, 0), times(a.high, b.high, infinity)};
}

bool meet(const Between& a, const Between& b) {
  constexpr double rounding = 1 + 1e-9;
  return a.low <= b.high * rounding && b.low <= a.high * rounding;
}

/// Three significant digits, rounded to the nearest.
Between near(const std::string& digits) {
  const double value = std::stod(digits);
  const double half = std::pow(10, std::floor(std::log10(value)) - 2) / 2;
  return {value - half, value + half};
}

Between factor_of(const std::string& printed) {
  if (printed == "proves it") return {infinity, infinity};
  if (printed == "rules it out") return {0, 0};
  if (printed == "over ×1,000") return {1000, infinity};
  if (printed == "×1,000") return {999.5, 1000};
  if (printed == "under ×0.001") return {0, 0.001};
  static const std::string times = "×";
  EXPECT_EQ(printed.rfind(times, 0), 0U) << printed;
  return near(printed.substr(times.size()));
}

/// "start at 1 : 4.56".
Between start_of(const std::string& printed) {
  if (printed == "certain from the start") return {infinity, infinity};
  if (printed == "ruled out from the start") return {0, 0};
  if (printed == "start over 1,000 : 1") return {1000, infinity};
  if (printed == "start under 1 : 1,000") return {0, 0.001};
  std::smatch found;
  const bool read = std::regex_match(printed, found, std::regex("start at ([0-9.]+) : ([0-9.]+)"));
  EXPECT_TRUE(read) << printed;
  if (!read) return {};
  if (found[2] == "1") return near(found[1]);
  const Between against = near(found[2]);
  return {1 / against.high, 1 / against.low};
}

/// The odds of a chance that was rounded down to a tenth of a percent.
Between odds_of(const std::string& printed) {
  constexpr double lost = 2e-12;
  const auto odds = [](double chance) { return chance >= 1 ? infinity : chance / (1 - chance); };
  if (printed == "0 %") return {0, 0};
  if (printed == "100 %") return {odds(1 - lost), infinity};
  if (printed == "below 0.1 %") return {0, odds(0.001)};
  const double chance = std::stod(printed) / 100;
  return {odds(chance - lost), odds(chance + 0.001)};
}

/// By table, as they stand on the page.
std::vector<std::vector<StepRow>> rows_of(const std::string& page) {
  static const std::regex cells(
      "<tr><td>(?:.*?)</td><td>(.*?)</td><td class=\"figure\">(.*?)</td><td "
      "class=\"figure[^\"]*\">(.*?)</td></tr>");
  std::vector<std::vector<StepRow>> tables;
  for (std::size_t at = page.find("<tbody>"); at != std::string::npos;
       at = page.find("<tbody>", at + 1)) {
    const std::string body = page.substr(at, page.find("</tbody>", at) - at);
    auto& rows = tables.emplace_back();
    for (std::sregex_iterator row(body.begin(), body.end(), cells), end; row != end; ++row) {
      rows.push_back({"", "", (*row)[1], (*row)[2], (*row)[3]});
    }
  }
  return tables;
}

void expect_rows_multiply(const std::vector<StepRow>& rows) {
  ASSERT_FALSE(rows.empty());
  Between all = start_of(rows.front().factor);
  EXPECT_TRUE(meet(all, odds_of(rows.front().chance))) << rows.front().factor;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    SCOPED_TRACE(rows[r].what + ": " + rows[r].factor + ", " + rows[r].chance);
    ASSERT_FALSE(rows[r].chance.empty());
    const Between factor = factor_of(rows[r].factor);
    const Between after = odds_of(rows[r].chance);
    EXPECT_TRUE(meet(odds_of(rows[r - 1].chance) * factor, after));
    all = all * factor;
    EXPECT_TRUE(meet(all, after));
  }
}

struct Sheet {
  std::vector<Evidence> evidence;
  std::string page;
};

// Empty where the records contradict each other.
Sheet sheet_of(const colony::Colony& colony, std::size_t animal) {
  const colony::Policy policy;
  Ground ground;
  ground.colony = &colony;
  ground.policy = &policy;
  const auto found = listings(ground, {animal});
  const auto* made = std::get_if<std::vector<Listing>>(&found);
  if (made == nullptr) return {};
  auto evidence = std::get<std::vector<Evidence>>(evidence_of(ground, made->front()));
  std::string page = sheet(colony, made->front(), evidence, std::nullopt);
  return {std::move(evidence), std::move(page)};
}

TEST(PrintedSteps, MultiplyFromTheStartToTheEnd) {
  std::size_t tables = 0;
  std::size_t shortened = 0;
  for (std::uint64_t seed = 1; seed <= 1000 && !HasFailure(); ++seed) {
    properties::Dice dice(seed);
    const auto drawn = properties::random_colony(dice);
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Sheet sheet = sheet_of(*drawn.colony, seed % drawn.colony->animals().size());
    for (const auto& rows : rows_of(sheet.page)) {
      expect_rows_multiply(rows);
      ++tables;
    }
    for (const auto& [statement, account] : sheet.evidence) {
      const auto all = step_rows(*drawn.colony, account, 1000);
      for (std::size_t most = 1; most + 1 < all.size(); ++most) {
        const auto few = step_rows(*drawn.colony, account, most);
        EXPECT_EQ(few.size(), most + 1);
        EXPECT_EQ(few.back().chance, all.back().chance);
        expect_rows_multiply(few);
        ++shortened;
      }
    }
  }
  EXPECT_GT(tables, 500U);
  EXPECT_GT(shortened, 300U);
}

TEST(PrintedSteps, OfManyResultsStayInTheirOrder) {
  auto records = pair_sold_as(0.25, 0.25);
  records.hatchling("H", "C");
  for (int i = 0; i < 30; ++i) {
    records.result("H", "shed-pcr", i % 2 == 0 ? "carrier" : "clear")
        .on("2026-07-" + std::to_string(i < 20 ? 10 + i % 10 : 20 + i % 10));
  }
  Listed listed(support::recessive_model(), records);
  const auto tables =
      rows_of(sheet_of(listed.colony(), listed.colony().find_animal("H").value()).page);
  ASSERT_EQ(tables.size(), 1U);
  EXPECT_EQ(tables.front().size(), 11U);
  expect_rows_multiply(tables.front());
}

}  // namespace
}  // namespace likelihet::publishing::printed_steps_test
