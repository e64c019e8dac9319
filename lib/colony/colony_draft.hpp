// A colony while its records are being checked. Private to the layer. Checks run in the order in
// which colony.cpp calls them: later ones need what earlier ones settle.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/fault_list.hpp>
#include <likelihet/colony/place.hpp>
#include <likelihet/colony/value_checks.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

/// Positions by id; the first record of an id has it. A record with faults is known all the same:
/// what refers to it is not faulty for that.
using Ids = std::unordered_map<std::string, std::size_t>;

/// In a withdrawal of an unknown observation. Never in a colony that was made, since the unknown id
/// is a fault.
constexpr std::size_t no_observation = std::numeric_limits<std::size_t>::max();

/// Each check adds to `faults` and to its own list; lists are used only if there are no faults.
/// Positions are those of the records throughout.
struct ColonyDraft {
  const Model& model;
  const Records& records;
  FaultList faults;
  Ids animal_ids, clutch_ids, observation_ids;
  std::vector<Animal> animals;
  std::vector<Clutch> clutches;
  std::vector<Observation> observations;
};

/// Ids of all records; duplicates are faults.
void index_ids(ColonyDraft& draft);
/// Animals as their own records tell them. Every animal is listed, faults or not, so that positions
/// stay those of the records.
void check_animals(ColonyDraft& draft);
/// What sellers said of founders; their sexes must be settled.
void check_bought_as(ColonyDraft& draft);
/// Clutches, and their hatchlings' lines and dates. Shares become those of sires that may be:
/// normalised, without zeros.
void check_clutches(ColonyDraft& draft);
/// Sexes as recorded and as the parts in clutches imply. A parent of unknown sex gets that of its
/// part; one that plays both parts is a fault.
void check_sexes(ColonyDraft& draft);
/// Hatch dates against the clutch's and the parents'. An animal without a date has its clutch's.
/// Hatchlings of one clutch may be 30 days apart.
void check_hatch_dates(ColonyDraft& draft);
/// Animals that would be their own ancestors. Depth-first search (Tarjan 1972, SIAM Journal on
/// Computing 1:146), on a stack of its own: a line of descent may be as long as the colony.
void check_cycles(ColonyDraft& draft);
/// Each observation's references; animals' dates and sexes must be settled.
void check_observations(ColonyDraft& draft);
/// Withdrawals of themselves or in a circle.
void check_withdrawals(ColonyDraft& draft);

/// The position of the record of this id, or a fault at `field` of the record at `place`. `name` is
/// what the list holds, such as "animal".
template <class List>
std::optional<std::size_t> known_record(FaultList& faults, const Ids& ids, const List& list,
                                        const std::string& id, const char* name,
                                        const std::string& place, Field field) {
  if (const auto found = ids.find(id); found != ids.end()) return found->second;
  if (faults.counted_only()) return std::nullopt;
  faults.add(field_of(place, field), std::string("there is no ") + name + " " + in_quotes(id),
             faults.suggest_id(id, list));
  return std::nullopt;
}

/// The same for what the model lists: `found` is the answer of the model's own look-up. `list` is
/// searched for near ids only where there is a fault to word.
template <class List>
std::optional<std::size_t> known_in_model(FaultList& faults, std::optional<std::size_t> found,
                                          const List& list, const std::string& id, const char* name,
                                          const std::string& place, Field field) {
  if (found || faults.counted_only()) return found;
  faults.add(field_of(place, field), std::string("the model has no ") + name + " " + in_quotes(id),
             faults.suggest_id(id, list));
  return std::nullopt;
}

/// The same for words of one element of the model (a marker's levels): `owner` names that element.
std::optional<std::size_t> known_word(FaultList& faults, std::optional<std::size_t> found,
                                      const std::vector<std::string>& words,
                                      const std::string& word, const std::string& owner,
                                      const char* name, const std::string& place, Field field);

/// The keys of a locus's genotypes, in state order. For messages; copies every key.
std::vector<std::string> keys_of(const genetics::Locus& locus);

/// "female" or "male".
std::string word(genetics::Sex sex);

}  // namespace likelihet::colony
