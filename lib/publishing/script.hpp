// What stands between script tags. Private to the layer.
#pragma once

#include <string_view>

#include "markup.hpp"
#include <nlohmann/json_fwd.hpp>

namespace likelihet::publishing {

struct Script {
  /// JSON that no document can end early: all but ASCII is written as \u escapes (U+2028 and U+2029
  /// too), and so are `<`, `>` and `&`, which leaves no tag, comment or reference to be found
  /// (HTML, "Restrictions for contents of script elements").
  static Markup data(const nlohmann::ordered_json& value);

  /// A program of our own. `</script` and `<!--` stand in JavaScript only within strings,
  /// templates, regular expressions and comments, where a backslash after the `<` changes nothing.
  static Markup program(std::string_view source);
};

}  // namespace likelihet::publishing
