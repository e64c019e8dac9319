// The words of each fault of form, and the order in which fields are checked.
#include <algorithm>
#include <cmath>

#include <likelihet/base/utf8.hpp>
#include <likelihet/colony/nearest.hpp>
#include <likelihet/documents/object_reader.hpp>

namespace likelihet::documents {

namespace {

std::string in_quotes(std::string_view text) {
  return "'" + base::excerpt(text) + "'";
}

std::string found_in(const Json& value) {
  switch (value.type()) {
    case Json::value_t::null:
      return "null";
    case Json::value_t::boolean:
      return value.get<bool>() ? "true" : "false";
    case Json::value_t::string:
      return "the text " + in_quotes(value.get_ref<const std::string&>());
    case Json::value_t::object:
      return "an object";
    case Json::value_t::array:
      return "an array";
    default:
      return "the number " + value.dump();
  }
}

}  // namespace

std::string Pointer::text() const {
  if (before == nullptr) return {};
  return before->text() + (index ? "/" + std::to_string(*index) : pointer_token(key));
}

void Node::fault(std::string what, std::string mend) const {
  faults.add(faults.full() ? std::string() : pointer.text(), std::move(what), std::move(mend));
}

std::nullopt_t refuse(const Node& node, std::string_view wanted) {
  const std::string mend = node.value.is_null() ? "leave the field out where nothing is known"
                                                : "write " + std::string(wanted);
  node.fault("found " + found_in(node.value) + ", not " + std::string(wanted), mend);
  return std::nullopt;
}

std::optional<std::string> text_of(const Node& node) {
  if (!node.value.is_string()) return refuse(node, "a text");
  return node.value.get<std::string>();
}

std::optional<std::string> id_of(const Node& node) {
  std::optional<std::string> id = text_of(node);
  if (id && id->empty()) {
    node.fault("found an empty text", "write at least one character");
    return std::nullopt;
  }
  return id;
}

std::optional<double> number_of(const Node& node) {
  if (!node.value.is_number()) return refuse(node, "a number");
  return node.value.get<double>();
}

std::optional<std::int64_t> count_of(const Node& node) {
  constexpr double largest = 9007199254740992;  // 2^53: every whole number up to it is a double
  if (!node.value.is_number()) return refuse(node, "a whole number");
  const double number = node.value.get<double>();
  if (number != std::floor(number) || number < 0 || number > largest) {
    return refuse(node, "a whole number from 0 to 2^53");
  }
  return static_cast<std::int64_t>(number);
}

std::optional<bool> truth_of(const Node& node) {
  if (!node.value.is_boolean()) return refuse(node, "true or false");
  return node.value.get<bool>();
}

std::optional<colony::Date> date_of(const Node& node) {
  const std::optional<std::string> text = text_of(node);
  if (!text) return std::nullopt;
  std::optional<colony::Date> date = colony::Date::parse(*text);
  if (!date) {
    node.fault(in_quotes(*text) + " is not a day of the calendar",
               "write year-month-day, such as 2024-06-30 (ISO 8601)");
  }
  return date;
}

std::optional<colony::Timestamp> timestamp_of(const Node& node) {
  const std::optional<std::string> text = text_of(node);
  if (!text) return std::nullopt;
  std::optional<colony::Timestamp> moment = colony::Timestamp::parse(*text);
  if (!moment) {
    node.fault(in_quotes(*text) + " is not a date and time with its offset",
               "write it like 2024-07-03T18:30:00Z (RFC 3339)");
  }
  return moment;
}

ObjectReader::ObjectReader(const Node& node, std::string_view what)
    : node_(node), what_(what), is_object_(node.value.is_object()) {
  if (!is_object_) refuse(node, "an object (" + std::string(what) + ")");
}

const Json* ObjectReader::find(std::string_view field, Presence presence) {
  if (!is_object_) return nullptr;  // said once, by the constructor
  if (std::find(known_.begin(), known_.end(), field) == known_.end()) known_.push_back(field);
  for (const auto& [key, value] : node_.value.get_ref<const Json::object_t&>()) {
    if (key == field) return &value;
  }
  if (presence == Presence::required) {
    node_.fault("the field '" + std::string(field) + "' is missing",
                "add it: " + std::string(what_) + " must have one");
  }
  return nullptr;
}

void ObjectReader::refuse_word(const Node& node, std::string_view field, const std::string& found,
                               const std::vector<std::string>& known) {
  node.fault("unknown " + std::string(field) + " " + in_quotes(found),
             node.faults.full() ? std::string() : colony::suggestion(found, known));
}

void ObjectReader::finish() const {
  if (!is_object_) return;
  for (const auto& [key, value] : node_.value.get_ref<const Json::object_t&>()) {
    if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
    const Node member = node_.member(key, value);
    if (member.faults.full()) {
      member.fault({}, {});
      continue;
    }
    const std::vector<std::string> known(known_.begin(), known_.end());
    member.fault("unknown field " + in_quotes(key) + " in " + std::string(what_),
                 colony::suggestion(key, known));
  }
}

bool read_heading(ObjectReader& document, const Node& node, std::string_view format) {
  constexpr std::int64_t version_read = 1;
  const std::size_t prefix = std::string_view("likelihet-").size();
  if (const Json* found = document.find("format", Presence::required)) {
    const Node at = node.member("format", *found);
    const std::optional<std::string> text = text_of(at);
    if (text && *text != format) {
      at.fault("the format is " + in_quotes(*text) + ", not '" + std::string(format) + "'",
               "give a " + std::string(format.substr(prefix)) + " document");
      if (text->substr(0, prefix) == format.substr(0, prefix)) return false;
    }
  }
  if (const Json* found = document.find("version", Presence::required)) {
    const Node at = node.member("version", *found);
    const std::optional<std::int64_t> version = count_of(at);
    if (version && *version > version_read) {
      at.fault(
          "version " + std::to_string(*version) + " was made for a newer likelihet",
          "this one reads version 1: get the newer program, or save the document as version 1");
      return false;
    }
    if (version && *version < version_read) {
      at.fault("there is no version " + std::to_string(*version), "write version 1");
    }
  }
  return true;
}

}  // namespace likelihet::documents
