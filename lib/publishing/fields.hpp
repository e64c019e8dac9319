// Reading the audit document. What is absent, null or of another kind reads as nothing, so that a
// page can be made of any document. Private to the layer.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

namespace likelihet::publishing {

using nlohmann::json;

/// The field of an object; null where there is none, or no object.
const json& field(const json& object, std::string_view name);

/// The entries of a list; none where it is absent or no list.
const json::array_t& entries(const json& object, std::string_view name);

/// The text of a field; empty where it has none.
std::string text(const json& object, std::string_view name);

std::optional<double> number(const json& object, std::string_view name);

/// A count of things; 0 where it is absent. For sums and plurals; `count_text` tells 0 from absent.
long long count(const json& object, std::string_view name);

/// Whether the field is there and true.
bool flag(const json& object, std::string_view name);

/// A figure with its 95 % interval, either of which may be missing; `why` then says why.
struct Estimate {
  std::optional<double> value;
  std::optional<std::pair<double, double>> interval;
  std::string why;
};

/// Of an object with `value`, `interval` and perhaps `why`.
Estimate estimate(const json& object);

/// Its `interval` with another field as the value: `observed` of a group, `selection` of a locus.
Estimate estimate(const json& object, std::string_view value_name);

/// Those entries whose fields have all the wanted texts: having(list, {{"basis", "scored"}}).
std::vector<const json*> having(
    const json::array_t& list,
    std::initializer_list<std::pair<std::string_view, std::string_view>> wanted);

/// The different texts of a field among the entries, in the order of the list.
std::vector<std::string> different(const json::array_t& list, std::string_view name);

}  // namespace likelihet::publishing
