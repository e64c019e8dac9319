// Asks the operating system about standard output.
#include "terminal.hpp"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <optional>
#include <string_view>

#include <sys/ioctl.h>
#include <unistd.h>

namespace likelihet::cli {
namespace {

constexpr std::size_t default_width = 80;
constexpr std::size_t least_width = 40;
constexpr std::size_t most_width = 1000;

std::string_view environment(const char* name) {
  // Read once at the start, before there is any other thread.
  const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe)
  return value == nullptr ? std::string_view{} : std::string_view{value};
}

std::optional<std::size_t> width_from_environment() {
  const std::string_view text = environment("COLUMNS");
  std::size_t width = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), width);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return width;
}

std::size_t width_of_standard_output() {
  if (const auto width = width_from_environment()) return *width;
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return default_width;
}

bool colour_of_standard_output(ColourWhen when) {
  if (when != ColourWhen::automatic) return when == ColourWhen::always;
  return isatty(STDOUT_FILENO) == 1 && environment("NO_COLOR").empty() &&
         environment("TERM") != "dumb";
}

}  // namespace

Terminal Terminal::of_standard_output(ColourWhen when) {
  return {colour_of_standard_output(when),
          std::clamp(width_of_standard_output(), least_width, most_width)};
}

std::string Terminal::painted(const std::string& text, const char* code) const {
  if (!colour_ || text.empty()) return text;
  return std::string("\x1b[") + code + "m" + text + "\x1b[0m";
}

bool standard_error_is_terminal() {
  const std::string_view kind = environment("TERM");
  return ::isatty(STDERR_FILENO) == 1 && !kind.empty() && kind != "dumb";
}

}  // namespace likelihet::cli
