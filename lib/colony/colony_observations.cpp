// Checks of observations: what each kind refers to, and that it fits the animal's age and sex.
#include <algorithm>
#include <utility>

#include <likelihet/colony/colony_draft.hpp>
#include <likelihet/colony/genotype_key.hpp>

namespace likelihet::colony {

namespace {

using genetics::Locus;

std::optional<std::size_t> position_in(const std::vector<std::string>& words,
                                       const std::string& word) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == word) return i;
  }
  return std::nullopt;
}

// Resolves one observation. Whatever could not be resolved is left at 0: then there is a fault, and
// the colony is not made.
class Resolver {
 public:
  Resolver(ColonyDraft& draft, const ObservationRecord& record)
      : draft_(draft), record_(record), place_(record.place.text) {}

  AppearanceSeen operator()(const AppearanceRecord& seen) const {
    AppearanceSeen out{animal(seen.animal), 0, 0};
    if (const auto locus = known_locus(seen.locus)) {
      out.locus = *locus;
      out.appearance = appearance(*locus, seen.shows, {"shows"}).value_or(0);
    }
    return out;
  }

  Score operator()(const ScoreRecord& score) const {
    Score out{animal(score.animal), 0, std::nullopt, 1, std::nullopt, score.blind};
    const Model& model = draft_.model;
    if (score.scorer) {
      out.scorer = known_in_model(draft_.faults, model.find_scorer(*score.scorer), model.scorers(),
                                  *score.scorer, "scorer", place_, {"scorer"});
      if (out.scorer) out.sure = model.scorers()[*out.scorer].sure;
    }
    if (score.sure) {
      out.sure = *score.sure;
      out.own_sure = true;
      if (!(out.sure >= 0 && out.sure <= 1)) {
        check_unit_interval(out.sure, "sure", field_of(place_, {"sure"}), draft_.faults);
      }
    }
    if (score.level && score.reason) {
      draft_.faults.add(field_of(place_, {"reason"}),
                        "there is the reason " + in_quotes(*score.reason) + ", but the level is " +
                            in_quotes(*score.level),
                        "a reason says why there is not a level: leave one of the two out");
    }
    const auto marker = known_in_model(draft_.faults, model.find_marker(score.marker),
                                       model.markers(), score.marker, "marker", place_, {"marker"});
    if (!marker) return out;
    out.marker = *marker;
    if (!score.level) return out;
    const auto& levels = model.markers()[*marker].levels;
    const auto level = position_in(levels, *score.level);
    out.level = known_word(draft_.faults, level, levels, *score.level,
                           "marker " + in_quotes(score.marker), "level", place_, {"level"});
    return out;
  }

  Result operator()(const ResultRecord& result) const {
    Result out{animal(result.animal), 0, 0, result.sample.value_or("")};
    const Model& model = draft_.model;
    const auto assay = known_in_model(draft_.faults, model.find_assay(result.assay), model.assays(),
                                      result.assay, "assay", place_, {"assay"});
    if (!assay) return out;
    out.assay = *assay;
    const auto& reports = model.assays()[*assay].reports;
    out.report =
        known_word(draft_.faults, position_in(reports, result.report), reports, result.report,
                   "assay " + in_quotes(result.assay), "report", place_, {"report"})
            .value_or(0);
    return out;
  }

  Brood operator()(const BroodRecord& brood) const {
    Brood out{animal(brood.animal), 0, 0, {}};
    const auto locus = known_locus(brood.locus);
    if (!locus) {
      check_counts(brood);
      return out;
    }
    out.locus = *locus;
    out.partner = partner(brood, draft_.model.loci()[*locus]);
    std::vector<bool> seen(draft_.model.loci()[*locus].appearances().size(), false);
    for (const auto& [shown, count] : brood.offspring) {
      const auto kind = appearance(*locus, shown, {"offspring", shown});
      if (!kind) continue;
      if (seen[*kind]) {
        draft_.faults.add(field_of(place_, {"offspring", shown}),
                          in_quotes(shown) + " is given twice", "give it once");
      }
      seen[*kind] = true;
      if (count > 0) out.offspring.emplace_back(*kind, count);
    }
    check_counts(brood);
    return out;
  }

  Withdrawal operator()(const WithdrawalRecord& withdrawal) const {
    return {known_record(draft_.faults, draft_.observation_ids, draft_.records.observations,
                         withdrawal.of, "observation", place_, {"of"})
                .value_or(no_observation)};
  }

