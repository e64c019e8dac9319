// Reads the fields of JSON objects one by one and collects every fault of form with its pointer.
// Reading goes on after a fault with a stand-in value, so that one reading finds them all; whoever
// reads must look at the fault list before using anything.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <likelihet/colony/date.hpp>
#include <likelihet/documents/json_text.hpp>

namespace likelihet::documents {

/// A JSON Pointer that is spelt out only when a fault needs it: a token, and the pointer before it,
/// which must outlive it. A chain on the stack: a node's pointer is good while the nodes above it
/// are.
struct Pointer {
  const Pointer* before = nullptr;  ///< nothing: the whole document, whose pointer is ""
  std::string_view key;             ///< used if there is no index
  std::optional<std::size_t> index;

  /// RFC 6901 section 3 escapes; array elements by position from 0.
  [[nodiscard]] std::string text() const;
};

/// A value of the document, where it stands, and where to say what is wrong with it. References
/// only. A node made by member() points at its maker, which must outlive it.
struct Node {
  const Json& value;
  Pointer pointer;
  FaultList& faults;

  [[nodiscard]] Node member(std::string_view key, const Json& of) const {
    return {of, {&pointer, key, std::nullopt}, faults};
  }
  [[nodiscard]] Node element(std::size_t at, const Json& of) const {
    return {of, {&pointer, {}, at}, faults};
  }
  /// Spells the pointer out only while faults are still kept.
  void fault(std::string what, std::string mend) const;
};

/// Each reads a value of one kind, or adds a fault that says what was found and what is wanted. An
/// empty text passes here; null is refused, as a field that is not known is left out.
std::optional<std::string> text_of(const Node& node);
std::optional<std::string> id_of(const Node& node);  ///< a text that is not empty
/// Whole numbers beyond 2^53 lose digits, as in any double.
std::optional<double> number_of(const Node& node);
std::optional<std::int64_t> count_of(const Node& node);  ///< a whole number from 0; 7.0 is one
std::optional<bool> truth_of(const Node& node);
std::optional<colony::Date> date_of(const Node& node);
std::optional<colony::Timestamp> timestamp_of(const Node& node);

/// Adds the fault of a value that is not the kind wanted ("an array", "a number"), and says
/// nothing.
std::nullopt_t refuse(const Node& node, std::string_view wanted);

/// Reads an element into the list. Once faults are only counted nothing more is kept, as nothing of
/// such a document is used: a long file of nonsense takes no more memory than its text asks for.
template <class List, class Read>
void read_into(List& list, const Node& node, Read read) {
  auto value = read(node);
  if (!node.faults.full()) list.push_back(std::move(value));
}

/// Whether a missing field is a fault.
enum class Presence { optional, required };

/// An object whose fields are asked for by name. What was asked for is what it may have: finish()
/// refuses the rest. Keeps a reference to the node and views of the field names: literals, as a
/// rule. Where the node is no object, one fault is added and every field reads as absent.
class ObjectReader {
 public:
  /// `what` the object is, for messages: "a locus".
  ObjectReader(const Node& node, std::string_view what);

  /// The member, or nothing; where it is required and missing that is a fault. Lives as long as the
  /// document. Of a repeated key, the first member.
  const Json* find(std::string_view field, Presence presence);
  /// Allows a field and says whether it is there.
  bool has(std::string_view field) { return find(field, Presence::optional) != nullptr; }

  /// Reads a field that may be absent with one of the functions above.
  template <class Value>
  std::optional<Value> optional(std::string_view field, std::optional<Value> (*read)(const Node&)) {
    return read_field(field, Presence::optional, read);
  }
  /// Reads a field that must be there; a default value stands in for one that is not.
  template <class Value>
  Value required(std::string_view field, std::optional<Value> (*read)(const Node&)) {
    return read_field(field, Presence::required, read).value_or(Value{});
  }

  /// Reads a field that is one of a few words.
  template <class Value>
  std::optional<Value> word(std::string_view field, Presence presence,
                            const std::vector<std::pair<std::string_view, Value>>& words) {
    const Json* found = find(field, presence);
    if (found == nullptr) return std::nullopt;
    const Node node = node_.member(field, *found);
    const std::optional<std::string> text = text_of(node);
    if (!text) return std::nullopt;
    std::vector<std::string> known;
    for (const auto& [name, value] : words) {
      if (name == *text) return value;
      known.emplace_back(name);
    }
    refuse_word(node, field, *text, known);
    return std::nullopt;
  }

  /// Calls `each(node)` for the elements of a field that is an array.
  template <class Each>
  void elements(std::string_view field, Presence presence, Each each) {
    const Json* found = find(field, presence);
    if (found == nullptr) return;
    const Node node = node_.member(field, *found);
    if (!found->is_array()) {
      refuse(node, "an array");
      return;
    }
    for (std::size_t i = 0; i < found->size(); ++i) each(node.element(i, (*found)[i]));
  }

  /// Calls `each(key, node)` for the members of a field that is an object with keys of its own.
  template <class Each>
  void members(std::string_view field, Presence presence, Each each) {
    const Json* found = find(field, presence);
    if (found == nullptr) return;
    members_of(node_.member(field, *found), each);
  }

  template <class Each>
  static void members_of(const Node& node, Each each) {
    if (!node.value.is_object()) {
      refuse(node, "an object");
      return;
    }
    for (const auto& [key, value] : node.value.get_ref<const Json::object_t&>()) {
      each(key, node.member(key, value));
    }
  }

  /// Adds a fault for each field that was never asked for. Call it last, and not where an earlier
  /// fault left open which fields there may be.
  void finish() const;

 private:
  template <class Value>
  std::optional<Value> read_field(std::string_view field, Presence presence,
                                  std::optional<Value> (*read)(const Node&)) {
    const Json* found = find(field, presence);
    return found == nullptr ? std::nullopt : read(node_.member(field, *found));
  }
  static void refuse_word(const Node& node, std::string_view field, const std::string& found,
                          const std::vector<std::string>& known);

  const Node& node_;
  std::string_view what_;
  bool is_object_;
  std::vector<std::string_view> known_;
};

/// Reads and checks "format" and "version". False where reading on would only report noise: it is
/// another document, or one of a later version. Faults are added in either case; another kind of
/// document and a later version are the two.
bool read_heading(ObjectReader& document, const Node& node, std::string_view format);

}  // namespace likelihet::documents
