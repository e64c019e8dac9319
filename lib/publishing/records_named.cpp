// Kinds and days of records.
#include "records_named.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace likelihet::publishing {
namespace {

constexpr std::array record_kinds{"look", "brood", "reading", "result", "withdrawal"};

std::size_t record_kind(const colony::Observation& seen) {
  if (std::holds_alternative<colony::AppearanceSeen>(seen.what)) return 0;
  if (std::holds_alternative<colony::Brood>(seen.what)) return 1;
  if (std::holds_alternative<colony::Score>(seen.what)) return 2;
  if (std::holds_alternative<colony::Result>(seen.what)) return 3;
  return 4;
}

std::string record_day(const colony::Observation& seen) {
  return seen.on ? seen.on->text() : seen.known ? seen.known->text() : std::string();
}

// Of one kind, all of the animal or all of others.
struct RecordGroup {
  std::size_t count = 0;
  std::string first, last;  // days; empty where none is dated

  void take(const colony::Observation& seen) {
    ++count;
    const std::string day = record_day(seen);
    if (day.empty()) return;
    if (first.empty() || day < first) first = day;
    if (last < day) last = day;
  }
  [[nodiscard]] std::string days() const {
    if (first.empty()) return {};
    return first == last ? fmt::format(" ({})", first) : fmt::format(" ({} to {})", first, last);
  }
};

}  // namespace

std::vector<std::string> records_named(const colony::Colony& colony, std::size_t animal,
                                       const std::vector<std::size_t>& observations) {
  std::array<RecordGroup, record_kinds.size()> own, others;
  for (const std::size_t o : observations) {
    const auto& seen = colony.observations()[o];
    const bool of_it = colony::animal_of(seen) == animal;
    (of_it ? own : others)[record_kind(seen)].take(seen);
  }
  std::vector<std::string> out;
  for (std::size_t k = 0; k < record_kinds.size(); ++k) {
    const RecordGroup& group = own[k];
    if (group.count == 0) continue;
    out.push_back(group.count == 1 ? fmt::format("its own {}{}", record_kinds[k], group.days())
                                   : fmt::format("its own {} {}s{}", group.count, record_kinds[k],
                                                 group.days()));
  }
  for (std::size_t k = 0; k < record_kinds.size(); ++k) {
    const RecordGroup& group = others[k];
    if (group.count == 0) continue;
    out.push_back(
        group.count == 1
            ? fmt::format("a {} of a relative{}", record_kinds[k], group.days())
            : fmt::format("{} {}s of relatives{}", group.count, record_kinds[k], group.days()));
  }
  return out;
}

std::string record_named(const colony::Colony& colony, std::size_t observation) {
  const auto& seen = colony.observations()[observation];
  std::string out = fmt::format("a {}", record_kinds[record_kind(seen)]);
  if (const auto animal = colony::animal_of(seen)) {
    out += fmt::format(" of {}", colony.animals()[*animal].id);
  }
  const std::string day = record_day(seen);
  return day.empty() ? out : fmt::format("{} ({})", out, day);
}

}  // namespace likelihet::publishing
