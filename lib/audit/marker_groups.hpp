// A marker by line, scorer, season, blinding and other traits' hets.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include <likelihet/audit/marker_audit.hpp>
#include <likelihet/audit/marker_subjects.hpp>

namespace likelihet::audit {

/// Every group of five animals or more; `separate` are the subjects reading by reading, for the
/// groups by scorer. Fills groups, lines_differ, blinding_differs.
void audit_groups(const colony::Colony& colony, const MarkerlessTable& markerless,
                  std::span<const Subject> subjects, std::span<const Subject> separate,
                  MarkerAudit& out);

/// Whether a group's odds ratio can be told at all: the variance of its logarithm is below 10.
bool tells(const GroupAudit& group);

/// Two loci and a marker: whether the marker follows hets of another trait, this trait's
/// hets being given, and what is left of this trait given the other's. The one of smallest p,
/// times the number of traits tried; nothing where there is no other trait.
std::optional<OtherTrait> other_trait(const colony::Colony& colony,
                                      const MarkerlessTable& markerless,
                                      std::span<const Subject> subjects, const MarkerAudit& of,
                                      std::size_t levels);

}  // namespace likelihet::audit
