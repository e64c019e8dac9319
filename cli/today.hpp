// The day that the computer's clock shows.
#pragma once

#include <likelihet/colony/date.hpp>

namespace likelihet::cli {

/// In the local time of whoever runs the program.
colony::Date today();

}  // namespace likelihet::cli