 private:
  // The animal, having hatched by the day of the observation.
  std::size_t animal(const std::string& id) const {
    const auto found = known_record(draft_.faults, draft_.animal_ids, draft_.records.animals, id,
                                    "animal", place_, {"animal"});
    if (!found) return 0;
    const auto& hatched = draft_.animals[*found].hatched;
    if (record_.on && hatched && *record_.on < *hatched) {
      draft_.faults.add(field_of(place_, {"on"}),
                        "observation " + in_quotes(record_.id) + " of " + in_quotes(id) +
                            " is of " + record_.on->text() + ", before it hatched on " +
                            hatched->text(),
                        "correct the day, the animal or its hatch date");
    }
    return *found;
  }

  std::optional<std::size_t> known_locus(const std::string& id) const {
    return known_in_model(draft_.faults, draft_.model.find_locus(id), draft_.model.loci(), id,
                          "locus", place_, {"locus"});
  }

  std::optional<std::size_t> appearance(std::size_t position, const std::string& name,
                                        Field field) const {
    const Locus& locus = draft_.model.loci()[position];
    return known_word(draft_.faults, locus.find_appearance(name), locus.appearances(), name,
                      "locus " + in_quotes(locus.id()), "appearance", place_, field);
  }

  std::size_t partner(const BroodRecord& brood, const Locus& locus) const {
    const auto genotype = locus.find(brood.partner);
    if (!genotype) {
      draft_.faults.add(
          field_of(place_, {"partner"}),
          in_quotes(brood.partner) + " is not a genotype of locus " + in_quotes(locus.id()),
          key_mend(brood.partner, keys_of(locus), draft_.faults));
      return 0;
    }
    const auto& sex = locus.genotypes()[*genotype].sex;
    const auto self = draft_.animal_ids.find(brood.animal);
    if (sex && self != draft_.animal_ids.end() && draft_.animals[self->second].sex == *sex) {
      draft_.faults.add(field_of(place_, {"partner"}),
                        "the partner's genotype " + in_quotes(brood.partner) + " is a " +
                            word(*sex) + "'s, and so is " + in_quotes(brood.animal),
                        "give a genotype of a " + word(genetics::other_sex(*sex)));
    }
    return *genotype;
  }

  void check_counts(const BroodRecord& brood) const {
    for (const auto& [shown, count] : brood.offspring) {
      if (count >= 0 && count <= most_counted) continue;
      draft_.faults.add(field_of(place_, {"offspring", shown}),
                        "the number of " + in_quotes(shown) + " is " + std::to_string(count),
                        "it must be from 0 to " + std::to_string(most_counted));
    }
  }

  ColonyDraft& draft_;
  const ObservationRecord& record_;
  const std::string& place_;
};

std::optional<Date> known_from(const ObservationRecord& record) {
  if (record.recorded) return record.recorded->day();
  if (record.on) return record.on;
  if (record.entered) return record.entered->day();
  return std::nullopt;
}

void report_circle(ColonyDraft& draft, const std::vector<std::size_t>& circle) {
  const auto& records = draft.records.observations;
  const ObservationRecord& first = records[circle.front()];
  std::string what = "withdrawal " + in_quotes(first.id) + " withdraws itself";
  if (circle.size() > 1) {
    what = "withdrawals go in a circle: " + in_quotes(first.id);
    constexpr std::size_t most_told = 50;
    for (std::size_t i = 1; i < std::min(circle.size(), most_told); ++i) {
      what += " of " + in_quotes(records[circle[i]].id);
    }
    if (circle.size() > most_told) {
      what += " of … (" + std::to_string(circle.size() - most_told) + " more)";
    }
    what += " of " + in_quotes(first.id);
  }
  draft.faults.add(field_of(first.place.text, {"of"}), std::move(what),
                   "name an observation that was there before the withdrawal");
}

}  // namespace

void check_observations(ColonyDraft& draft) {
  draft.observations.reserve(draft.records.observations.size());
  for (const ObservationRecord& record : draft.records.observations) {
    const Resolver resolve(draft, record);
    Observation out{record.id, Withdrawal{no_observation}, record.on, known_from(record)};
    std::visit([&](const auto& what) { out.what = resolve(what); }, record.what);
    draft.observations.push_back(std::move(out));
  }
}

void check_withdrawals(ColonyDraft& draft) {
  enum class State : unsigned char { unseen, open, done };
  std::vector<State> state(draft.observations.size(), State::unseen);
  std::vector<std::size_t> path;
  for (std::size_t start = 0; start < state.size(); ++start) {
    path.clear();
    std::size_t here = start;
    while (here != no_observation && state[here] == State::unseen) {
      state[here] = State::open;
      path.push_back(here);
      const auto* withdrawal = std::get_if<Withdrawal>(&draft.observations[here].what);
      here = withdrawal == nullptr ? no_observation : withdrawal->of;
    }
    if (here != no_observation && state[here] == State::open) {
      report_circle(draft, {std::find(path.begin(), path.end(), here), path.end()});
    }
    for (const std::size_t seen : path) state[seen] = State::done;
  }
}

}  // namespace likelihet::colony
