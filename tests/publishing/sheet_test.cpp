// The sheet of one animal, and the square that holds its code.
#include <gmock/gmock.h>
#include <publishing/listed.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/publishing/qr_code.hpp>
#include <likelihet/publishing/sheet.hpp>

namespace likelihet::publishing::sheet_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

std::vector<Evidence> evidence(Listed& listed, const Listing& listing) {
  return std::get<std::vector<Evidence>>(evidence_of(listed.ground(), listing));
}

std::string sheet(Listed& listed, const std::string& id,
                  const std::optional<std::string>& code = std::nullopt) {
  const Listing listing = listed.of(id);
  return sheet(listed.colony(), listing, evidence(listed, listing), code);
}

support::RecordsBuilder tested_hatchling() {
  auto records = pair_sold_as(1, 0);
  records.hatchling("H", "C").shows("H", "tarnbrook", "plain").on("2026-06-01");
  records.score("H", "crown-fleck", "strong").on("2026-06-11");
  records.result("H", "shed-pcr", "carrier").on("2026-07-02");
  return records;
}

TEST(Sheet, AccountsEndAtThePublishedNumbersUnrounded) {
  Listed listed(support::recessive_model(), tested_hatchling());
  const Listing listing = listed.of("H");
  const auto accounts = evidence(listed, listing);
  ASSERT_EQ(accounts.size(), 1U);
  EXPECT_NEAR(accounts[0].account.end, listing.statements[0].markerless, 1e-12);
  // Markers that do not count are no part of it.
  for (const odds::Step& step : accounts[0].account.steps) {
    for (const std::size_t o : step.observations) {
      EXPECT_FALSE(std::holds_alternative<colony::Score>(listed.colony().observations()[o].what));
    }
  }
}

TEST(Sheet, ShowsEachPieceOfEvidenceWithItsFactor) {
  Listed listed(support::recessive_model(), tested_hatchling());
  const std::string page = sheet(listed, "H");
  // "carrier": 0.996 x 0.985 + 0.004 x 0.991/3 against 0.996 x 0.003 + 0.004 x 0.991/3: 228.
  EXPECT_THAT(page, AllOf(HasSubstr("shed-pcr: carrier"), HasSubstr("×228"),
                          HasSubstr("2026-07-02"), HasSubstr("99 % possible het for tarnbrook")));
}

TEST(Sheet, WithoutAClaimSaysSoAndHasNoCode) {
  Listed listed(support::recessive_model(), tested_hatchling());
  EXPECT_THAT(sheet(listed, "H"),
              AllOf(HasSubstr("No claim was published"), Not(HasSubstr("<svg"))));
}

TEST(Sheet, ShowsTheCodeAndHoldsItInTheSquare) {
  Listed listed(support::recessive_model(), tested_hatchling());
  EXPECT_THAT(sheet(listed, "H", "K7Q2-M4XW"),
              AllOf(HasSubstr("<code>K7Q2-M4XW</code>"), HasSubstr("<svg role=\"img\""),
                    HasSubstr("width=\"30mm\""), Not(HasSubstr("No claim was published"))));
}

TEST(Sheet, NothingOfTheBookBecomesATag) {
  constexpr const char* hostile = "</style><script>alert(1)</script>";
  support::RecordsBuilder records;
  records.founder(hostile, std::nullopt, "bought").result(hostile, "shed-pcr", "carrier");
  Listed listed(support::recessive_model(), records);
  const std::string page = sheet(listed, hostile, hostile);
  EXPECT_THAT(page, AllOf(Not(HasSubstr("<script")), HasSubstr("&lt;script&gt;")));
  EXPECT_THAT(page, HasSubstr("default-src 'none'"));
}

TEST(Sheet, LongListsAndLongWordsAreCutShortAndSaySo) {
  auto model = support::recessive_model();
  const std::string caution(5000, 'c');
  model.loci[0].caution = caution;
  support::RecordsBuilder records;
  const std::string id(200, 'x');
  records.founder(id, std::nullopt, "bought");
  for (int i = 0; i < 30; ++i) {
    records.result(id, "shed-pcr", "carrier").on("2026-07-" + std::to_string(10 + i % 20));
  }
  Listed listed(model, records);
  const std::string page = sheet(listed, id, std::string(300, 'k'));
  EXPECT_THAT(page, AllOf(Not(HasSubstr(caution)), Not(HasSubstr(id)), HasSubstr("…"),
                          HasSubstr("pieces of evidence together")));
  EXPECT_LT(page.size(), 60'000U);
}

TEST(Sheet, OfAVisualAnimalWeighsNothing) {
  support::RecordsBuilder records;
  records.founder("F").bought_as("tarnbrook", {{"e/e", 1.0}}).shows("F", "tarnbrook", "tarnbrook");
  Listed listed(support::recessive_model(), records);
  EXPECT_THAT(sheet(listed, "F"),
              AllOf(HasSubstr("visual for tarnbrook"), HasSubstr("no evidence is weighed")));
}

TEST(QrCode, IsASquareOfTheStandardsSizes) {
  // ISO/IEC 18004: version v has 17 + 4v modules; level Q in byte mode holds 11 bytes in version 1.
  EXPECT_EQ(qr_code("K7Q2-M4XW")->side, 21U);
  EXPECT_EQ(qr_code(std::string(11, 'a'))->side, 21U);
  EXPECT_EQ(qr_code(std::string(12, 'a'))->side, 25U);
  EXPECT_EQ(qr_code(std::string(1663, 'a'))->side, 177U);
  EXPECT_FALSE(qr_code(std::string(1664, 'a')));
  EXPECT_FALSE(qr_code(""));
}

RC_GTEST_PROP(QrCode, HasFinderPatternsInThreeCorners, ()) {
  // ISO/IEC 18004, 6.3.3: 7 x 7, a dark ring around a light one around 3 x 3 dark.
  const auto text = *rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange('0', 'Z')));
  RC_PRE(text.size() < 1000);
  const QrCode code = qr_code(text).value();
  RC_ASSERT((code.side - 17) % 4 == 0U);
  const std::size_t far = code.side - 7;
  for (const auto& [left, top] : {std::pair{std::size_t{0}, std::size_t{0}}, {far, 0}, {0, far}}) {
    for (std::size_t y = 0; y < 7; ++y) {
      for (std::size_t x = 0; x < 7; ++x) {
        const std::size_t ring = std::min({x, y, 6 - x, 6 - y});
        RC_ASSERT(code.dark[(top + y) * code.side + left + x] == (ring != 1));
      }
    }
  }
}

TEST(QrDrawing, KeepsAQuietZoneOfFourModulesAndIsWideEnough) {
  const QrCode code = qr_code("K7Q2-M4XW").value();
  const std::string drawing = qr_drawing(code, "label", 30).str();
  EXPECT_THAT(drawing, AllOf(HasSubstr("viewBox=\"0 0 29 29\""), HasSubstr("d=\"M4 4h7v1h-7z"),
                             HasSubstr("aria-label=\"label\"")));
  // 21 of 29 modules of 30 mm: 21.7 mm, above the 15 mm that a code should have.
  EXPECT_GE(30.0 * 21 / 29, 15);
}

}  // namespace
}  // namespace likelihet::publishing::sheet_test
