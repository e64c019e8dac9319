// An audit as a document for programs, as a table of forecasts, and for people.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "terminal.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/audit/audit.hpp>

namespace likelihet::cli {

/// `likelihet-audit` version 1 (docs/documents.md). The report is made from it.
nlohmann::ordered_json audit_document(const colony::Colony& colony, const audit::Audit& audit,
                                      const audit::Settings& settings);

/// Its parts, each an array.
nlohmann::ordered_json audit_markers_json(const colony::Colony& colony, const audit::Audit& audit);
nlohmann::ordered_json audit_pairs_json(const colony::Colony& colony, const audit::Audit& audit);
nlohmann::ordered_json audit_scorers_json(const colony::Colony& colony, const audit::Audit& audit);
nlohmann::ordered_json audit_agreement_json(const colony::Colony& colony,
                                            const audit::Audit& audit);

// What the parts write alike.
nlohmann::ordered_json json_of(const audit::Interval& interval);
nlohmann::ordered_json json_of(const audit::Estimate& estimate);
/// null where there is none.
nlohmann::ordered_json json_of(const std::optional<audit::Estimate>& estimate);
const char* code_of(audit::Basis basis);
const char* code_of(audit::Scheme scheme);

/// RFC 4180: every forecast, one a line, under the fields of the document.
std::string audit_csv(const colony::Colony& colony, const audit::Audit& audit);

/// The marker's id, and the context or line whose table was audited.
std::string audited_marker_name(const colony::Model& model, const audit::MarkerAudit& audited);

/// What a breeder repeats of it, at most ten sentences: whether percentages came true, whether
/// markers helped and which, how animals to test were chosen, who agrees least, what to be wary of.
std::vector<std::string> audit_sentences(const colony::Colony& colony, const audit::Audit& audit);
/// The same, wrapped, each ending its line.
std::string audit_summary(const colony::Colony& colony, const audit::Audit& audit,
                          const Terminal& terminal);

/// All that it says, for people: warnings, flow, scores, markers, scorers.
std::string audit_text(const colony::Colony& colony, const audit::Audit& audit,
                       const Terminal& terminal);

}  // namespace likelihet::cli
