// Reads and writes the policy document, object by object.
#include <utility>
#include <vector>

#include <likelihet/documents/object_reader.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::documents {

namespace {

const std::vector<std::pair<std::string_view, colony::Grade>> grades = {
    {"study", colony::Grade::study},
    {"reports", colony::Grade::reports},
    {"unknown", colony::Grade::unknown}};

std::size_t whole(ObjectReader& object, std::string_view field, std::size_t otherwise) {
  const auto count = object.optional(field, count_of);
  return count ? static_cast<std::size_t>(*count) : otherwise;
}

colony::MarkerPolicy read_markers(const Node& node) {
  ObjectReader object(node, "what markers must have shown");
  colony::MarkerPolicy markers;
  markers.count = object.optional("count", truth_of).value_or(markers.count);
  markers.forecasts = whole(object, "forecasts", markers.forecasts);
  markers.skill_above = object.optional("skill_above", number_of).value_or(markers.skill_above);
  markers.slope_at_least =
      object.optional("slope_at_least", number_of).value_or(markers.slope_at_least);
  object.finish();
  return markers;
}

colony::PricePolicy read_price(const Node& node) {
  ObjectReader object(node, "a price");
  colony::PricePolicy price;
  price.assay = object.required("assay", id_of);
  price.price = object.required("price", number_of);
  object.finish();
  return price;
}

colony::WorthPolicy read_worth(const Node& node) {
  ObjectReader object(node, "a worth");
  colony::WorthPolicy worth;
  worth.locus = object.required("locus", id_of);
  object.members("kept", Presence::required, [&](const std::string& genotype, const Node& value) {
    worth.kept.emplace_back(genotype, number_of(value).value_or(0));
  });
  worth.sold = object.optional("sold", number_of).value_or(0);
  object.finish();
  return worth;
}

colony::HealthPolicy read_health(const Node& node) {
  ObjectReader object(node, "a health note");
  colony::HealthPolicy health;
  health.locus = object.required("locus", id_of);
  health.note = object.required("note", text_of);
  health.grade = object.word<colony::Grade>("grade", Presence::optional, grades)
                     .value_or(colony::Grade::unknown);
  health.source = object.optional("source", text_of);
  object.finish();
  return health;
}

colony::Policy read_policy_fields(const Node& node) {
  ObjectReader object(node, "a policy document");
  colony::Policy policy;
  if (!read_heading(object, node, "likelihet-policy")) return policy;
  policy.name = object.optional("name", text_of).value_or(std::string());
  if (const Json* markers = object.find("marks", Presence::optional)) {
    policy.markers = read_markers(node.member("marks", *markers));
  }
  policy.step = object.optional("step", number_of).value_or(policy.step);
  policy.random_one_in = whole(object, "random_one_in", policy.random_one_in);
  policy.currency = object.optional("currency", text_of);
  object.elements("prices", Presence::optional,
                  [&](const Node& price) { policy.prices.push_back(read_price(price)); });
  object.elements("worth", Presence::optional,
                  [&](const Node& worth) { policy.worth.push_back(read_worth(worth)); });
  object.elements("health", Presence::optional,
                  [&](const Node& health) { policy.health.push_back(read_health(health)); });
  object.finish();
  return policy;
}

Json write_worth(const colony::WorthPolicy& worth) {
  Json kept = Json::object();
  for (const auto& [genotype, value] : worth.kept) kept[genotype] = value;
  return {{"locus", worth.locus}, {"kept", std::move(kept)}, {"sold", worth.sold}};
}

Json write_health(const colony::HealthPolicy& health) {
  Json object = {{"locus", health.locus}, {"note", health.note}};
  for (const auto& [word, grade] : grades) {
    if (grade == health.grade) object["grade"] = word;
  }
  if (health.source) object["source"] = *health.source;
  return object;
}

}  // namespace

std::variant<colony::Policy, colony::Faults> read_policy(std::string_view text) {
  FaultList faults;
  const std::optional<Json> json = parse_json(text, faults);
  if (!json) return faults.take();
  colony::Policy policy = read_policy_fields({*json, {}, faults});
  if (!faults.empty()) return faults.take();
  return policy;
}

std::string write_policy(const colony::Policy& policy) {
  Json document = {{"format", "likelihet-policy"}, {"version", 1}, {"name", policy.name}};
  document["marks"] = {{"count", policy.markers.count},
                       {"forecasts", policy.markers.forecasts},
                       {"skill_above", policy.markers.skill_above},
                       {"slope_at_least", policy.markers.slope_at_least}};
  document["step"] = policy.step;
  document["random_one_in"] = policy.random_one_in;
  if (policy.currency) document["currency"] = *policy.currency;
  Json& prices = document["prices"] = Json::array();
  for (const auto& price : policy.prices) {
    prices.push_back({{"assay", price.assay}, {"price", price.price}});
  }
  Json& worth = document["worth"] = Json::array();
  for (const auto& each : policy.worth) worth.push_back(write_worth(each));
  Json& health = document["health"] = Json::array();
  for (const auto& note : policy.health) health.push_back(write_health(note));
  return json_text(document, 2) + "\n";
}

}  // namespace likelihet::documents
