// What the program prints on: whether it takes colour, how wide it is.
#pragma once

#include <cstddef>
#include <string>

namespace likelihet::cli {

/// `automatic` asks the environment; the other two do not.
enum class ColourWhen { automatic, always, never };

/// Colour repeats what words say already; nothing is told by colour alone.
class Terminal {
 public:
  /// Looks at standard output and the environment. With `automatic`, colour is used on a terminal
  /// unless NO_COLOR holds anything or TERM is "dumb". The width is COLUMNS, else what the terminal
  /// tells, else 80. Whatever its source, the width is held between 40 and 1000.
  static Terminal of_standard_output(ColourWhen when);
  /// A plain page of this width. Without colour; for tests, and where the answer must not hang on
  /// the environment.
  static Terminal plain(std::size_t width) { return {false, width}; }

  [[nodiscard]] bool colour() const { return colour_; }
  [[nodiscard]] std::size_t width() const { return width_; }
  /// Bold; these three give the text as it is where there is no colour.
  [[nodiscard]] std::string heading(const std::string& text) const { return painted(text, "1"); }
  [[nodiscard]] std::string faint(const std::string& text) const { return painted(text, "2"); }
  [[nodiscard]] std::string warning(const std::string& text) const { return painted(text, "33"); }

 private:
  Terminal(bool colour, std::size_t width) : colour_(colour), width_(width) {}
  [[nodiscard]] std::string painted(const std::string& text, const char* code) const;
  bool colour_;
  std::size_t width_;
};

/// Whether standard error is a terminal that a line can be rewritten on.
bool standard_error_is_terminal();

}  // namespace likelihet::cli
