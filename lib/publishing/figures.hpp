// How figures and the document's code words read. No line is broken within a figure or an interval
// (U+00A0 between their parts). Private to the layer.
#pragma once

#include <string>
#include <string_view>

#include "fields.hpp"

namespace likelihet::publishing {

/// What stands where the document gives no figure.
inline constexpr std::string_view not_given = "–";

/// "41"; a dash where the field is absent or null.
std::string count_text(const json& object, std::string_view name);

/// "1 forecast", "12 forecasts".
std::string counted(long long count, std::string_view one, std::string_view many);

/// "66.7 %" and, with an interval, "66.7 % (51.0 – 79.2 %)". Without a value: the reason, or a
/// dash.
std::string percent_text(const Estimate& estimate);
std::string percent_text(const json& object, std::string_view name);

/// The same with so many decimals: "0.142 (0.101 – 0.190)".
std::string decimal_text(const Estimate& estimate, int decimals);

/// The same with three significant digits and a times sign: "×3.24 (1.1 – 9.62)". For ratios of
/// odds and likelihoods.
std::string ratio_text(const Estimate& estimate);

/// "0.031", "<0.001", a dash for none: a p-value or an adjusted one.
std::string p_text(const json& object, std::string_view name);

/// "bar-break"; "bar-break at orrelwood" where the document has markers of several loci, and with
/// its context where it has one. Unlike the marker's id alone, no other marker of the document has
/// it.
std::string marker_name(const json& audit, const json& marker);

/// "pedigree", "with markers": what a forecast rests on.
std::string basis_words(std::string_view basis);
/// "as it stood on the day", "its clutch left out".
std::string scheme_words(std::string_view scheme);
/// "test", "breeding", "looks", "relatives": how an outcome became known.
std::string kind_words(std::string_view kind);

}  // namespace likelihet::publishing
