// Checks of ids, probabilities and their sums.
#include <cmath>

#include <likelihet/colony/value_checks.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

namespace {

constexpr std::size_t longest_id = 200;

// C0 controls and DEL; C1 controls are 0xC2 0x80 to 0xC2 0x9F in UTF-8.
bool has_control_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte < 0x20 || byte == 0x7F) return true;
    if (byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0) {
      return true;
    }
  }
  return false;
}

}  // namespace

bool good_id(std::string_view id) {
  return !id.empty() && id.size() <= longest_id && !has_control_character(id);
}

void check_id(std::string_view id, const std::string& name, const std::string& place,
              FaultList& faults) {
  if (id.empty()) {
    faults.add(place, "the " + name + " is empty", "write 1 to 200 bytes of text");
  } else if (id.size() > longest_id) {
    faults.add(place,
               "the " + name + " " + in_quotes(id) + " has " + std::to_string(id.size()) + " bytes",
               "write 1 to 200 bytes of text");
  } else if (has_control_character(id)) {
    faults.add(place, "the " + name + " " + in_quotes(id) + " has a control character in it",
               "leave out line ends, tabs and other control characters");
  }
}

void check_unit_interval(double value, const std::string& name, const std::string& place,
                         FaultList& faults) {
  if (value >= 0 && value <= 1) return;
  faults.add(place, name + " is " + number(value), "it must be from 0 to 1");
}

void check_not_negative(double value, const std::string& name, const std::string& place,
                        FaultList& faults) {
  if (std::isfinite(value) && value >= 0) return;
  faults.add(place, name + " is " + number(value), "it must be 0 or more, and finite");
}

void check_at_most(double value, double most, const std::string& name, const std::string& place,
                   FaultList& faults) {
  if (!std::isfinite(value) || value <= most) return;
  faults.add(place, name + " is " + number(value), "it must be at most " + number(most));
}

bool is_one(double sum) {
  return std::abs(sum - 1) <= 1e-9;
}

void check_sums_to_one(double sum, const std::string& name, const std::string& place,
                       FaultList& faults) {
  if (is_one(sum)) return;
  faults.add(place, name + " sum to " + number(sum), "they must sum to 1, within 1e-9");
}

}  // namespace likelihet::colony
