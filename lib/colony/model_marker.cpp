// Checks of markers: levels, rows, contexts.
#include <algorithm>
#include <cmath>
#include <utility>

#include <likelihet/colony/model_draft.hpp>

namespace likelihet::colony {

namespace {

constexpr double default_row_worth = 10;

MarkerRow row_of(ModelDraft& draft, const RowDescription& row,
                 const std::vector<std::string>& levels, const Pointer& place) {
  MarkerRow out{{}, row.expect, row.worth.value_or(default_row_worth)};
  for (std::size_t i = 0; i < row.at.size(); ++i) {
    const auto& [id, key] = row.at[i];
    const std::string here = (place / "at" / id).text();
    repeated(row.at, i, here, draft.faults);
    const auto locus = known_locus(draft, id, here);
    if (!locus) continue;
    if (const auto genotype = known_genotype(draft, draft.loci[*locus], key, here)) {
      out.at.emplace_back(*locus, *genotype);
    }
  }
  std::sort(out.at.begin(), out.at.end());
  check_expect(row.expect, levels, "level", place / "expect", draft.faults);
  if (!std::isfinite(out.worth) || out.worth <= 0) {
    draft.faults.add((place / "worth").text(), "worth is " + number(out.worth),
                     "it must be above 0, and finite");
  }
  check_at_most(out.worth, most_worth, "worth", (place / "worth").text(), draft.faults);
  return out;
}

std::vector<MarkerRow> rows_of(ModelDraft& draft, const std::vector<RowDescription>& rows,
                               const std::vector<std::string>& levels, const Pointer& place) {
  std::vector<MarkerRow> out;
  if (rows.empty()) {
    draft.faults.add(place.text(), "there are no rows",
                     R"(give at least the one that fits every animal: "at": {})");
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool last = i + 1 == rows.size();
    const std::string at = (place / i / "at").text();
    if (rows[i].at.empty() && !last) {
      draft.faults.add(at, "an empty 'at' fits every animal, so the rows after it are never used",
                       "put the row with the empty 'at' last");
    } else if (!rows[i].at.empty() && last) {
      draft.faults.add(at, "the last row fits only some animals",
                       R"(add a last row for all others: "at": {})");
    }
    out.push_back(row_of(draft, rows[i], levels, place / i));
  }
  return out;
}

// Where `when` names an appearance that a locus has.
void resolve_shows(ModelDraft& draft, const ContextDescription& context, const Pointer& when,
                   MarkerContext& out) {
  const auto locus = known_locus(draft, *context.locus, (when / "locus").text());
  if (!locus) return;
  const auto& names = draft.loci[*locus].parts.appearances;
  const auto found = std::find(names.begin(), names.end(), *context.shows);
  if (found == names.end()) {
    draft.faults.add(
        (when / "shows").text(),
        "locus " + in_quotes(*context.locus) + " has no appearance " + in_quotes(*context.shows),
        draft.faults.suggest(*context.shows, names));
    return;
  }
  out.shows = {*locus, static_cast<std::size_t>(found - names.begin())};
}

MarkerContext context_of(ModelDraft& draft, const ContextDescription& context,
                         const std::vector<std::string>& levels, const Pointer& place) {
  MarkerContext out;
  const Pointer when = place / "when";
  const bool names_shows = context.locus && context.shows;
  const bool names_part = context.locus.has_value() != context.shows.has_value();
  if (names_shows && !context.line) {
    resolve_shows(draft, context, when, out);
  } else if (context.line && !context.locus && !context.shows) {
    check_id(*context.line, "line", (when / "line").text(), draft.faults);
    out.line = context.line;
  } else {
    const std::string found = names_part     ? "only one of 'locus' and 'shows'"
                              : context.line ? "'line' together with 'locus' and 'shows'"
                                             : "none of 'locus', 'shows' and 'line'";
    draft.faults.add(when.text(), "it has " + found,
                     "give either 'locus' and 'shows', or 'line' alone");
  }
  out.ignore = context.ignore;
  if (!context.ignore) {
    out.rows = rows_of(draft, context.rows, levels, place / "rows");
  } else if (!context.rows.empty()) {
    draft.faults.add(
        (place / "rows").text(),
        "there are " + std::to_string(context.rows.size()) + " rows, but use is 'ignore'",
        "leave the rows out, or set use to 'rows'");
  }
  return out;
}

}  // namespace

void check_markers(ModelDraft& draft) {
  const auto& markers = draft.description.markers;
  check_ids(markers, "markers", "marker", draft.faults);
  for (std::size_t i = 0; i < markers.size(); ++i) {
    const MarkerDescription& marker = markers[i];
    const Pointer place = Pointer() / "markers" / i;
    Marker out{marker.id, marker.levels, marker.weight.value_or(1), {}, {}};
    check_words(marker.levels, "level", 2, place / "levels", draft.faults);
    check_unit_interval(out.weight, "weight", (place / "weight").text(), draft.faults);
    out.rows = rows_of(draft, marker.rows, marker.levels, place / "rows");
    for (std::size_t k = 0; k < marker.contexts.size(); ++k) {
      out.contexts.push_back(
          context_of(draft, marker.contexts[k], marker.levels, place / "contexts" / k));
    }
    draft.markers.push_back(std::move(out));
  }
}

}  // namespace likelihet::colony
