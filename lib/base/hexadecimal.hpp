// Bytes and numbers in hexadecimal digits.
#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace likelihet::base {

/// Two lower-case digits a byte.
std::string hexadecimal(std::span<const unsigned char> bytes);

/// Upper-case digits, at least `digits` of them with zeros before.
std::string hexadecimal(std::uint64_t number, std::size_t digits);

}  // namespace likelihet::base
