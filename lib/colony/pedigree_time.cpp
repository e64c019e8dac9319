// Checks of the pedigree against time: dates of clutches and parents, and circles.
#include <algorithm>
#include <cstdlib>
#include <utility>

#include <likelihet/colony/colony_draft.hpp>

namespace likelihet::colony {

namespace {

// Hatchlings of one clutch leave their eggs over some days, not over months.
constexpr long most_days_apart = 30;

void check_own_date(const AnimalRecord& record, const Clutch& clutch, FaultList& faults) {
  if (!record.hatched) return;
  const Date& own = *record.hatched;
  const std::string hatched = in_quotes(record.id) + " hatched on " + own.text();
  if (clutch.hatched && std::labs(own.days() - clutch.hatched->days()) > most_days_apart) {
    faults.add(
        field_of(record.place.text, {"hatched"}),
        hatched + ", but its clutch " + in_quotes(clutch.id) + " on " + clutch.hatched->text(),
        "the two may be " + std::to_string(most_days_apart) + " days apart at most");
  } else if (clutch.laid && own < *clutch.laid) {
    faults.add(field_of(record.place.text, {"hatched"}),
               hatched + ", before its clutch " + in_quotes(clutch.id) + " was laid on " +
                   clutch.laid->text(),
               "correct one of the two dates");
  }
}

// Offspring cannot be there before the clutch is laid, or else hatched, or else its first offspring
// hatched.
struct Beginning {
  Date day;
  const char* was;
};
std::optional<Beginning> beginning(const ColonyDraft& draft, const Clutch& clutch) {
  if (clutch.laid && clutch.hatched && *clutch.hatched < *clutch.laid) return std::nullopt;
  if (clutch.laid) return Beginning{*clutch.laid, "was laid on "};
  std::optional<Date> first = clutch.hatched;
  for (const std::size_t hatchling : clutch.hatchlings) {
    const auto& hatched = draft.records.animals[hatchling].hatched;
    if (!clutch.hatched && hatched && (!first || *hatched < *first)) first = hatched;
  }
  if (!first) return std::nullopt;
  return Beginning{*first, "hatched on "};
}

void check_parent_age(ColonyDraft& draft, std::size_t clutch, std::size_t parent, Field field,
                      const Beginning& begun) {
  const Animal& animal = draft.animals[parent];
  const bool known_day = animal.hatched.has_value();
  const std::optional<Date> born =
      known_day || !animal.clutch ? animal.hatched : draft.clutches[*animal.clutch].laid;
  if (!born || *born < begun.day) return;
  const ClutchRecord& record = draft.records.clutches[clutch];
  draft.faults.add(field_of(record.place.text, field),
                   in_quotes(animal.id) + (known_day ? " hatched on " : " was laid on ") +
                       born->text() + ", but its clutch " + in_quotes(record.id) + " " + begun.was +
                       begun.day.text(),
                   "a parent is older than its offspring: correct a date, or name another parent");
}

// The animals that a hatchling of each clutch is out of, without repeats.
std::vector<std::vector<std::size_t>> parents_by_clutch(const ColonyDraft& draft) {
  std::vector<std::vector<std::size_t>> parents(draft.clutches.size());
  for (std::size_t c = 0; c < draft.clutches.size(); ++c) {
    const Clutch& clutch = draft.clutches[c];
    if (clutch.dam) parents[c].push_back(*clutch.dam);
    const ClutchRecord& record = draft.records.clutches[c];
    for (const SireRecord& sire : record.sires) {
      const auto found = draft.animal_ids.find(sire.id);
      if (found == draft.animal_ids.end() || sire.share.value_or(1) <= 0) continue;
      auto& mine = parents[c];
      if (std::find(mine.begin(), mine.end(), found->second) == mine.end()) {
        mine.push_back(found->second);
      }
    }
  }
  return parents;
}

void report_cycle(ColonyDraft& draft, std::vector<std::size_t> cycle) {
  if (draft.faults.counted_only()) return;
  constexpr std::size_t most_told = 50;
  std::rotate(cycle.begin(), std::min_element(cycle.begin(), cycle.end()), cycle.end());
  const AnimalRecord& first = draft.records.animals[cycle.front()];
  std::string what = in_quotes(first.id) + " is its own parent";
  if (cycle.size() > 1) {
    what = "the pedigree goes in a circle: " + in_quotes(first.id);
    const std::size_t told = std::min(cycle.size(), most_told);
    for (std::size_t i = 1; i < told; ++i) {
      what += " out of " + in_quotes(draft.animals[cycle[i]].id);
    }
    if (cycle.size() > told) {
      what += " out of … (" + std::to_string(cycle.size() - told) + " more)";
    }
    what += " out of " + in_quotes(first.id);
  }
  draft.faults.add(field_of(first.place.text, {"clutch"}), std::move(what),
                   "correct a dam, a sire or a clutch among these");
}

// Depth-first from child to parent; a parent that is still open closes a circle. Kept on a stack of
// its own, since a line of descent can be longer than the machine's.
class CycleSearch {
 public:
  explicit CycleSearch(ColonyDraft& draft)
      : draft_(draft),
        parents_(parents_by_clutch(draft)),
        state_(draft.animals.size(), State::unseen) {}

