// Making a colony: every check of the records, then the lists with ids resolved.
#include <stdexcept>
#include <utility>

#include <likelihet/colony/colony.hpp>
#include <likelihet/colony/colony_draft.hpp>

namespace likelihet::colony {

namespace {

template <class List>
Ids index_list(const List& list, const std::string& name, FaultList& faults) {
  Ids ids;
  ids.reserve(list.size());
  for (std::size_t i = 0; i < list.size(); ++i) {
    const auto [known, is_new] = ids.emplace(list[i].id, i);
    if (!good_id(list[i].id)) {
      check_id(list[i].id, name + " id", field_of(list[i].place.text, {"id"}), faults);
    }
    if (is_new || list[i].id.empty() || faults.counted_only()) continue;
    const std::string& other = list[known->second].place.text;
    faults.add(field_of(list[i].place.text, {"id"}),
               "the " + name + " id " + in_quotes(list[i].id) + " is that of another record too" +
                   (other.empty() ? "" : ": " + other),
               "give each " + name + " an id of its own");
  }
  return ids;
}

std::optional<std::size_t> find_in(const Ids& ids, std::string_view id) {
  const auto found = ids.find(std::string(id));
  return found == ids.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

std::variant<Colony, Faults> Colony::make(std::shared_ptr<const Model> model,
                                          const Records& records) {
  if (!model) throw std::invalid_argument("a colony needs a model");
  ColonyDraft draft{*model, records, {}, {}, {}, {}, {}, {}, {}};
  index_ids(draft);
  check_animals(draft);
  check_clutches(draft);
  check_sexes(draft);
  check_bought_as(draft);
  check_hatch_dates(draft);
  check_cycles(draft);
  check_observations(draft);
  check_withdrawals(draft);
  if (!draft.faults.empty()) return draft.faults.take();

  Colony colony;
  colony.model_ = std::move(model);
  colony.animals_ = std::move(draft.animals);
  colony.clutches_ = std::move(draft.clutches);
  colony.observations_ = std::move(draft.observations);
  colony.animal_ids_ = std::move(draft.animal_ids);
  colony.clutch_ids_ = std::move(draft.clutch_ids);
  colony.observation_ids_ = std::move(draft.observation_ids);
  return colony;
}

std::optional<std::size_t> Colony::find_animal(std::string_view id) const {
  return find_in(animal_ids_, id);
}

std::optional<std::size_t> Colony::find_clutch(std::string_view id) const {
  return find_in(clutch_ids_, id);
}

std::optional<std::size_t> Colony::find_observation(std::string_view id) const {
  return find_in(observation_ids_, id);
}

std::optional<std::size_t> animal_of(const Observation& observation) {
  return std::visit(
      [](const auto& what) -> std::optional<std::size_t> {
        if constexpr (requires { what.animal; }) {
          return what.animal;
        } else {
          return std::nullopt;
        }
      },
      observation.what);
}

void index_ids(ColonyDraft& draft) {
  draft.animal_ids = index_list(draft.records.animals, "animal", draft.faults);
  draft.clutch_ids = index_list(draft.records.clutches, "clutch", draft.faults);
  draft.observation_ids = index_list(draft.records.observations, "observation", draft.faults);
}

std::vector<std::string> keys_of(const genetics::Locus& locus) {
  std::vector<std::string> keys;
  for (std::size_t g = 0; g < locus.size(); ++g) keys.push_back(locus.key(g));
  return keys;
}

std::optional<std::size_t> known_word(FaultList& faults, std::optional<std::size_t> found,
                                      const std::vector<std::string>& words,
                                      const std::string& word, const std::string& owner,
                                      const char* name, const std::string& place, Field field) {
  if (found || faults.counted_only()) return found;
  faults.add(field_of(place, field), owner + " has no " + name + " " + in_quotes(word),
             faults.suggest(word, words));
  return std::nullopt;
}

std::string word(genetics::Sex sex) {
  return sex == genetics::Sex::female ? "female" : "male";
}

}  // namespace likelihet::colony
