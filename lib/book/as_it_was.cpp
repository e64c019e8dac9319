// Takes later entries off, the last one first.
#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include <likelihet/book/as_it_was.hpp>

namespace likelihet::book {
namespace {

/// Whether a field's name stands in the list of those that an entry filled in. Names are parted by
/// commas, and the name of a bought_as ends in a locus, which may hold one too: so whole names are
/// looked for.
bool stands_in(std::string_view list, std::string_view name) {
  for (std::size_t at = list.find(name); at != std::string_view::npos;
       at = list.find(name, at + 1)) {
    const bool begins = at == 0 || (at >= 2 && list.substr(at - 2, 2) == ", ");
    const std::string_view rest = list.substr(at + name.size());
    if (begins && (rest.empty() || rest.starts_with(", "))) return true;
  }
  return false;
}

template <class Value>
void clear_if(std::optional<Value>& value, std::string_view list, std::string_view name) {
  if (stands_in(list, name)) value.reset();
}

void take_off(colony::AnimalRecord& animal, std::string_view fields) {
  clear_if(animal.sex, fields, "sex");
  clear_if(animal.origin, fields, "origin");
  clear_if(animal.clutch, fields, "clutch");
  clear_if(animal.line, fields, "line");
  clear_if(animal.hatched, fields, "hatched");
  std::erase_if(animal.bought_as, [&](const colony::BoughtAsRecord& bought) {
    return stands_in(fields, "bought_as for " + bought.locus);
  });
}

void take_off(colony::ClutchRecord& clutch, std::string_view fields) {
  clear_if(clutch.dam, fields, "dam");
  clear_if(clutch.paternity, fields, "paternity");
  clear_if(clutch.dam_origin, fields, "dam_origin");
  clear_if(clutch.sire_origin, fields, "sire_origin");
  clear_if(clutch.line, fields, "line");
  clear_if(clutch.laid, fields, "laid");
  clear_if(clutch.hatched, fields, "hatched");
  clear_if(clutch.eggs, fields, "eggs");
  if (stands_in(fields, "sires")) clutch.sires.clear();
}

/// What entries of one kind of record did: which ids were added, and which fields were filled in.
struct Later {
  std::unordered_set<std::string> added;
  std::unordered_map<std::string, std::vector<std::string>> completed;
};

template <class Record>
void take_off(std::vector<Record>& records, const Later& later) {
  std::erase_if(records, [&](const Record& record) { return later.added.contains(record.id); });
  if constexpr (!std::is_same_v<Record, colony::ObservationRecord>) {
    for (Record& record : records) {
      const auto found = later.completed.find(record.id);
      if (found == later.completed.end()) continue;
      for (const std::string& fields : found->second) take_off(record, fields);
    }
  }
}

bool note(const LedgerEntry& entry, std::string_view kind, Later& later) {
  if (!entry.what.starts_with(kind)) return false;
  if (entry.what.ends_with(" added")) later.added.insert(entry.id);
  if (entry.what.ends_with(" completed")) later.completed[entry.id].push_back(entry.detail);
  return true;
}

}  // namespace

Stored as_it_was(Stored now, const std::vector<LedgerEntry>& ledger, std::int64_t entries) {
  Later animals, clutches, observations;
  for (auto entry = ledger.rbegin(); entry != ledger.rend() && entry->number > entries; ++entry) {
    if (entry->what == "model replaced") {
      now.model = entry->detail;
    } else if (entry->what == "policy replaced") {
      now.policy = entry->detail.empty() ? std::nullopt : std::optional(entry->detail);
    } else if (!note(*entry, "animal ", animals) && !note(*entry, "clutch ", clutches)) {
      note(*entry, "observation ", observations);
    }
  }
  take_off(now.records.animals, animals);
  take_off(now.records.clutches, clutches);
  take_off(now.records.observations, observations);
  return now;
}

}  // namespace likelihet::book
