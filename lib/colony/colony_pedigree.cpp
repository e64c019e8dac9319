// Checks of clutches: parents and their shares, sexes, eggs, hatchlings.
#include <algorithm>
#include <cmath>
#include <utility>

#include <likelihet/colony/colony_draft.hpp>

namespace likelihet::colony {

namespace {

using genetics::Sex;

std::optional<std::size_t> known_animal(ColonyDraft& draft, const std::string& id,
                                        const std::string& place, Field field) {
  return known_record(draft.faults, draft.animal_ids, draft.records.animals, id, "animal", place,
                      field);
}

// Shares as written, divided by their sum; the largest first taken out so that no sum overflows.
void normalise(std::vector<Sire>& sires, const std::string& place, FaultList& faults) {
  double largest = 0;
  for (const Sire& sire : sires) largest = std::max(largest, sire.share);
  if (largest <= 0) {
    faults.add(field_of(place, {"sires"}), "the shares of the sires sum to 0",
               "give at least one sire a share above 0");
    return;
  }
  double sum = 0;
  for (Sire& sire : sires) sum += sire.share /= largest;
  for (Sire& sire : sires) sire.share /= sum;
  std::erase_if(sires, [](const Sire& sire) { return sire.share <= 0; });
}

void check_sires(ColonyDraft& draft, const ClutchRecord& record, Clutch& clutch) {
  const std::string& place = record.place.text;
  bool shares_fit = true;
  for (std::size_t i = 0; i < record.sires.size(); ++i) {
    const SireRecord& sire = record.sires[i];
    const std::string position = std::to_string(i);
    const double share = sire.share.value_or(1);
    if (!std::isfinite(share) || share < 0) {
      check_not_negative(share, "the share of " + in_quotes(sire.id),
                         field_of(place, {"sires", position, "share"}), draft.faults);
      shares_fit = false;
    }
    const auto animal = known_animal(draft, sire.id, place, {"sires", position, "id"});
    const auto same = [&](const SireRecord& earlier) { return earlier.id == sire.id; };
    const auto here = record.sires.begin() + static_cast<std::ptrdiff_t>(i);
    if (std::any_of(record.sires.begin(), here, same)) {
      draft.faults.add(field_of(place, {"sires", position, "id"}),
                       "the sire " + in_quotes(sire.id) + " is listed twice", "list it once");
    }
    clutch.sires.push_back({animal.value_or(0), share});
  }
  if (!clutch.sires.empty() && shares_fit) normalise(clutch.sires, place, draft.faults);
}

// `dam_origin` or `sire_origin`: of the anonymous founder in the place of a parent.
std::optional<std::size_t> check_origin(ColonyDraft& draft, const ClutchRecord& record,
                                        const std::optional<std::string>& origin, bool parent_named,
                                        const std::string& field) {
  if (!origin) return std::nullopt;
  const std::string& place = record.place.text;
  if (parent_named) {
    const bool dam = field == "dam_origin";
    draft.faults.add(field_of(place, {field}),
                     field + " is " + in_quotes(*origin) +
                         (dam ? ", but the dam is named" : ", but sires are named"),
                     "leave it out: it is for an unknown " + std::string(dam ? "dam" : "sire"));
  }
  return known_in_model(draft.faults, draft.model.find_origin(*origin), draft.model.origins(),
                        *origin, "origin", place, {field});
}

Clutch clutch_of(ColonyDraft& draft, const ClutchRecord& record) {
  Clutch clutch;
  clutch.id = record.id;
  clutch.paternity = record.paternity.value_or(Paternity::single);
  clutch.laid = record.laid;
  clutch.hatched = record.hatched;
  if (record.dam) clutch.dam = known_animal(draft, *record.dam, record.place.text, {"dam"});
  check_sires(draft, record, clutch);
  clutch.dam_origin =
      check_origin(draft, record, record.dam_origin, record.dam.has_value(), "dam_origin");
  clutch.sire_origin =
      check_origin(draft, record, record.sire_origin, !record.sires.empty(), "sire_origin");
  if (record.line && !record.line->empty() && !good_id(*record.line)) {
    check_id(*record.line, "line", field_of(record.place.text, {"line"}), draft.faults);
  }
  return clutch;
}

void check_eggs(const ClutchRecord& record, const Clutch& clutch, FaultList& faults) {
  if (!record.eggs) return;
  const std::string count = "the egg count is " + std::to_string(*record.eggs);
  if (*record.eggs < 0) {
    faults.add(field_of(record.place.text, {"eggs"}), count, "it must be 0 or more");
  } else if (static_cast<std::uint64_t>(*record.eggs) < clutch.hatchlings.size()) {
    faults.add(
        field_of(record.place.text, {"eggs"}),
        count + ", but " + std::to_string(clutch.hatchlings.size()) + " hatchlings are recorded",
        "give at least as many eggs as hatchlings, or correct a hatchling's clutch");
  }
}

// The part that an animal plays: the first clutch where it is a dam, and where it is a sire.
struct Parts {
  std::optional<std::size_t> dam_of, sire_of;
};

void take_part(ColonyDraft& draft, std::size_t clutch, std::size_t animal, Sex sex, Field field,
               std::vector<Parts>& parts) {
  const bool dam = sex == Sex::female;
  const ClutchRecord& record = draft.records.clutches[clutch];
  const auto& recorded = draft.records.animals[animal].sex;
  const std::string part = dam ? "dam" : "sire";
  if (recorded && *recorded != sex) {
    draft.faults.add(field_of(record.place.text, field),
                     "the " + part + " " + in_quotes(draft.animals[animal].id) +
                         " is recorded as " + word(*recorded),
                     "a " + part + " is " + word(sex) + ": name another, or correct its sex");
    return;
  }
  auto& mine = dam ? parts[animal].dam_of : parts[animal].sire_of;
  const auto& other = dam ? parts[animal].sire_of : parts[animal].dam_of;
  if (!recorded && other && !mine) {
    draft.faults.add(field_of(record.place.text, field),
                     in_quotes(draft.animals[animal].id) + " is the " + part + " of clutch " +
                         in_quotes(record.id) + " and the " + (dam ? "sire" : "dam") +
                         " of clutch " + in_quotes(draft.records.clutches[*other].id),
                     "a dam is female and a sire is male: correct one of the clutches");
  }
  if (!mine) mine = clutch;
  if (!draft.animals[animal].sex) draft.animals[animal].sex = sex;
}

}  // namespace

void check_clutches(ColonyDraft& draft) {
  const auto& records = draft.records.clutches;
  draft.clutches.reserve(records.size());
  for (const ClutchRecord& record : records) draft.clutches.push_back(clutch_of(draft, record));
  for (std::size_t a = 0; a < draft.animals.size(); ++a) {
    Animal& animal = draft.animals[a];
    if (!animal.clutch) continue;
    draft.clutches[*animal.clutch].hatchlings.push_back(a);
    if (!draft.records.animals[a].line) animal.line = records[*animal.clutch].line.value_or("");
  }
  for (std::size_t c = 0; c < records.size(); ++c) {
    check_eggs(records[c], draft.clutches[c], draft.faults);
  }
}

void check_sexes(ColonyDraft& draft) {
  std::vector<Parts> parts(draft.animals.size());
  for (std::size_t c = 0; c < draft.clutches.size(); ++c) {
    const ClutchRecord& record = draft.records.clutches[c];
    if (const auto dam = draft.clutches[c].dam) {
      take_part(draft, c, *dam, Sex::female, {"dam"}, parts);
    }
    for (std::size_t i = 0; i < record.sires.size(); ++i) {
      const auto sire = draft.animal_ids.find(record.sires[i].id);
      if (sire == draft.animal_ids.end()) continue;
      take_part(draft, c, sire->second, Sex::male, {"sires", std::to_string(i), "id"}, parts);
    }
  }
}

}  // namespace likelihet::colony
