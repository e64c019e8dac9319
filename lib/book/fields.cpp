// Puts records into words, field by field.
#include <algorithm>
#include <array>
#include <charconv>
#include <string_view>
#include <utility>

#include <likelihet/base/shortest.hpp>
#include <likelihet/book/fields.hpp>

namespace likelihet::book {
namespace {

using Text = std::optional<std::string>;

std::string words(const colony::Date& value) {
  return value.text();
}
std::string words(const colony::Timestamp& value) {
  return value.text();
}
std::string words(bool value) {
  return value ? "true" : "false";
}
std::string words(std::int64_t value) {
  return std::to_string(value);
}
std::string words(genetics::Sex value) {
  return value == genetics::Sex::female ? "female" : "male";
}
std::string words(colony::Paternity value) {
  return value == colony::Paternity::single ? "single" : "mixed";
}

std::string words(double value) {
  return base::shortest(value);
}

template <class Value>
Text words(const std::optional<Value>& value) {
  return value ? Text(words(*value)) : std::nullopt;
}

std::string joined(const std::vector<std::string>& parts) {
  std::string all;
  for (const std::string& part : parts) {
    all += (all.empty() ? "" : ", ") + part;
  }
  return all;
}

/// An object's members, sorted: JSON objects have no order (RFC 8259, section 4).
template <class Value>
std::string members(const colony::Named<Value>& object) {
  std::vector<std::string> parts;
  for (const auto& [name, value] : object) {
    parts.push_back(name + ' ' + words(value));
  }
  std::sort(parts.begin(), parts.end());
  return joined(parts);
}

Text sires(const colony::ClutchRecord& clutch) {
  if (clutch.sires.empty()) {
    return std::nullopt;
  }
  std::vector<std::string> parts;
  for (const colony::SireRecord& sire : clutch.sires) {
    parts.push_back(sire.id + " with share " + words(sire.share.value_or(1)));
  }
  return joined(parts);
}

std::vector<Field> own_fields(const colony::AppearanceRecord& seen) {
  return {{"kind", "appearance"},
          {"animal", seen.animal},
          {"locus", seen.locus},
          {"shows", seen.shows}};
}

std::vector<Field> own_fields(const colony::ScoreRecord& score) {
  return {{"kind", "score"},           {"animal", score.animal},     {"marker", score.marker},
          {"level", score.level},      {"reason", score.reason},     {"scorer", score.scorer},
          {"sure", words(score.sure)}, {"blind", words(score.blind)}};
}

std::vector<Field> own_fields(const colony::ResultRecord& result) {
  return {{"kind", "result"},
          {"animal", result.animal},
          {"assay", result.assay},
          {"report", result.report},
          {"sample", result.sample}};
}

std::vector<Field> own_fields(const colony::BroodRecord& brood) {
  return {{"kind", "brood"},
          {"animal", brood.animal},
          {"locus", brood.locus},
          {"partner", brood.partner},
          {"offspring", members(brood.offspring)}};
}

std::vector<Field> own_fields(const colony::WithdrawalRecord& withdrawal) {
  return {{"kind", "withdrawal"}, {"of", withdrawal.of}, {"why", withdrawal.why}};
}

Text value_in(const std::vector<Field>& fields, std::string_view name) {
  const auto found = std::find_if(fields.begin(), fields.end(),
                                  [&](const Field& field) { return field.name == name; });
  return found == fields.end() ? std::nullopt : found->value;
}

}  // namespace

std::vector<Field> fields_of(const colony::AnimalRecord& animal) {
  std::vector<Field> fields = {{"sex", words(animal.sex)},
                               {"origin", animal.origin},
                               {"clutch", animal.clutch},
                               {"line", animal.line},
                               {"hatched", words(animal.hatched)}};
  for (const colony::BoughtAsRecord& bought : animal.bought_as) {
    fields.push_back({"bought_as for " + bought.locus,
                      members(bought.odds) + " with trust " + words(bought.trust.value_or(1))});
  }
  return fields;
}

std::vector<Field> fields_of(const colony::ClutchRecord& clutch) {
  return {{"dam", clutch.dam},
          {"sires", sires(clutch)},
          {"paternity", words(clutch.paternity)},
          {"dam_origin", clutch.dam_origin},
          {"sire_origin", clutch.sire_origin},
          {"line", clutch.line},
          {"laid", words(clutch.laid)},
          {"hatched", words(clutch.hatched)},
          {"eggs", words(clutch.eggs)}};
}

std::vector<Field> fields_of(const colony::ObservationRecord& observation) {
  std::vector<Field> fields =
      std::visit([](const auto& what) { return own_fields(what); }, observation.what);
  fields.push_back({"on", words(observation.on)});
  fields.push_back({"recorded", words(observation.recorded)});
  return fields;
}

std::vector<Difference> differences(const std::vector<Field>& before,
                                    const std::vector<Field>& after) {
  std::vector<Difference> found;
  for (const Field& field : after) {
    const Text old = value_in(before, field.name);
    if (old != field.value) {
      found.push_back({field.name, old, field.value});
    }
  }
  for (const Field& field : before) {
    const bool shared = std::any_of(after.begin(), after.end(),
                                    [&](const Field& other) { return other.name == field.name; });
    if (!shared && field.value) {
      found.push_back({field.name, field.value, std::nullopt});
    }
  }
  return found;
}

}  // namespace likelihet::book
