// A record as named fields with their values in words, so that any two can be compared and shown.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// One field of the colony document. Equal values have equal words: numbers are written so that
/// they read back as the same double, and members of an object are sorted. Fields that mean their
/// default when absent inside a list (a sire's `share`, a `trust`) are written as that default. For
/// comparing and for messages only: words are not read back.
struct Field {
  std::string name;
  std::optional<std::string> value;  ///< nothing: absent
  friend bool operator==(const Field&, const Field&) = default;
};

/// All fields but the id; of an animal's `bought_as`, a field for each locus.
std::vector<Field> fields_of(const colony::AnimalRecord& animal);
/// All fields but the id. The sires are one field together, in their order.
std::vector<Field> fields_of(const colony::ClutchRecord& clutch);
/// All fields but the id and `entered`; `kind` first.
std::vector<Field> fields_of(const colony::ObservationRecord& observation);

/// A field that two records of one id do not share. Nothing on one side: the field is absent there.
struct Difference {
  std::string name;
  std::optional<std::string> before;
  std::optional<std::string> after;
};

/// The fields whose values differ, in the order of `after`, then those of `before` alone. Empty:
/// the same content. Quadratic in the fields, of which there are few.
std::vector<Difference> differences(const std::vector<Field>& before,
                                    const std::vector<Field>& after);

}  // namespace likelihet::book
