// Who was tested: those whose markers spoke for them, or anyone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit {

enum class Selected : std::uint8_t { looks_selected, looks_random, too_few };

/// At one locus, among animals with a marker read before their truth was known.
struct Selection {
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  std::size_t tested = 0;  ///< with a result that counts
  std::size_t untested = 0;
  std::size_t low_score_tested = 0;  ///< whose markers spoke against being het
  /// P(markers speak louder for a tested animal than for an untested one) + P(alike) / 2; nothing
  /// without both.
  std::optional<Estimate> louder;
  Selected verdict = Selected::too_few;
};

/// How loud markers speak: odds with pedigree and markers over odds with pedigree alone, no result
/// counting, at the tables learned from the whole book. Selected where the interval of `louder`
/// (DeLong's) is above 1/2; too few with under five tested or untested. One for each event that
/// some assay tests for.
std::variant<std::vector<Selection>, odds::TooLarge> selections(const colony::Colony& colony,
                                                                const MarkerBackground& background,
                                                                const TruthSettings& settings);

}  // namespace likelihet::audit
