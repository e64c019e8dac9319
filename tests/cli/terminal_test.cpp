// What the program prints on: width from the environment within bounds, colour only where asked.
#include "terminal.hpp"

#include <cstdlib>
#include <string>

#include <gtest/gtest.h>

namespace likelihet::cli::terminal_test {
namespace {

// A variable of the environment for the time of a test.
class Environment {
 public:
  Environment(const char* name, const char* value) : name_(name) {
    if (const char* old = std::getenv(name)) {
      was_set_ = true;
      old_ = old;
    }
    setenv(name, value, 1);
  }
  ~Environment() {
    if (was_set_) {
      setenv(name_, old_.c_str(), 1);
    } else {
      unsetenv(name_);
    }
  }
  Environment(const Environment&) = delete;
  Environment& operator=(const Environment&) = delete;

 private:
  const char* name_;
  bool was_set_ = false;
  std::string old_;
};

std::size_t width_for(const char* columns) {
  const Environment set("COLUMNS", columns);
  return Terminal::of_standard_output(ColourWhen::never).width();
}

TEST(TerminalWidth, IsThatOfTheEnvironmentWithinBounds) {
  EXPECT_EQ(width_for("80"), 80U);
  EXPECT_EQ(width_for("10"), 40U);
  EXPECT_EQ(width_for("0"), 40U);
  EXPECT_EQ(width_for("5000"), 1000U);
}

TEST(TerminalWidth, DoesNotTakeWhatIsNoNumber) {
  for (const char* wrong : {"wide", "", "80x", "-5", "99999999999999999999999"}) {
    const std::size_t width = width_for(wrong);
    EXPECT_GE(width, 40U) << wrong;
    EXPECT_LE(width, 1000U) << wrong;
  }
}

TEST(TerminalColour, IsAsAskedFor) {
  const Environment no_colour("NO_COLOR", "1");
  EXPECT_TRUE(Terminal::of_standard_output(ColourWhen::always).colour());
  EXPECT_FALSE(Terminal::of_standard_output(ColourWhen::never).colour());
  EXPECT_FALSE(Terminal::of_standard_output(ColourWhen::automatic).colour());
}

// ECMA-48 SGR: ESC [ n m, and 0 to end it.
TEST(TerminalColour, PaintsAndStops) {
  const auto painted = Terminal::of_standard_output(ColourWhen::always);
  EXPECT_EQ(painted.heading("x"), "\x1b[1mx\x1b[0m");
  EXPECT_EQ(painted.faint("x"), "\x1b[2mx\x1b[0m");
  EXPECT_EQ(painted.warning("x"), "\x1b[33mx\x1b[0m");
  EXPECT_EQ(painted.heading(""), "");
  const auto plain = Terminal::plain(80);
  EXPECT_EQ(plain.heading("x") + plain.faint("y") + plain.warning("z"), "xyz");
}

}  // namespace
}  // namespace likelihet::cli::terminal_test
