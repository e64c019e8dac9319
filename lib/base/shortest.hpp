// Numbers as text that reads back as the same number.
#pragma once

#include <string>

namespace likelihet::base {

/// The shortest decimal that reads back as the same double, of at most 24 characters
/// (std::to_chars); `inf` and `nan` as such.
std::string shortest(double number);

}  // namespace likelihet::base
