// Probabilities as they are published: rounded down, never up. Private to the layer.
#pragma once

#include <string>

#include <likelihet/genetics/copies.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

using genetics::rounding_error;

/// The largest multiple of `step` that is not above the probability, but for rounding_error.
/// 1 only where the probability is 1 within that error. `step` in (0, 1].
double rounded_down(double probability, double step);

/// One number, in whole percents.
Published whole_percent(double probability);

/// "66 %", "55 to 70 %", "below 1 %" of what is above 0 but rounds down to it. A range from 0 on
/// starts with it: "0 to 40 %".
std::string in_percent(const Published& published);

/// "0.5 %": how often something errs, which is rounded up, to a tenth of a percent; "0 %" only for
/// 0.
std::string error_in_percent(double probability);

/// "about 66 in 100", of the same number as the whole percentage; "about 6 in 10" where that says
/// the same; "fewer than 1 in 100"; "all" and "none" only where it is certain. Natural frequencies
/// (Gigerenzer and Hoffrage 1995, Psychological Review 102:684).
std::string in_so_many(double probability);

}  // namespace likelihet::publishing
