// The bar, and the signals that end what it stands for.
#include "progress.hpp"

#include <algorithm>
#include <csignal>
#include <cstddef>

#include "standard_streams.hpp"
#include "terminal.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

// A signal handler can reach nothing but what lives as long as the program.
std::atomic<bool>& interrupted() {
  static std::atomic<bool> flag{false};
  return flag;
}

// The second one ends the process as usual.
void interrupt(int signal) {
  interrupted() = true;
  std::signal(signal, SIG_DFL);
}

}  // namespace

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

Interruption::Interruption() {
  static_cast<void>(interrupted());  // made before a signal can come
  std::signal(SIGINT, interrupt);
  std::signal(SIGTERM, interrupt);
}

Interruption::~Interruption() {
  std::signal(SIGINT, SIG_DFL);
  std::signal(SIGTERM, SIG_DFL);
}

const std::atomic<bool>& Interruption::flag() {
  return interrupted();
}

}  // namespace likelihet::cli
