// Checks of animals by themselves: clutch, origin, line, what they were bought as.
#include <cmath>
#include <utility>

#include <likelihet/colony/colony_draft.hpp>
#include <likelihet/colony/genotype_key.hpp>

namespace likelihet::colony {

namespace {

using genetics::Locus;
using genetics::Sex;

void check_founder_fields(const AnimalRecord& record, FaultList& faults) {
  if (!record.clutch) return;
  const std::string why = ", but it hatched in clutch " + in_quotes(*record.clutch);
  const std::string mend = "leave it out (only a founder has one), or leave the clutch out";
  if (record.origin) {
    faults.add(field_of(record.place.text, {"origin"}),
               in_quotes(record.id) + " has the origin " + in_quotes(*record.origin) + why, mend);
  }
  if (!record.bought_as.empty()) {
    faults.add(field_of(record.place.text, {"bought_as"}),
               in_quotes(record.id) + " has a bought_as" + why, mend);
  }
}

// Numbers by genotype, and whether each of them could be read.
bool read_odds(const BoughtAsRecord& record, const Locus& locus, const std::string& place,
               std::string_view position, std::vector<double>& odds, FaultList& faults) {
  const std::size_t before = faults.count();
  std::vector<bool> seen(locus.size(), false);
  for (const auto& [key, value] : record.odds) {
    const Field field{"bought_as", position, "odds", key};
    if (!std::isfinite(value) || value < 0) {
      check_not_negative(value, "the probability of " + in_quotes(key), field_of(place, field),
                         faults);
    }
    const auto genotype = locus.find(key);
    if (!genotype) {
      faults.add(field_of(place, field),
                 in_quotes(key) + " is not a genotype of locus " + in_quotes(locus.id()),
                 key_mend(key, keys_of(locus), faults));
      continue;
    }
    if (seen[*genotype]) {
      faults.add(field_of(place, field), in_quotes(key) + " is given twice", "give it once");
    }
    seen[*genotype] = true;
    odds[*genotype] = value;
  }
  return faults.count() == before;
}

double sum_for(Sex sex, const Locus& locus, const std::vector<double>& odds) {
  double sum = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.possible(g, sex)) sum += odds[g];
  }
  return sum;
}

bool lists_key_of(Sex sex, const Locus& locus, const Named<double>& odds) {
  for (const auto& [key, value] : odds) {
    if (const auto genotype = locus.find(key); genotype && locus.possible(*genotype, sex)) {
      return true;
    }
  }
  return false;
}

// An autosome's odds sum to 1. On a sex chromosome the reader renormalises within each sex, so what
// is listed for a sex that the animal can have must not be nothing.
void check_odds_sum(const BoughtAsRecord& record, const Animal& animal, const Locus& locus,
                    const std::vector<double>& odds, const std::string& place, FaultList& faults) {
  if (!locus.sex_linked()) {
    check_sums_to_one(sum_for(Sex::female, locus, odds), "the odds", place, faults);
    return;
  }
  if (record.odds.empty()) {
    faults.add(place, "there are no odds", "give at least one genotype's");
    return;
  }
  for (const Sex sex : {Sex::female, Sex::male}) {
    if (animal.sex && *animal.sex != sex) continue;
    const bool listed_any = lists_key_of(sex, locus, record.odds);
    if (!listed_any && !animal.sex) continue;
    if (!listed_any) {
      faults.add(place,
                 "none of these genotypes is one that the " + word(sex) + " " +
                     in_quotes(animal.id) + " can have",
                 "give the odds of a " + word(sex) + "'s genotypes");
    } else if (sum_for(sex, locus, odds) <= 0) {
      faults.add(place, "the odds of a " + word(sex) + "'s genotypes sum to 0",
                 "give at least one of them more than 0, or list none of them");
    }
  }
}

BoughtAs bought_as(ColonyDraft& draft, const AnimalRecord& animal, std::size_t animal_position,
                   std::size_t entry, std::size_t locus_position) {
  const BoughtAsRecord& record = animal.bought_as[entry];
  const Locus& locus = draft.model.loci()[locus_position];
  const std::string position = std::to_string(entry);
  const std::string& place = animal.place.text;
  BoughtAs out{locus_position, std::vector<double>(locus.size(), 0.0), record.trust.value_or(1)};
  if (read_odds(record, locus, place, position, out.odds, draft.faults)) {
    check_odds_sum(record, draft.animals[animal_position], locus, out.odds,
                   field_of(place, {"bought_as", position, "odds"}), draft.faults);
  }
  check_unit_interval(out.trust, "trust", field_of(place, {"bought_as", position, "trust"}),
                      draft.faults);
  return out;
}

}  // namespace

void check_animals(ColonyDraft& draft) {
  const Records& records = draft.records;
  draft.animals.reserve(records.animals.size());
  for (const AnimalRecord& record : records.animals) {
    const std::string& place = record.place.text;
    Animal animal;
    animal.id = record.id;
    animal.sex = record.sex;
    animal.line = record.line.value_or("");
    animal.hatched = record.hatched;
    if (record.clutch) {
      animal.clutch = known_record(draft.faults, draft.clutch_ids, records.clutches, *record.clutch,
                                   "clutch", place, {"clutch"});
    }
    if (record.origin) {
      animal.origin =
          known_in_model(draft.faults, draft.model.find_origin(*record.origin),
                         draft.model.origins(), *record.origin, "origin", place, {"origin"});
    }
    if (!animal.line.empty() && !good_id(animal.line)) {
      check_id(animal.line, "line", field_of(place, {"line"}), draft.faults);
    }
    check_founder_fields(record, draft.faults);
    draft.animals.push_back(std::move(animal));
  }
}

void check_bought_as(ColonyDraft& draft) {
  for (std::size_t a = 0; a < draft.animals.size(); ++a) {
    const AnimalRecord& record = draft.records.animals[a];
    std::vector<bool> seen(draft.model.loci().size(), false);
    for (std::size_t i = 0; i < record.bought_as.size(); ++i) {
      const std::string& id = record.bought_as[i].locus;
      const std::string position = std::to_string(i);
      const Field field{"bought_as", position, "locus"};
      const auto locus = known_in_model(draft.faults, draft.model.find_locus(id),
                                        draft.model.loci(), id, "locus", record.place.text, field);
      if (!locus) continue;
      if (seen[*locus]) {
        draft.faults.add(field_of(record.place.text, field),
                         in_quotes(record.id) + " has two bought_as for locus " + in_quotes(id),
                         "give one a locus");
      }
      seen[*locus] = true;
      draft.animals[a].bought_as.push_back(bought_as(draft, record, a, i, *locus));
    }
  }
}

}  // namespace likelihet::colony
