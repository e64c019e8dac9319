// A short text as a square of dark and light modules (ISO/IEC 18004). Private to the layer.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "markup.hpp"

namespace likelihet::publishing {

struct QrCode {
  std::size_t side = 0;    ///< modules, without the quiet zone
  std::vector<bool> dark;  ///< row after row, side x side
};

/// The smallest symbol of error correction level Q, which bears the loss of a quarter of it, that
/// holds the text as bytes. Nothing for an empty text or one that no symbol holds (beyond 1663
/// bytes).
std::optional<QrCode> qr_code(std::string_view text);

/// A drawing with the quiet zone of four modules on each side that the standard asks for, so many
/// millimetres wide in all. Black on white whatever the page's colours are.
Markup qr_drawing(const QrCode& code, std::string_view label, double millimetres);

}  // namespace likelihet::publishing
