#include "script.hpp"

#include <algorithm>
#include <string>

#include <nlohmann/json.hpp>

namespace likelihet::publishing {
namespace {

bool starts_with_script_end(std::string_view text) {
  constexpr std::string_view end = "</script";
  return text.size() >= end.size() &&
         std::equal(end.begin(), end.end(), text.begin(), [](char expected, char found) {
           return expected == (found >= 'A' && found <= 'Z' ? found - 'A' + 'a' : found);
         });
}

}  // namespace

Markup Script::data(const nlohmann::ordered_json& value) {
  std::string escaped;
  for (const char character : value.dump(-1, ' ', true)) {
    switch (character) {
      case '<':
        escaped += "\\u003c";
        break;
      case '>':
        escaped += "\\u003e";
        break;
      case '&':
        escaped += "\\u0026";
        break;
      default:
        escaped += character;
    }
  }
  return Markup(std::move(escaped));
}

Markup Script::program(std::string_view source) {
  std::string text;
  for (std::size_t at = 0; at < source.size(); ++at) {
    text += source[at];
    const auto rest = source.substr(at);
    if (rest.starts_with("<!--") || starts_with_script_end(rest)) text += '\\';
  }
  return Markup(std::move(text));
}

}  // namespace likelihet::publishing
