// Who read the markers: how often, how well, and how far they agree.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <likelihet/audit/agreement.hpp>
#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit {

/// Two scorers, or one twice, of the same animals and marker.
struct Agreement {
  std::size_t marker = 0;
  std::size_t first = 0, second = 0;  ///< scorers; equal: the same one twice
  std::size_t pairs = 0;              ///< animals to which both gave a level
  std::size_t not_scorable = 0;       ///< animals left out since one of them could not score
  Estimate exact;                     ///< share of pairs of one level, Wilson's interval
  Kappa weighted_kappa;               ///< linear weights
  Kappa gwet_ac2;                     ///< linear weights: not upset by a rare level
};

/// A scorer on a marker, judged by each animal of known truth at the first look: naive, the marker
/// positive from its second level on. Looks that a context masks, or that came after the truth, are
/// no part of it.
struct ScorerOnMarker {
  std::size_t marker = 0;
  std::size_t table = 0;  ///< as MarkerAudit::table
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  std::size_t known = 0;  ///< animals
  Estimate sensitivity, specificity;
};

/// How often a scorer read a marker in a season and found it.
struct ScorerSeason {
  std::string season;  ///< the year
  std::size_t marker = 0;
  std::size_t readings = 0;
  std::size_t positive = 0;
};

struct ScorerAudit {
  std::size_t scorer = 0;
  std::size_t readings = 0;  ///< with a level
  std::size_t not_scorable = 0;
  std::size_t blind = 0, unblinded = 0, unknown = 0;  ///< of the readings
  std::vector<ScorerOnMarker> markers;
  std::vector<ScorerSeason> seasons;
};

/// Every scorer with a reading that counts, in the model's order.
std::vector<ScorerAudit> audit_scorers(const colony::Colony& colony,
                                       const std::optional<colony::Date>& as_of,
                                       const MarkerBackground& background,
                                       const std::vector<MarkerAudit>& markers);

/// Every two scorers (and every scorer who read twice) with an animal in common, by marker. Of
/// several readings of one scorer on one animal the first two count. "Could not be scored" is never
/// an agreement, and never a level.
std::vector<Agreement> agreements(const colony::Colony& colony,
                                  const std::optional<colony::Date>& as_of);

}  // namespace likelihet::audit
