// Checks of assays, scorers and groups of markers that come together.
#include <cmath>
#include <utility>

#include <likelihet/colony/model_draft.hpp>

namespace likelihet::colony {

namespace {

constexpr std::size_t most_rows_listed = 8;

// expect[g] from the rows, one for each genotype exactly once.
void check_assay_rows(ModelDraft& draft, const AssayDescription& assay, const Pointer& place,
                      Assay& out) {
  const LocusDraft no_locus;
  const auto locus = known_locus(draft, assay.locus, (place / "locus").text());
  const LocusDraft& known = locus ? draft.loci[*locus] : no_locus;
  if (locus) out.locus = *locus;
  out.expect.assign(known.genotypes.size(), {});
  std::vector<bool> seen(known.genotypes.size(), false);
  std::size_t unknown = 0;
  for (std::size_t i = 0; i < assay.rows.size(); ++i) {
    const AssayRowDescription& row = assay.rows[i];
    const Pointer here = place / "rows" / i;
    check_expect(row.expect, assay.reports, "report", here / "expect", draft.faults);
    const auto genotype = known_genotype(draft, known, row.at, (here / "at").text());
    if (!genotype) {
      ++unknown;
      continue;
    }
    if (seen[*genotype]) {
      draft.faults.add((here / "at").text(), "there are two rows for genotype " + in_quotes(row.at),
                       "give one row a genotype");
    }
    seen[*genotype] = true;
    out.expect[*genotype] = row.expect;
  }
  std::vector<std::string> missing;
  for (std::size_t g = 0; g < seen.size(); ++g) {
    if (!seen[g]) missing.push_back(known.keys[g]);
  }
  // Each misspelt key leaves a genotype without a row; that fault is told already.
  if (missing.size() <= unknown) return;
  draft.faults.add((place / "rows").text(),
                   "there is no row for genotype " + listed(missing, most_rows_listed),
                   "give one row for each genotype of locus " + in_quotes(assay.locus));
}

}  // namespace

void check_assays(ModelDraft& draft) {
  const auto& assays = draft.description.assays;
  check_ids(assays, "assays", "assay", draft.faults);
  for (std::size_t i = 0; i < assays.size(); ++i) {
    const AssayDescription& assay = assays[i];
    const Pointer place = Pointer() / "assays" / i;
    Assay out{assay.id, 0, assay.reports, {}, assay.mix_up.value_or(0), assay.price};
    check_words(assay.reports, "report", 2, place / "reports", draft.faults);
    check_assay_rows(draft, assay, place, out);
    check_unit_interval(out.mix_up, "mix_up", (place / "mix_up").text(), draft.faults);
    if (out.price) {
      check_not_negative(*out.price, "price", (place / "price").text(), draft.faults);
    }
    draft.assays.push_back(std::move(out));
  }
}

void check_scorers(ModelDraft& draft) {
  const auto& scorers = draft.description.scorers;
  check_ids(scorers, "scorers", "scorer", draft.faults);
  for (std::size_t i = 0; i < scorers.size(); ++i) {
    const Scorer scorer{scorers[i].id, scorers[i].sure.value_or(1)};
    check_unit_interval(scorer.sure, "sure", (Pointer() / "scorers" / i / "sure").text(),
                        draft.faults);
    draft.scorers.push_back(scorer);
  }
}

void check_together(ModelDraft& draft) {
  const auto& groups = draft.description.together;
  const auto& markers = draft.description.markers;
  check_ids(groups, "together", "group", draft.faults);
  std::unordered_map<std::string, Pointer> first;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const Pointer place = Pointer() / "together" / i / "markers";
    if (groups[i].markers.size() < 2) {
      draft.faults.add(place.text(),
                       "there are " + std::to_string(groups[i].markers.size()) + " markers",
                       "give at least 2: one alone comes together with nothing");
    }
    Together group{
        groups[i].id, {}, groups[i].common_loading.value_or(false), groups[i].spread.value_or(1)};
    if (!(group.spread > 0) || !std::isfinite(group.spread)) {
      draft.faults.add((Pointer() / "together" / i / "spread").text(),
                       "it is " + number(group.spread), "give a number above 0");
    }
    for (std::size_t k = 0; k < groups[i].markers.size(); ++k) {
      const std::string& id = groups[i].markers[k];
      const std::string here = (place / k).text();
      if (const auto marker = position_of(markers, id)) {
        group.markers.push_back(*marker);
      } else {
        draft.faults.add(here, "there is no marker " + in_quotes(id),
                         draft.faults.suggest_id(id, markers));
      }
      const auto [known, is_new] = first.emplace(id, place / k);
      if (is_new) continue;
      draft.faults.add(
          here, "the marker " + in_quotes(id) + " is at " + known->second.text() + " already",
          "name a marker once, in one group");
    }
    draft.together.push_back(std::move(group));
  }
}

}  // namespace likelihet::colony
