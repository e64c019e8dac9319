// Forecasts as a table, for statistics programs.
#include "audit_output.hpp"

#include <likelihet/base/shortest.hpp>
#include <likelihet/documents/csv_sires.hpp>
#include <likelihet/documents/csv_table.hpp>

namespace likelihet::cli {

std::string audit_csv(const colony::Colony& colony, const audit::Audit& audit) {
  documents::CsvTable table;
  table.header = {"animal", "clutch", "locus",  "allele",      "on",      "known_on",
                  "kind",   "basis",  "scheme", "probability", "outcome", "outcome_probability",
                  "scored"};
  for (const auto& forecast : audit.forecasts.forecasts) {
    const audit::Truth& truth = audit.forecasts.truths[forecast.truth];
    const auto& animal = colony.animals()[truth.event.animal];
    const auto& locus = colony.model().loci()[truth.event.locus];
    const auto eve = colony::Date::of_days(truth.known_on->days() - 1);
    table.rows.push_back({animal.id, animal.clutch ? colony.clutches()[*animal.clutch].id : "",
                          locus.id(), locus.alleles()[truth.event.allele], eve ? eve->text() : "",
                          truth.known_on->text(), code_of(truth.kind), code_of(forecast.basis),
                          code_of(forecast.scheme), base::shortest(forecast.probability),
                          truth.so() ? "1" : "0", base::shortest(truth.probability),
                          audit.forecasts.scored[truth.event.animal] ? "true" : "false"});
  }
  return documents::write_csv(table);
}

}  // namespace likelihet::cli
