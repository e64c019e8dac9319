// Markers that repeat each other: together more often than the truth explains.
#pragma once

#include <cstddef>
#include <vector>

#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit {

/// Two markers on animals of known truth: their levels correlated within hets and within
/// others. Multiplying what repeats itself says too much.
struct Repeat {
  std::size_t first = 0, second = 0;  ///< markers
  std::size_t locus = 0;              ///< whose truth is held fixed
  std::uint16_t allele = 1;
  std::size_t animals = 0;
  double correlation = 0;  ///< pooled over the two classes, in [-1, 1]
  double p = 1;            ///< of stratified_test() between their levels
};

/// Every pair read on at least `fewest` animals of known truth, by first, second and locus.
inline constexpr std::size_t fewest_for_repeats = 10;
std::vector<Repeat> repeats(const colony::Colony& colony, const MarkerBackground& background,
                            const std::vector<MarkerAudit>& markers);

}  // namespace likelihet::audit
