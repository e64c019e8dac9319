// The sample documents of this folder, and looking for things in pages.
#pragma once

#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

namespace likelihet::publishing {

/// "full", "empty", "one" or "only_positive".
inline nlohmann::json sample(const std::string& name) {
  std::ifstream file(LIKELIHET_SOURCE_DIR "/tests/publishing/audit_" + name + ".json");
  if (!file) throw std::runtime_error("there is no sample " + name);
  return nlohmann::json::parse(file);
}

inline std::size_t times(std::string_view text, std::string_view part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string_view::npos; at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

/// The text between each `from` and the `to` that follows it.
inline std::vector<std::string> between(std::string_view text, std::string_view from,
                                        std::string_view to) {
  std::vector<std::string> found;
  for (auto at = text.find(from); at != std::string_view::npos; at = text.find(from, at)) {
    at += from.size();
    found.emplace_back(text.substr(at, text.find(to, at) - at));
  }
  return found;
}

/// The specifications of a page's drawings.
inline std::vector<nlohmann::json> specifications(std::string_view page) {
  std::vector<nlohmann::json> found;
  for (const auto& script : between(page, "<script type=\"application/json\"", "</script>")) {
    found.push_back(nlohmann::json::parse(script.substr(script.find('>') + 1)));
  }
  return found;
}

}  // namespace likelihet::publishing
