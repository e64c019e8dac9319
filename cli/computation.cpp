// Troubles of a computation in words, and records found by their ids.
#include "computation.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

#include "observation_words.hpp"
#include <fmt/format.h>

#include <likelihet/colony/nearest.hpp>

namespace likelihet::cli {
namespace {

template <class Items>
std::size_t found_or_fail(std::optional<std::size_t> position, const Items& items,
                          std::string_view kind, const std::string& id) {
  if (position) return *position;
  std::vector<std::string> known;
  for (const auto& item : items) {
    if constexpr (requires { item.id(); }) {
      known.push_back(item.id());
    } else {
      known.push_back(item.id);
    }
  }
  throw Failure(ExitStatus::input, "command line", fmt::format("the book has no {} '{}'", kind, id),
                colony::suggestion(id, known));
}

}  // namespace

Failure failure_of(const colony::Colony& colony, const odds::Contradiction& contradiction) {
  // The records follow, each as a fault of its own: the sentence before the list is enough.
  std::string what = contradiction.what.substr(0, contradiction.what.find('\n'));
  if (what.ends_with(':')) what.pop_back();
  colony::Faults faults = {
      {"book", what,
       "leave out any one of these and the rest can be true: 'likelihet withdraw' the wrong one"}};
  for (const std::size_t position : contradiction.observations) {
    const auto& observation = colony.observations()[position];
    faults.push_back(
        {"observation " + observation.id,
         fmt::format("{}, {}", day_in_words(observation), words_of(colony, position, true)), ""});
  }
  for (const std::size_t position : contradiction.sexes) {
    const auto& animal = colony.animals()[position];
    faults.push_back(
        {"animal " + animal.id,
         fmt::format("recorded as {}", animal.sex == genetics::Sex::male ? "male" : "female"), ""});
  }
  return {ExitStatus::contradiction, std::move(faults)};
}

Failure failure_of(const odds::TooLarge& too_large) {
  return {ExitStatus::too_large, "book", too_large.what,
          "allow more memory with --memory, or keep parts that do not touch in books of their own"};
}

std::size_t animal_named(const colony::Colony& colony, const std::string& id) {
  return found_or_fail(colony.find_animal(id), colony.animals(), "animal", id);
}

std::size_t clutch_named(const colony::Colony& colony, const std::string& id) {
  return found_or_fail(colony.find_clutch(id), colony.clutches(), "clutch", id);
}

std::size_t locus_named(const colony::Model& model, const std::string& id) {
  return found_or_fail(model.find_locus(id), model.loci(), "trait", id);
}

std::vector<std::size_t> animals_of(const colony::Colony& colony,
                                    const std::vector<std::string>& ids,
                                    const std::optional<std::string>& clutch) {
  std::vector<std::size_t> out;
  const auto add = [&](std::size_t animal) {
    if (std::find(out.begin(), out.end(), animal) == out.end()) out.push_back(animal);
  };
  for (const std::string& id : ids) add(animal_named(colony, id));
  if (clutch) {
    for (const std::size_t animal : colony.clutches()[clutch_named(colony, *clutch)].hatchlings) {
      add(animal);
    }
  }
  if (out.empty()) {
    throw Failure(ExitStatus::usage, "command line", "no animal is named",
                  "name animals, or a clutch that has some with --clutch");
  }
  return out;
}

std::size_t assay_named(const colony::Model& model, const std::string& id) {
  return found_or_fail(model.find_assay(id), model.assays(), "assay", id);
}

}  // namespace likelihet::cli