  void from(std::size_t start) {
    if (state_[start] != State::unseen) return;
    open(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      const auto& clutch = draft_.animals[step.animal].clutch;
      if (!clutch || step.next == parents_[*clutch].size()) {
        state_[step.animal] = State::done;
        path_.pop_back();
        continue;
      }
      const std::size_t parent = parents_[*clutch][step.next++];
      if (state_[parent] == State::unseen) {
        open(parent);
      } else if (state_[parent] == State::open) {
        close(parent);
      }
    }
  }

 private:
  enum class State : unsigned char { unseen, open, done };
  struct Step {
    std::size_t animal, next;
  };

  void open(std::size_t animal) {
    state_[animal] = State::open;
    path_.push_back({animal, 0});
  }
  void close(std::size_t parent) {
    const auto start = std::find_if(path_.begin(), path_.end(),
                                    [&](const Step& step) { return step.animal == parent; });
    std::vector<std::size_t> cycle;
    for (auto step = start; step != path_.end(); ++step) cycle.push_back(step->animal);
    report_cycle(draft_, std::move(cycle));
  }

  ColonyDraft& draft_;
  std::vector<std::vector<std::size_t>> parents_;
  std::vector<State> state_;
  std::vector<Step> path_;
};

}  // namespace

void check_hatch_dates(ColonyDraft& draft) {
  for (std::size_t a = 0; a < draft.animals.size(); ++a) {
    Animal& animal = draft.animals[a];
    if (!animal.clutch) continue;
    const Clutch& clutch = draft.clutches[*animal.clutch];
    check_own_date(draft.records.animals[a], clutch, draft.faults);
    if (!animal.hatched) animal.hatched = clutch.hatched;
  }
  for (std::size_t c = 0; c < draft.clutches.size(); ++c) {
    const Clutch& clutch = draft.clutches[c];
    const ClutchRecord& record = draft.records.clutches[c];
    if (clutch.laid && clutch.hatched && *clutch.hatched < *clutch.laid) {
      draft.faults.add(field_of(record.place.text, {"laid"}),
                       "clutch " + in_quotes(clutch.id) + " was laid on " + clutch.laid->text() +
                           ", after it hatched on " + clutch.hatched->text(),
                       "correct one of the two dates");
    }
    const auto begun = beginning(draft, clutch);
    if (!begun) continue;
    if (clutch.dam) check_parent_age(draft, c, *clutch.dam, {"dam"}, *begun);
    for (std::size_t i = 0; i < record.sires.size(); ++i) {
      const auto sire = draft.animal_ids.find(record.sires[i].id);
      if (sire == draft.animal_ids.end() || record.sires[i].share.value_or(1) <= 0) continue;
      check_parent_age(draft, c, sire->second, {"sires", std::to_string(i), "id"}, *begun);
    }
  }
}

void check_cycles(ColonyDraft& draft) {
  CycleSearch search(draft);
  for (std::size_t a = 0; a < draft.animals.size(); ++a) search.from(a);
}

}  // namespace likelihet::colony
