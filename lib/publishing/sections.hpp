// The parts of the page between its head and its foot, one file each. Private to the layer.
#pragma once

#include "fields.hpp"
#include "markup.hpp"

namespace likelihet::publishing {

/// What came of the audit in a few sentences, the warnings first.
Markup summary_section(const json& audit);

/// From the animals that hatched to the forecasts that were checked, and who was left out and why.
Markup flow_section(const json& audit);

/// How good the forecasts were: scores, their charts, the worst, and every forecast.
Markup scores_section(const json& audit, bool can_draw);

/// Every marker with its verdict, why, and its figures.
Markup markers_section(const json& audit, bool can_draw);

/// What each scorer did, and how well scorers agree.
Markup scorers_section(const json& audit, bool can_draw);

/// Whether those that were tested are like those that were not.
Markup tested_section(const json& audit);

/// What moved the odds of some animals.
Markup animals_section(const json& audit, bool can_draw);

/// How to read the figures and charts.
Markup reading_guide();

/// What the figures can't say, and what comes before them.
Markup limits_section();

/// The items of STARD 2015 and TRIPOD+AI, answered out of the document where it has the answer.
Markup reporting_section(const json& audit);

/// A part of the page with its heading: `id` is letters and dashes.
Markup section(Literal id, Literal heading, const Markup& content);

}  // namespace likelihet::publishing
