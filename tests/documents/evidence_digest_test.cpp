// The digests that claims rest on, against published vectors, and that every byte counts.
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/documents/number_bytes.hpp>

namespace likelihet::documents::evidence_digest_test {
namespace {

// Source: NIST, Cryptographic Standards and Guidelines, Example Values, "SHA256" (one and two
// blocks), and FIPS 180-2 (2002), appendix B.3 (a million letters). From memory; the three texts
// are those of the standard.
TEST(Sha256, GivesThePublishedExamples) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256(std::string(1'000'000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

colony::ModelDescription model() {
  colony::ModelDescription description;
  description.name = "m";
  return description;
}

colony::Records records() {
  colony::Records all;
  all.animals.push_back({"F01", {}, {}, {}, {}, {}, {}, {}});
  all.observations.push_back({"o1",
                              colony::AppearanceRecord{"F01", "tarnbrook", "plain"},
                              colony::Date::parse("2024-01-10"),
                              {},
                              colony::Timestamp::parse("2024-01-11T10:00:00Z"),
                              {}});
  return all;
}

TEST(EvidenceDigest, ChangesWithEveryPart) {
  const std::string whole = evidence_digest(model(), records(), {}, "");
  EXPECT_EQ(whole, evidence_digest(model(), records(), {}, ""));
  colony::ModelDescription other_model = model();
  other_model.name = "n";
  EXPECT_NE(whole, evidence_digest(other_model, records(), {}, ""));
  colony::Policy policy;
  policy.step = 0.1;
  EXPECT_NE(whole, evidence_digest(model(), records(), policy, ""));
  EXPECT_NE(whole, evidence_digest(model(), records(), {}, "tables"));
  colony::Records other = records();
  std::get<colony::AppearanceRecord>(other.observations[0].what).shows = "plaim";
  EXPECT_NE(whole, evidence_digest(model(), other, {}, ""));
}

// A colony document leaves the time of entry out where an observation has a day.
TEST(EvidenceDigest, ChangesWithATimeOfEntry) {
  colony::Records other = records();
  other.observations[0].entered = colony::Timestamp::parse("2024-01-11T10:00:01Z");
  EXPECT_NE(evidence_digest(model(), records(), {}, ""), evidence_digest(model(), other, {}, ""));
}

TEST(TablesDigest, ChangesWithTheLastBitOfADraw) {
  const std::vector<double> draws{0.1, 0.2};
  const std::vector<double> others{0.1,
                                   std::nextafter(0.2, std::numeric_limits<double>::infinity())};
  EXPECT_NE(tables_digest({"{}", draws}), tables_digest({"{}", others}));
  EXPECT_NE(tables_digest({"{}", draws}), tables_digest({"{} ", draws}));
  EXPECT_EQ(tables_digest({"{}", draws}), tables_digest({"{}", draws}));
}

RC_GTEST_PROP(NumberBytes, AnyNumbersComeBackToTheLastBit, (const std::vector<double>& numbers)) {
  const std::string bytes = bytes_of(numbers);
  RC_ASSERT(bytes.size() == 8 * numbers.size());
  RC_ASSERT(bytes_of(numbers_of(bytes)) == bytes);
}

// IEEE 754: 1.0 is 0x3FF0000000000000.
TEST(NumberBytes, TheLowestByteStandsFirst) {
  EXPECT_EQ(bytes_of({1.0}), std::string("\0\0\0\0\0\0\xF0\x3F", 8));
  EXPECT_EQ(numbers_of(std::string("\0\0\0\0\0\0\xF0\x3F\x01", 9)), std::vector<double>{1.0});
}

}  // namespace
}  // namespace likelihet::documents::evidence_digest_test
