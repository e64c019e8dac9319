// Compares an import with the book, record by record.
#include <algorithm>
#include <optional>
#include <string_view>
#include <unordered_map>
#include <utility>

#include <likelihet/book/fields.hpp>
#include <likelihet/book/merging.hpp>
#include <likelihet/colony/hidden_characters.hpp>

namespace likelihet::book {
namespace {

using colony::AnimalRecord;
using colony::ClutchRecord;
using colony::Fault;
using colony::Faults;
using colony::ObservationRecord;

std::string shown(const std::optional<std::string>& value) {
  return value ? *value : "absent";
}

Fault other_content(const std::string& place, const std::string& record, const Difference& found,
                    const std::string& mend) {
  return {place,
          record + " is in the book with " + found.name + ' ' + shown(found.before) + ", not " +
              shown(found.after),
          mend};
}

Fault stands_twice(const std::string& place, const std::string& record, const std::string& first,
                   const Difference& found) {
  return {place,
          record + " is there twice with other content: " + found.name + ' ' + shown(found.before) +
              " at " + first + ", " + shown(found.after) + " here",
          "keep one of the two, or give the other an id of its own"};
}

/// A table read with the wrong columns has a fault a row, and nobody reads them all.
constexpr std::size_t most_faults = 1000;

template <class MakeFault>
void add_fault(Merged& merged, const MakeFault& make_fault) {
  if (merged.faults.size() < most_faults) {
    merged.faults.push_back(make_fault());
  } else {
    ++merged.faults_left_out;
  }
}

constexpr const char* correct_document =
    "an import fills in absent fields and changes none: make the document agree with the book, or "
    "leave the field out";
constexpr const char* withdraw_instead =
    "an observation is never changed: make the document agree with the book, or add a withdrawal "
    "of "
    "it and a new observation with an id of its own";

/// Adds a fault for each text of a record that hides something. Only for what comes in.
template <class Record>
bool shows_all(const Record& incoming, bool known, Merged& merged) {
  Faults hidden = colony::hidden_faults(incoming, known);
  for (Fault& fault : hidden) {
    add_fault(merged, [&] { return std::move(fault); });
  }
  return hidden.empty();
}

/// The positions of records by id. Ids are looked up in texts that outlive it.
template <class Record>
std::unordered_map<std::string, std::size_t> positions_of(const std::vector<Record>& records,
                                                          std::size_t more) {
  std::unordered_map<std::string, std::size_t> positions;
  positions.reserve(records.size() + more);
  for (std::size_t i = 0; i < records.size(); ++i) {
    positions.emplace(records[i].id, i);
  }
  return positions;
}

/// An observation without `recorded` agrees with any; the book's own time of entry stands for it in
/// what was exported from a book.
ObservationRecord as_if_entered_here(const ObservationRecord& incoming,
                                     const ObservationRecord& known) {
  ObservationRecord same = incoming;
  const bool exported = !known.on && !known.recorded && incoming.recorded == known.entered;
  if (!incoming.recorded || exported) {
    same.recorded = known.recorded;
  }
  return same;
}

/// What is left to say once the fields that may be absent in the document are taken out.
std::vector<Difference> present_differences(const std::vector<Field>& known,
                                            const std::vector<Field>& incoming) {
  std::vector<Difference> found = differences(known, incoming);
  std::erase_if(found, [](const Difference& difference) { return !difference.after; });
  return found;
}

std::string names_of(const std::vector<Difference>& differences) {
  std::string names;
  for (const Difference& difference : differences) {
    names += (names.empty() ? "" : ", ") + difference.name;
  }
  return names;
}

template <class Value>
void fill(std::optional<Value>& known, const std::optional<Value>& incoming) {
  if (!known) {
    known = incoming;
  }
}

/// Returns how many entries of bought_as the animal had before.
std::size_t fill_in(AnimalRecord& known, const AnimalRecord& incoming) {
  fill(known.sex, incoming.sex);
  fill(known.origin, incoming.origin);
  fill(known.clutch, incoming.clutch);
  fill(known.line, incoming.line);
  fill(known.hatched, incoming.hatched);
  const std::size_t before = known.bought_as.size();
  for (const colony::BoughtAsRecord& bought : incoming.bought_as) {
    const auto first = known.bought_as.begin();
    const auto end = first + static_cast<std::ptrdiff_t>(before);
    if (std::none_of(first, end, [&](const auto& old) { return old.locus == bought.locus; })) {
      known.bought_as.push_back(bought);
    }
  }
  return before;
}

/// Returns how many sires the clutch had before.
std::size_t fill_in(ClutchRecord& known, const ClutchRecord& incoming) {
  fill(known.dam, incoming.dam);
  fill(known.paternity, incoming.paternity);
  fill(known.dam_origin, incoming.dam_origin);
  fill(known.sire_origin, incoming.sire_origin);
  fill(known.line, incoming.line);
  fill(known.laid, incoming.laid);
  fill(known.hatched, incoming.hatched);
  fill(known.eggs, incoming.eggs);
  const std::size_t before = known.sires.size();
  if (before == 0) {
    known.sires = incoming.sires;
  }
  return before;
}

/// Fills in a record of the book, or says which fields stand against it.
template <class Record>
void complete(Record& known, std::size_t at, const Record& incoming, const std::string& name,
              std::vector<Completion>& completions, Merged& merged) {
  const std::vector<Difference> found = present_differences(fields_of(known), fields_of(incoming));
  if (found.empty()) {
    ++merged.unchanged;
    return;
  }
  bool agrees = shows_all(incoming, true, merged);
  for (const Difference& difference : found) {
    if (difference.before) {
      add_fault(merged, [&] {
        return other_content(incoming.place.text, name, difference, correct_document);
      });
      agrees = false;
    }
  }
  if (agrees) {
    completions.push_back({at, names_of(found), fill_in(known, incoming)});
    known.place = incoming.place;
  }
}

void compare_with_book(const AnimalRecord& incoming, std::size_t at, const std::string& name,
                       Merged& merged) {
  complete(merged.records.animals[at], at, incoming, name, merged.animals, merged);
}

void compare_with_book(const ClutchRecord& incoming, std::size_t at, const std::string& name,
                       Merged& merged) {
  complete(merged.records.clutches[at], at, incoming, name, merged.clutches, merged);
}

void compare_with_book(const ObservationRecord& incoming, std::size_t at, const std::string& name,
                       Merged& merged) {
  const ObservationRecord& known = merged.records.observations[at];
  const std::vector<Difference> found =
      differences(fields_of(known), fields_of(as_if_entered_here(incoming, known)));
  merged.unchanged += found.empty() ? 1 : 0;
  for (const Difference& difference : found) {
    add_fault(merged, [&] {
      return other_content(incoming.place.text, name, difference, withdraw_instead);
    });
  }
}

/// Merges one kind of record. `name` is the kind's, for messages.
template <class Record>
void merge_kind(std::vector<Record>& known, const std::vector<Record>& incoming,
                const std::string& kind, Merged& merged) {
  auto positions = positions_of(known, incoming.size());
  std::unordered_map<std::string_view, const Record*> first;
  first.reserve(incoming.size());
  for (const Record& record : incoming) {
    const std::string name = kind + ' ' + record.id;
    const auto [stands, is_first] = first.emplace(record.id, &record);
    if (!is_first) {
      const Record& earlier = *stands->second;
      for (const Difference& difference : differences(fields_of(earlier), fields_of(record))) {
        add_fault(merged, [&] {
          return stands_twice(record.place.text, name, earlier.place.text, difference);
        });
      }
      continue;
    }
    const auto position = positions.find(record.id);
    if (position != positions.end()) {
      compare_with_book(record, position->second, name, merged);
    } else {
      shows_all(record, false, merged);
      known.push_back(record);
    }
  }
}

}  // namespace

Faults Merged::take_faults() {
  if (faults_left_out > 0) {
    faults.push_back(
        {faults.back().place,
         "there are " + std::to_string(faults_left_out) + " more differences from the book",
         "mend those above first"});
  }
  return std::move(faults);
}

Change Merged::change() const {
  Change change;
  change.animals_added = records.animals.size() - old_animals;
  change.animals_completed = animals.size();
  change.clutches_added = records.clutches.size() - old_clutches;
  change.clutches_completed = clutches.size();
  change.observations_added = records.observations.size() - old_observations;
  change.unchanged = unchanged;
  return change;
}

Merged merge(colony::Records book, const colony::Records& incoming,
             const colony::Timestamp& entered) {
  Merged merged;
  merged.records = std::move(book);
  merged.old_animals = merged.records.animals.size();
  merged.old_clutches = merged.records.clutches.size();
  merged.old_observations = merged.records.observations.size();
  merge_kind(merged.records.animals, incoming.animals, "animal", merged);
  merge_kind(merged.records.clutches, incoming.clutches, "clutch", merged);
  merge_kind(merged.records.observations, incoming.observations, "observation", merged);
  auto& observations = merged.records.observations;
  for (std::size_t i = merged.old_observations; i < observations.size(); ++i) {
    observations[i].entered = entered;
  }
  return merged;
}

}  // namespace likelihet::book
