// From figures to a verdict on a marker, by fixed rules.
#pragma once

#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit {

/// The rules, in this order (docs/method.md). They are ours: common practice, no source.
///  1. explained by another trait: it follows the other trait's hets given this one's (p <
///  0.01)
///     and nothing of this trait is left given the other's (p > 0.05).
///  2. only in some lines: lines differ (p < 0.05), a line's odds ratio is above 1 (p < 0.025 over
///     the number of lines), and that of another of ten animals or more may be 1.
///  3. only unblinded: blind and unblinded readings differ (p < 0.05), unblinded ones are above 1
///     and blind ones may be 1.
///  4. predicts: higher levels in hets, over all markers (adjusted p < 0.05) and within
///  clutches
///     (adjusted p < 0.05).
///  5. does not predict: the odds ratio at every level lies within 1/2 to 2 (95 % interval), or
///     higher levels are significantly of animals that are not het.
///  6. no evidence yet.
/// Sets `verdict` and `why`.
void judge(const colony::Colony& colony, MarkerAudit& marker);

/// "predicts", "no-evidence-yet" and so on, as documents have them.
const char* code_of(Verdict verdict);
/// "predicts", "no evidence yet" and so on.
const char* words_of(Verdict verdict);

}  // namespace likelihet::audit
