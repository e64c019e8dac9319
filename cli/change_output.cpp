// Counts of what was added, completed, replaced and left alone.
#include "change_output.hpp"

#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

std::string parts_joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += parts[i];
  }
  return text;
}

void append(std::vector<std::string>& parts, const std::string& part) {
  if (!part.empty()) parts.push_back(part);
}

std::string if_any(std::size_t count, std::string_view one, std::string_view many) {
  return count == 0 ? std::string{} : counted(count, one, many);
}

ordered_json moves_json(const MovesTold& told) {
  auto listed = ordered_json::array();
  for (const auto& move : told.moves) {
    listed.push_back({{"animal", move.animal},
                      {"locus", move.locus},
                      {"allele", move.allele},
                      {"before", move.before},
                      {"after", move.after}});
  }
  return listed;
}

}  // namespace

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  if (count == 0) return fmt::format("no {}", many);
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string change_text(const ChangeTold& told) {
  const book::Change& change = told.change;
  std::vector<std::string> added;
  append(added, if_any(change.animals_added, "animal", "animals"));
  append(added, if_any(change.clutches_added, "clutch", "clutches"));
  append(added, if_any(change.observations_added, "observation", "observations"));
  std::vector<std::string> completed;
  append(completed, if_any(change.animals_completed, "animal", "animals"));
  append(completed, if_any(change.clutches_completed, "clutch", "clutches"));

  std::vector<std::string> parts;
  if (change.model_replaced) parts.emplace_back("model replaced");
  if (change.policy_replaced) parts.emplace_back("policy replaced");
  if (!added.empty()) parts.push_back(parts_joined(added) + " added");
  if (!completed.empty()) parts.push_back(parts_joined(completed) + " completed");
  append(parts, if_any(change.unchanged, "record already there", "records already there"));
  if (parts.empty()) parts.emplace_back("nothing to change");
  std::string text;
  for (const auto& part : parts) text += (text.empty() ? "" : "; ") + part;
  return told.written ? text : text + " (a dry run: nothing was written)";
}

std::string change_json(const ChangeTold& told) {
  const book::Change& change = told.change;
  ordered_json document = {{"format", "likelihet-change"},
                           {"version", 1},
                           {"written", told.written},
                           {"animals_added", change.animals_added},
                           {"animals_completed", change.animals_completed},
                           {"clutches_added", change.clutches_added},
                           {"clutches_completed", change.clutches_completed},
                           {"observations_added", change.observations_added},
                           {"unchanged", change.unchanged},
                           {"model_replaced", change.model_replaced},
                           {"policy_replaced", change.policy_replaced}};
  if (told.observation) document["observation"] = *told.observation;
  if (told.moves) {
    document["moved"] = moves_json(*told.moves);
    document["surprise"] = nullptr;
    if (const auto& surprise = told.moves->surprise) {
      document["surprise"] = {{"probability", surprise->probability}, {"why", surprise->why}};
    }
  }
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
