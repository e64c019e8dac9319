#include "fields.hpp"

#include <algorithm>

namespace likelihet::publishing {
namespace {

std::optional<std::pair<double, double>> interval(const json& object) {
  const auto& ends = entries(object, "interval");
  if (ends.size() != 2 || !ends[0].is_number() || !ends[1].is_number()) return std::nullopt;
  return std::pair(ends[0].get<double>(), ends[1].get<double>());
}

}  // namespace

const json& field(const json& object, std::string_view name) {
  static const json nothing;
  if (!object.is_object()) return nothing;
  const auto found = object.find(name);
  return found == object.end() ? nothing : *found;
}

const json::array_t& entries(const json& object, std::string_view name) {
  static const json::array_t none;
  const json& list = field(object, name);
  return list.is_array() ? list.get_ref<const json::array_t&>() : none;
}

std::string text(const json& object, std::string_view name) {
  const json& value = field(object, name);
  return value.is_string() ? value.get<std::string>() : std::string();
}

std::optional<double> number(const json& object, std::string_view name) {
  const json& value = field(object, name);
  return value.is_number() ? std::optional(value.get<double>()) : std::nullopt;
}

long long count(const json& object, std::string_view name) {
  const json& value = field(object, name);
  return value.is_number_integer() ? value.get<long long>() : 0;
}

bool flag(const json& object, std::string_view name) {
  const json& value = field(object, name);
  return value.is_boolean() && value.get<bool>();
}

Estimate estimate(const json& object) {
  return estimate(object, "value");
}

Estimate estimate(const json& object, std::string_view value_name) {
  return {number(object, value_name), interval(object), text(object, "why")};
}

std::vector<const json*> having(
    const json::array_t& list,
    std::initializer_list<std::pair<std::string_view, std::string_view>> wanted) {
  std::vector<const json*> found;
  for (const json& entry : list) {
    const bool fits = std::all_of(wanted.begin(), wanted.end(), [&](const auto& each) {
      return text(entry, each.first) == each.second;
    });
    if (fits) found.push_back(&entry);
  }
  return found;
}

std::vector<std::string> different(const json::array_t& list, std::string_view name) {
  std::vector<std::string> seen;
  for (const json& entry : list) {
    auto value = text(entry, name);
    if (std::find(seen.begin(), seen.end(), value) == seen.end()) seen.push_back(std::move(value));
  }
  return seen;
}

}  // namespace likelihet::publishing
