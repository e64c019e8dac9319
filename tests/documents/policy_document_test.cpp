// Policy documents in and out.
#include <documents/samples.hpp>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::documents::policy_document_test {
namespace {

colony::Policy example() {
  colony::Policy policy;
  policy.name = "example";
  policy.markers = {false, 30, 0.05, 0.9};
  policy.step = 0.1;
  policy.random_one_in = 4;
  policy.currency = "crowns";
  policy.prices = {{"shed-pcr", 30.5}};
  policy.worth = {{"tarnbrook", {{"+/e", 300}, {"e/e", 900}}, 120}};
  policy.health = {
      {"tarnbrook", "may see badly in bright light", colony::Grade::study, "an invented study"}};
  return policy;
}

TEST(PolicyDocument, ReadsEveryField) {
  EXPECT_EQ(value_of(read_policy(sample("policy.json"))), example());
}

TEST(PolicyDocument, IsWrittenAsItWasRead) {
  EXPECT_EQ(write_policy(example()), sample("policy.json"));
}

TEST(PolicyDocument, NeedsOnlyItsFormatAndVersion) {
  EXPECT_EQ(value_of(read_policy(R"({"format":"likelihet-policy","version":1})")),
            colony::Policy{});
}

TEST(PolicyDocument, TheDefaultIsWrittenWhole) {
  const std::string text = write_policy(colony::Policy{});
  EXPECT_NE(text.find("\"forecasts\": 20"), std::string::npos);
  EXPECT_EQ(value_of(read_policy(text)), colony::Policy{});
}

// The document to start from says what a book without a policy goes by.
TEST(PolicyDocument, TheOneToStartFromIsTheDefault) {
  colony::Policy careful;
  careful.name = "careful";
  EXPECT_EQ(write_policy(careful),
            file_text(std::string(LIKELIHET_SOURCE_DIR) + "/models/policy/careful.json"));
}

TEST(PolicyDocument, IsToldFromOtherDocuments) {
  EXPECT_EQ(format_of(sample("policy.json")), Format::policy);
}

TEST(PolicyDocument, EveryFaultOfFormHasItsPlace) {
  const colony::Faults faults = faults_of(read_policy(
      R"({"format":"likelihet-policy","version":1,"marks":{"count":"yes","forecast":3},)"
      R"("step":"5 %","prices":[{"assay":"a"}],"worth":[{"locus":"l","kept":{"+/e":"much"}}],)"
      R"("health":[{"locus":"l","note":"n","grade":"sure"}],"colour":"red"})"));
  std::vector<std::string> places;
  for (const colony::Fault& fault : faults) places.push_back(fault.place);
  EXPECT_EQ(places,
            (std::vector<std::string>{"/marks/count", "/marks/forecast", "/step", "/prices/0",
                                      "/worth/0/kept/+~1e", "/health/0/grade", "/colour"}));
}

TEST(PolicyDocument, AnotherDocumentIsRefusedAtOnce) {
  EXPECT_EQ(faults_of(read_policy(sample("model.json"))).size(), 1U);
}

}  // namespace
}  // namespace likelihet::documents::policy_document_test
