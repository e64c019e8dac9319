// Text to JSON values, strictly (RFC 8259): every key once, nothing nested too deep, no overflow.
// The parser's events are used, not its tree builder, which would let a repeated key pass.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include <likelihet/colony/fault_list.hpp>

namespace likelihet::documents {

using colony::FaultList;

/// Members keep the order in which they were written. Looking a member up is linear in the members.
using Json = nlohmann::ordered_json;

/// Arrays and objects within one another. Our documents need far fewer; the limit keeps the stack
/// safe.
inline constexpr std::size_t deepest_nesting = 64;
inline constexpr std::size_t longest_text = std::size_t{1} << 30;  ///< bytes

/// The value, or nothing if the text is not a JSON; what is wrong is added to `faults`. A repeated
/// key is a fault of its own at the object's pointer and does not end the reading (the value then
/// holds both members). A leading byte-order mark is ignored, as RFC 8259 section 8.1 allows. The
/// first syntax error ends the reading, told by line and column (from 1, in characters). A value
/// with faults beside it is for finding more faults, not for use. Numbers beyond a double's range
/// are faults; text after the value is one.
std::optional<Json> parse_json(std::string_view text, FaultList& faults);

/// One reference token of a JSON Pointer with its slash: "/" and "~" as RFC 6901 section 3 writes
/// them.
std::string pointer_token(std::string_view key);

/// A JSON text of the value; ill-formed UTF-8 becomes U+FFFD rather than an exception. `indent` -1
/// writes one line. Doubles are written so that they read back the same; infinities and NaN would
/// be null.
std::string json_text(const Json& value, int indent = -1);

}  // namespace likelihet::documents
