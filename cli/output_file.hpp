// A file that the user names for a result.
#pragma once

#include <string>

namespace likelihet::cli {

/// Writes the whole text, or leaves the file as it was: to a new file beside it, which then takes
/// its name. Throws Failure{failed} that says what went wrong; Failure{usage} for a folder or
/// anything else that is no file.
void write_output(const std::string& name, const std::string& text);

}  // namespace likelihet::cli
