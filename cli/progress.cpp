// The bar.
#include "progress.hpp"

#include <algorithm>
#include <cstddef>

#include "standard_streams.hpp"
#include "terminal.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
ProgressLine::ProgressLine() : terminal_(standard_error_is_terminal()) {}

ProgressLine::~ProgressLine() {
  if (shown_) write_standard_error("\r\x1b[K");
}

void ProgressLine::show(double done, const std::string& words) {
  if (!terminal_) return;
  constexpr std::size_t cells = 30;
  const auto filled = static_cast<std::size_t>(std::clamp(done, 0.0, 1.0) * cells);
  write_standard_error(fmt::format("\r\x1b[K[{}{}] {:3.0f} % {}", std::string(filled, '#'),
                                   std::string(cells - filled, '.'), 100 * done, words));
  shown_ = true;
}

}  // namespace likelihet::cli
