// The audit as a page to read, print and keep.
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

namespace likelihet::publishing {

/// What a report is made of besides its document.
struct ReportParts {
  /// JavaScript that draws the charts (cli/web/ makes it). Empty: the page says that charts need
  /// it, and the charts' tables stand open.
  std::string_view scripts;
};

/// The whole HTML document of an audit ("likelihet-audit", version 1: docs/documents.md). It is one
/// file that fetches nothing. All that the audit document says is escaped, in the page and in the
/// data of its charts, whatever it is; a figure that is absent is shown as a dash. Nothing is
/// computed but shares and counts of what is drawn: figures are the document's. Throws nothing of
/// its own. The result is UTF-8; bytes of the document that are not are replaced by U+FFFD.
std::string audit_report(const nlohmann::json& audit, const ReportParts& parts);

}  // namespace likelihet::publishing
