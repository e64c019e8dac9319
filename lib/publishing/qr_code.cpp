// The symbol is made by libqrencode; here it is only drawn.
#include "qr_code.hpp"

#include <memory>
#include <string>

#include <fmt/format.h>
#include <qrencode.h>

namespace likelihet::publishing {
namespace {

constexpr std::size_t quiet = 4;

// Each run of dark modules of a row as one rectangle: a path of a few kilobytes at most.
std::string path_of(const QrCode& code) {
  std::string path;
  for (std::size_t y = 0; y < code.side; ++y) {
    for (std::size_t x = 0; x < code.side; ++x) {
      std::size_t run = 0;
      while (x + run < code.side && code.dark[y * code.side + x + run]) ++run;
      if (run == 0) continue;
      path += fmt::format("M{} {}h{}v1h-{}z", x + quiet, y + quiet, run, run);
      x += run;
    }
  }
  return path;
}

}  // namespace

std::optional<QrCode> qr_code(std::string_view text) {
  constexpr std::size_t most = 1663;  // ISO/IEC 18004, table 7: version 40, level Q, byte mode
  if (text.empty() || text.size() > most) return std::nullopt;
  const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> made(
      QRcode_encodeData(static_cast<int>(text.size()), bytes, 0, QR_ECLEVEL_Q), QRcode_free);
  if (!made) return std::nullopt;
  QrCode code;
  code.side = static_cast<std::size_t>(made->width);
  for (std::size_t i = 0; i < code.side * code.side; ++i) {
    code.dark.push_back((made->data[i] & 1U) != 0);
  }
  return code;
}

Markup qr_drawing(const QrCode& code, std::string_view label, double millimetres) {
  const std::string side = fmt::format("{}", code.side + 2 * quiet);
  const std::string width = fmt::format("{:g}mm", millimetres);
  return filled(
      "<svg role=\"img\" aria-label=\"{}\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {} {}\" "
      "shape-rendering=\"crispEdges\" xmlns=\"http://www.w3.org/2000/svg\"><rect width=\"{}\" "
      "height=\"{}\" fill=\"#fff\"/><path fill=\"#000\" d=\"{}\"/></svg>\n",
      {label, width, width, side, side, side, side, path_of(code)});
}

}  // namespace likelihet::publishing
