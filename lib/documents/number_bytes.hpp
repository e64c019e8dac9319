// Doubles as bytes, the same on every machine: eight bytes each (IEEE 754 binary64), lowest first.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace likelihet::documents {

std::string bytes_of(const std::vector<double>& numbers);

/// What bytes_of() was given, to the last bit; bytes beyond the last whole number are left out.
std::vector<double> numbers_of(std::string_view bytes);

}  // namespace likelihet::documents
