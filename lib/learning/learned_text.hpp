// What was learned as text and numbers, to be kept and read again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <likelihet/learning/learn.hpp>

namespace likelihet::learning {

/// Everything but the draws, as JSON. Numbers keep every digit.
std::string write_learned(const Learned& learned);

/// The open numbers of every draw, draw after draw.
std::vector<double> flat_draws(const Learned& learned, const colony::Model& model);

/// Both back. `model` must be the one that was learned from. Nothing where they do not fit it: a
/// text of another version or a damaged one.
std::optional<Learned> read_learned(const std::string& text, const std::vector<double>& draws,
                                    const colony::Model& model);

/// The draws alone, which are all that odds need.
std::optional<std::vector<odds::Tables>> read_draws(const std::vector<double>& draws,
                                                    const colony::Model& model);

}  // namespace likelihet::learning
