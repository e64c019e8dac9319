// Any policy comes back from its document, whatever is in its words and numbers.
#include <set>

#include <documents/generated.hpp>
#include <documents/samples.hpp>
#include <nlohmann/json.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::documents::random_policies_test {
namespace {

using nlohmann::json;

/// Of any form that a document can have; it need not fit a model.
colony::Policy any_policy() {
  using namespace generated;
  colony::Policy policy;
  policy.name = text(0, 4);
  policy.markers = {yes(), static_cast<std::size_t>(*rc::gen::inRange(0, 1000)), number(),
                    number()};
  policy.step = number();
  policy.random_one_in = static_cast<std::size_t>(*rc::gen::inRange(0, 100));
  policy.currency = maybe([] { return text(0, 3); });
  policy.prices = several(3, [] { return colony::PricePolicy{id(), number()}; });
  policy.worth = several(3, [] { return colony::WorthPolicy{id(), named(3, number), number()}; });
  policy.health = several(3, [] {
    using colony::Grade;
    return colony::HealthPolicy{id(), text(0, 4),
                                *rc::gen::element(Grade::study, Grade::reports, Grade::unknown),
                                maybe(id)};
  });
  return policy;
}

RC_GTEST_PROP(RandomPolicies, ComeBackToTheLastBit, ()) {
  const colony::Policy policy = any_policy();
  const std::string text = write_policy(policy);
  const auto read = read_policy(text);
  RC_ASSERT(faults_of(read) == colony::Faults{});
  RC_ASSERT(std::get<colony::Policy>(read) == policy);
  RC_ASSERT(write_policy(std::get<colony::Policy>(read)) == text);
}

// Neither white space nor the order of fields is part of what a policy says, nor of its digest.
RC_GTEST_PROP(RandomPolicies, MeanTheSameInAnyOrderOfTheirFields, ()) {
  const colony::Policy policy = any_policy();
  json sorted = json::parse(write_policy(policy));  // by name
  // The order of genotypes is kept as written: it is a list of pairs to the program.
  for (const json& one : sorted["worth"]) RC_PRE(one["kept"].size() < 2);
  const auto read = read_policy(sorted.dump());
  RC_ASSERT(faults_of(read) == colony::Faults{});
  RC_ASSERT(std::get<colony::Policy>(read) == policy);
  RC_ASSERT(evidence_digest({}, {}, std::get<colony::Policy>(read), "") ==
            evidence_digest({}, {}, policy, ""));
}

// The book tells policies apart by their texts, so the least difference must be in it.
RC_GTEST_PROP(RandomPolicies, OneThatDiffersALittleHasAnotherTextAndDigest, ()) {
  const colony::Policy one = any_policy();
  const auto differs = [&](auto&& change) {
    colony::Policy other = one;
    change(other);
    RC_ASSERT(write_policy(other) != write_policy(one));
    RC_ASSERT(evidence_digest({}, {}, other, "") != evidence_digest({}, {}, one, ""));
  };
  const auto nudge = [](double& number) { number = std::nextafter(number, 2e300); };
  differs([&](colony::Policy& other) { nudge(other.step); });
  differs([&](colony::Policy& other) { nudge(other.markers.skill_above); });
  differs([](colony::Policy& other) { other.markers.count = !other.markers.count; });
  differs([](colony::Policy& other) { other.currency = other.currency.value_or("") + " "; });
  differs([](colony::Policy& other) { other.health.push_back({"a", "b", {}, {}}); });
  differs([](colony::Policy& other) { other.prices.push_back({"a", 0}); });
}

RC_GTEST_PROP(RandomPolicies, CutShortAreNone, ()) {
  const std::string text = write_policy(any_policy());
  const auto length = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(text.size())));
  // What is left out at the end but for the line's end is part of the document.
  RC_PRE(text.substr(length).find('}') != std::string::npos);
  RC_ASSERT(!faults_of(read_policy(text.substr(0, length))).empty());
}

/// Paths of fields, "/prices/assay"; a list's parts are as one, genotypes of "kept" are data.
void collect(const json& document, const std::string& place, std::set<std::string>& out) {
  if (document.is_array()) {
    for (const json& part : document) collect(part, place, out);
    return;
  }
  if (!document.is_object() || place == "/worth/kept") return;
  for (const auto& [name, value] : document.items()) {
    out.insert(place + "/" + name);
    collect(value, place + "/" + name, out);
  }
}

void collect_schema(const json& schema, const std::string& place, std::set<std::string>& out) {
  const json& part = schema.contains("items") ? schema["items"] : schema;
  if (!part.contains("properties")) return;
  for (const auto& [name, value] : part["properties"].items()) {
    out.insert(place + "/" + name);
    collect_schema(value, place + "/" + name, out);
  }
}

TEST(PolicySchema, NamesTheFieldsOfTheSampleAndNoOthers) {
  std::set<std::string> written, described;
  collect(json::parse(sample("policy.json")), "", written);
  collect_schema(json::parse(file_text(std::string(LIKELIHET_SOURCE_DIR) +
                                       "/models/schema/likelihet-policy.schema.json")),
                 "", described);
  EXPECT_EQ(written, described);
  EXPECT_EQ(written.count("/marks/slope_at_least"), 1U);
}

// What the schema says of a field that is left out is what the program takes.
TEST(PolicySchema, TellsTheDefaults) {
  const json schema = json::parse(
      file_text(std::string(LIKELIHET_SOURCE_DIR) + "/models/schema/likelihet-policy.schema.json"));
  const json whole = json::parse(write_policy(colony::Policy{}));
  const auto told = [](const json& field) {
    const auto text = field["description"].get<std::string>();
    const std::string before = "Left out: ";
    const auto at = text.find(before);
    if (at == std::string::npos) return std::string();
    return text.substr(at + before.size(), text.size() - at - before.size() - 1);
  };
  std::size_t defaults = 0;
  const auto check = [&](const json& fields, const json& values) {
    for (const auto& [name, field] : fields["properties"].items()) {
      const std::string value = told(field);
      if (value.empty()) continue;
      ++defaults;
      EXPECT_EQ(json::parse(value), values.at(name)) << name;
    }
  };
  check(schema, whole);
  check(schema["properties"]["marks"], whole["marks"]);
  EXPECT_EQ(defaults, 6U);
}

}  // namespace
}  // namespace likelihet::documents::random_policies_test
