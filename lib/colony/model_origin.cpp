// Checks of origins: allele frequencies among founders.
#include <algorithm>
#include <utility>

#include <likelihet/colony/model_draft.hpp>

namespace likelihet::colony {

namespace {

constexpr double default_origin_worth = 10;

// What is not given belongs to the first allele; where that one is given too, nothing is left over.
void complete(std::vector<double>& frequencies, bool first_given, const Pointer& place,
              FaultList& faults) {
  double sum = 0;
  for (const double frequency : frequencies) sum += frequency;
  if (first_given) {
    check_sums_to_one(sum, "the frequencies", place.text(), faults);
  } else if (sum > 1 + 1e-9) {
    faults.add(place.text(), "the frequencies sum to " + number(sum),
               "they must sum to 1 at most: the first allele has what is left");
  } else {
    frequencies[0] = std::max(0.0, 1 - sum);
  }
}

std::vector<double> locus_frequencies(ModelDraft& draft, const LocusDraft& locus,
                                      const Named<double>& given, const Pointer& place) {
  const auto& alleles = locus.parts.alleles;
  std::vector<double> frequencies(std::max<std::size_t>(alleles.size(), 1), 0.0);
  const std::size_t before = draft.faults.count();
  bool first_given = false;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const auto& [allele, frequency] = given[i];
    const std::string here = (place / allele).text();
    check_unit_interval(frequency, "the frequency of " + in_quotes(allele), here, draft.faults);
    repeated(given, i, here, draft.faults);
    const auto found = std::find(alleles.begin(), alleles.end(), allele);
    if (found == alleles.end()) {
      draft.faults.add(here,
                       "locus " + in_quotes(locus.parts.id) + " has no allele " + in_quotes(allele),
                       draft.faults.suggest(allele, alleles));
      continue;
    }
    frequencies[static_cast<std::size_t>(found - alleles.begin())] = frequency;
    first_given = first_given || found == alleles.begin();
  }
  if (draft.faults.count() == before) complete(frequencies, first_given, place, draft.faults);
  return frequencies;
}

}  // namespace

void check_origins(ModelDraft& draft) {
  const auto& origins = draft.description.origins;
  check_ids(origins, "origins", "origin", draft.faults);
  for (std::size_t i = 0; i < origins.size(); ++i) {
    const Pointer place = Pointer() / "origins" / i;
    Origin origin{origins[i].id, {}, origins[i].worth.value_or(default_origin_worth)};
    check_not_negative(origin.worth, "worth", (place / "worth").text(), draft.faults);
    check_at_most(origin.worth, most_worth, "worth", (place / "worth").text(), draft.faults);
    for (const LocusDraft& locus : draft.loci) {
      std::vector<double> all_first(std::max<std::size_t>(locus.parts.alleles.size(), 1), 0.0);
      all_first[0] = 1;
      origin.frequencies.push_back(std::move(all_first));
    }
    const auto& given = origins[i].frequencies;
    for (std::size_t k = 0; k < given.size(); ++k) {
      const Pointer here = place / "frequencies" / given[k].first;
      repeated(given, k, here.text(), draft.faults);
      if (const auto locus = known_locus(draft, given[k].first, here.text())) {
        origin.frequencies[*locus] =
            locus_frequencies(draft, draft.loci[*locus], given[k].second, here);
      }
    }
    draft.origins.push_back(std::move(origin));
  }
}

}  // namespace likelihet::colony
