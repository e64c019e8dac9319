// Builds a value from the parser's events, so that each rule is checked where it is broken.
#include <algorithm>
#include <cstdint>
#include <unordered_set>
#include <utility>
#include <vector>

#include <likelihet/base/utf8.hpp>
#include <likelihet/documents/json_text.hpp>

namespace likelihet::documents {

namespace {

// Line and column, from 1, of the byte at `offset`; columns count characters.
std::string line_and_column(std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, std::min(offset, text.size()));
  const auto lines = std::count(before.begin(), before.end(), '\n');
  const std::size_t last_break = before.rfind('\n');
  const std::string_view line =
      last_break == std::string_view::npos ? before : before.substr(last_break + 1);
  const auto characters = std::count_if(line.begin(), line.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  });
  return "line " + std::to_string(lines + 1) + " column " + std::to_string(characters + 1);
}

// The parser's words without its code, its own count of lines and the whole last token.
std::string reason_of(std::string_view message) {
  for (const std::string_view opening : {"] ", ": "}) {
    const std::size_t at = message.find(opening);
    if (at != std::string_view::npos) message.remove_prefix(at + opening.size());
  }
  for (const std::string_view said : {"syntax error while parsing ", "syntax error - "}) {
    if (message.substr(0, said.size()) == said) message.remove_prefix(said.size());
  }
  const std::size_t last_read = message.find("; last read: '");
  const std::size_t expected = message.rfind("; expected ");
  std::string reason(message.substr(0, last_read));
  if (last_read != std::string_view::npos && expected != std::string_view::npos &&
      expected > last_read) {
    reason += message.substr(expected);
  }
  return base::excerpt(reason, 200);
}

struct OpenContainer {
  Json* value;
  std::unordered_set<std::string> keys;  // filled only where there are many
};

class ValueBuilder : public nlohmann::json_sax<Json> {
 public:
  ValueBuilder(std::string_view text, FaultList& faults) : text_(text), faults_(faults) {}

  Json take() { return std::move(root_); }

  bool null() override { return add(Json(nullptr)); }
  bool boolean(bool value) override { return add(Json(value)); }
  bool number_integer(number_integer_t value) override { return add(Json(value)); }
  bool number_unsigned(number_unsigned_t value) override { return add(Json(value)); }
  bool number_float(number_float_t value, const string_t&) override { return add(Json(value)); }
  bool string(string_t& value) override { return add(Json(std::move(value))); }
  bool binary(binary_t&) override { return false; }  // no JSON text holds any

  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    if (seen_before(name)) {
      faults_.add(here(false), "the field '" + base::excerpt(name) + "' is given twice",
                  "keep one of the two");
    }
    key_ = std::move(name);
    return true;
  }

  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& error) override {
    constexpr int number_overflow = 406;
    const std::string at = line_and_column(text_, position == 0 ? 0 : position - 1);
    const std::string reason = reason_of(error.what());
    if (error.id == number_overflow) {
      faults_.add(here(true), "at " + at + ": a number too large for a double",
                  "write a number within ±1.7e308");
    } else if (text_.find_first_not_of(" \t\r\n") == std::string_view::npos) {
      faults_.add("", "the text is empty", "give a JSON document (RFC 8259)");
    } else {
      faults_.add("", "not JSON at " + at + ": " + reason,
                  "write it as RFC 8259 says, in UTF-8; a file cut short must be fetched again");
    }
    return false;
  }

 private:
  using Members = Json::object_t::Container;

  // Where a value is about to be put: the slot in the innermost open container.
  Json* put(Json&& value) {
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Json& container = *open_.back().value;
    if (container.is_array()) {
      auto& elements = container.get_ref<Json::array_t&>();
      elements.push_back(std::move(value));
      return &elements.back();
    }
    // Appended to the list of members itself: its own insertion looks through all of them.
    auto& members = static_cast<Members&>(container.get_ref<Json::object_t&>());
    members.emplace_back(std::move(key_), std::move(value));
    return &members.back().second;
  }

  bool add(Json&& value) {
    put(std::move(value));
    return true;
  }

  bool open(Json&& container) {
    if (open_.size() == deepest_nesting) {
      faults_.add(here(true), "nested deeper than " + std::to_string(deepest_nesting) + " levels",
                  "no document nests so deep: is it one?");
      return false;
    }
    Json* const value = put(std::move(container));
    open_.push_back({value, {}});
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  bool seen_before(const std::string& name) {
    constexpr std::size_t few = 16;
    OpenContainer& object = open_.back();
    const auto& members = static_cast<const Members&>(object.value->get_ref<Json::object_t&>());
    if (members.size() <= few) {
      return std::any_of(members.begin(), members.end(),
                         [&](const auto& member) { return member.first == name; });
    }
    if (object.keys.empty()) {
      for (const auto& member : members) object.keys.insert(member.first);
    }
    return !object.keys.insert(name).second;
  }

  // The pointer of the innermost open container, or of the value about to be put there.
  [[nodiscard]] std::string here(bool of_next_value) const {
    std::string pointer;
    for (std::size_t level = 0; level < open_.size(); ++level) {
      const bool innermost = level + 1 == open_.size();
      if (innermost && !of_next_value) break;
      const Json& container = *open_[level].value;
      const std::size_t begun = innermost ? 0 : 1;  // an outer one already holds what is open in it
      pointer += container.is_array() ? "/" + std::to_string(container.size() - begun)
                 : innermost          ? pointer_token(key_)
                                      : pointer_token(last_key(container));
    }
    return pointer;
  }

  static const std::string& last_key(const Json& object) {
    return static_cast<const Members&>(object.get_ref<const Json::object_t&>()).back().first;
  }

  std::string_view text_;
  FaultList& faults_;
  Json root_;
  std::vector<OpenContainer> open_;
  std::string key_;
};

}  // namespace

std::optional<Json> parse_json(std::string_view text, FaultList& faults) {
  if (text.size() > longest_text) {
    faults.add("", "the text is longer than 1 GiB", "split it into several documents");
    return std::nullopt;
  }
  const std::string_view json = base::without_byte_order_mark(text);
  ValueBuilder builder(json, faults);
  if (!Json::sax_parse(json.begin(), json.end(), &builder)) return std::nullopt;
  return builder.take();
}

std::string pointer_token(std::string_view key) {
  std::string token = "/";
  for (const char c : key) {
    if (c == '~') {
      token += "~0";
    } else if (c == '/') {
      token += "~1";
    } else {
      token += c;
    }
  }
  return token;
}

std::string json_text(const Json& value, int indent) {
  return value.dump(indent, ' ', false, Json::error_handler_t::replace);
}

}  // namespace likelihet::documents
