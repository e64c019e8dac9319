// The script that reports carry to draw their charts.
#pragma once

#include <string_view>

namespace likelihet::cli {

/// JavaScript, bundled when the program was built (cli/web/), with the licences of all that is in
/// it. Empty where it was built without npm: reports then have tables alone.
std::string_view report_scripts();

}  // namespace likelihet::cli
