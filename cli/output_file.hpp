// A file that the user names for a result.
#pragma once

#include <string>

#include "output_target.hpp"

namespace likelihet::cli {

/// Writes the whole text, or leaves all as it was: to a file beside it with a name that nobody can
/// guess, made new and never through a link, which then takes the name asked for. A file that is
/// replaced keeps its mode, and its owner where the system allows that; a new one follows the
/// umask. Throws as replaced_at(), and Failure{failed} that says what went wrong.
void write_output(const std::string& name, const std::string& text, const OutputRules& rules);

}  // namespace likelihet::cli
