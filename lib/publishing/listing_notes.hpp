// What stands beside the numbers of a listing: markers, record, cautions, health. Private to the
// layer.
#pragma once

#include <map>
#include <string>
#include <vector>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// "Markers seen, not counted: ..." or what they do, out of the rest of `markers`.
std::string markers_line(const colony::Colony& colony, const MarkersShown& markers);

/// How past percentages came true, one sentence a record, or that none stands behind the numbers.
std::vector<std::string> record_lines(const colony::Colony& colony,
                                      const std::vector<MarkersShown>& markers);

/// That it is an estimate, the law, and what may hurt an animal: of the loci given, which it may
/// carry something of, their cautions and genotypes that do not live.
std::vector<std::string> cautions_of(const colony::Model& model,
                                     const std::vector<std::size_t>& loci);

/// "study", "reports", "unknown": how well a health note is supported.
std::string grade_word(colony::Grade grade);

/// "tarnbrook: some lose balance. Evidence: keepers' reports (source)".
std::string health_line(const colony::HealthPolicy& note);

}  // namespace likelihet::publishing
