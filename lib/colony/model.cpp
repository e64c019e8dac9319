// Making a model: every check of the description, then the lists with ids resolved.
#include <likelihet/colony/genotype_key.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/model_draft.hpp>

namespace likelihet::colony {

std::variant<Model, Faults> Model::make(ModelDescription description) {
  ModelDraft draft{description, {}, {}, {}, {}, {}, {}, {}};
  check_loci(draft);
  check_origins(draft);
  check_markers(draft);
  check_assays(draft);
  check_scorers(draft);
  check_together(draft);
  if (!draft.faults.empty()) return draft.faults.take();

  Model model;
  for (LocusDraft& locus : draft.loci) model.loci_.emplace_back(std::move(locus.parts));
  model.origins_ = std::move(draft.origins);
  model.markers_ = std::move(draft.markers);
  model.assays_ = std::move(draft.assays);
  model.scorers_ = std::move(draft.scorers);
  model.together_ = std::move(draft.together);
  model.description_ = std::move(description);
  return model;
}

std::optional<std::size_t> Model::find_locus(std::string_view id) const {
  return position_of(description_.loci, id);
}

std::optional<std::size_t> Model::find_origin(std::string_view id) const {
  return position_of(origins_, id);
}

std::optional<std::size_t> Model::find_marker(std::string_view id) const {
  return position_of(markers_, id);
}

std::optional<std::size_t> Model::find_assay(std::string_view id) const {
  return position_of(assays_, id);
}

std::optional<std::size_t> Model::find_scorer(std::string_view id) const {
  return position_of(scorers_, id);
}

std::optional<std::size_t> known_locus(ModelDraft& draft, const std::string& id,
                                       const std::string& place) {
  const auto& loci = draft.description.loci;
  const auto locus = position_of(loci, id);
  if (!locus) {
    draft.faults.add(place, "there is no trait " + in_quotes(id),
                     draft.faults.suggest_id(id, loci));
  }
  return locus;
}

std::optional<std::size_t> known_genotype(ModelDraft& draft, const LocusDraft& locus,
                                          const std::string& key, const std::string& place) {
  if (!locus.has_genotypes()) return std::nullopt;
  const auto genotype = locus.find(key);
  if (!genotype) {
    draft.faults.add(place,
                     in_quotes(key) + " is not a genotype of locus " + in_quotes(locus.parts.id),
                     key_mend(key, locus.keys, draft.faults));
  }
  return genotype;
}

void check_expect(const std::vector<double>& expect, const std::vector<std::string>& columns,
                  const std::string& column, const Pointer& place, FaultList& faults) {
  if (expect.size() != columns.size()) {
    faults.add(place.text(), "expect has " + std::to_string(expect.size()) + " numbers",
               "give one for each of the " + std::to_string(columns.size()) + " " + column + "s");
    return;
  }
  double sum = 0;
  bool each_fits = true;
  for (std::size_t i = 0; i < expect.size(); ++i) {
    check_unit_interval(expect[i], "the probability of " + column + " " + in_quotes(columns[i]),
                        (place / i).text(), faults);
    each_fits = each_fits && expect[i] >= 0 && expect[i] <= 1;
    sum += expect[i];
  }
  if (each_fits) check_sums_to_one(sum, "the probabilities", place.text(), faults);
}

void check_words(const std::vector<std::string>& words, const std::string& name, std::size_t least,
                 const Pointer& place, FaultList& faults) {
  if (words.size() < least) {
    faults.add(place.text(), "there are " + std::to_string(words.size()) + " " + name + "s",
               "give at least " + std::to_string(least));
  }
  std::unordered_map<std::string_view, std::size_t> first;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string here = (place / i).text();
    check_id(words[i], name, here, faults);
    if (first.emplace(words[i], i).second || words[i].empty()) continue;
    faults.add(here, "the " + name + " " + in_quotes(words[i]) + " is given twice", "give it once");
  }
}

}  // namespace likelihet::colony
