// Reading the command line: what is chosen, and what is said of mistakes.
#include "program.hpp"

#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace likelihet::cli::program_test {
namespace {

using Arguments = std::vector<std::string>;

colony::Fault fault_of(const Arguments& arguments) {
  const auto read = read_command_line(arguments);
  const auto* failure = std::get_if<Failure>(&read);
  if (failure == nullptr) return {"", "no fault", ""};
  EXPECT_EQ(failure->status(), ExitStatus::usage);
  return failure->faults().front();
}

TEST(CommandLine, ChoosesACommand) {
  const auto read = read_command_line({"odds", "a.book", "--json", "--color=never"});
  ASSERT_TRUE(std::holds_alternative<CommandLine>(read));
  const auto& line = std::get<CommandLine>(read);
  EXPECT_TRUE(line.shell.json);
  EXPECT_EQ(line.shell.colour, ColourWhen::never);
  EXPECT_TRUE(line.chosen);
}

TEST(CommandLine, TakesCommandNamesAsIds) {
  EXPECT_TRUE(
      std::holds_alternative<CommandLine>(read_command_line({"add", "animal", "a.book", "odds"})));
  EXPECT_TRUE(std::holds_alternative<CommandLine>(read_command_line({"why", "a.book", "check"})));
}

TEST(CommandLine, NamesTheNearestCommand) {
  const auto fault = fault_of({"odsd", "a.book"});
  EXPECT_EQ(fault.what, "'likelihet' has no command 'odsd'");
  EXPECT_EQ(fault.mend, "did you mean 'odds'?");
  EXPECT_EQ(fault_of({"--color", "never", "odsd"}).mend, "did you mean 'odds'?");
  EXPECT_EQ(fault_of({"add", "anmal", "a.book"}).mend, "did you mean 'animal'?");
}

TEST(CommandLine, NamesTheNearestOption) {
  const auto fault = fault_of({"odds", "a.book", "--as-off=2024-01-01"});
  EXPECT_EQ(fault.what, "'likelihet odds' has no option '--as-off'");
  EXPECT_EQ(fault.mend, "did you mean '--as-of'?");
}

TEST(CommandLine, NeedsACommand) {
  EXPECT_EQ(fault_of({}).what, "'likelihet' needs a command");
  EXPECT_EQ(fault_of({"add"}).what, "'likelihet add' needs a command");
}

TEST(CommandLine, GivesHelpWithExamplesBeforeOptions) {
  const auto read = read_command_line({"odds", "--help"});
  ASSERT_TRUE(std::holds_alternative<Information>(read));
  const std::string& text = std::get<Information>(read).text;
  EXPECT_LT(text.find("Examples:"), text.find("Usage:"));
  EXPECT_LT(text.find("Usage:"), text.find("\nOptions:"));
}

RC_GTEST_PROP(CommandLine, IsReadOrRefusedWhateverItHolds, (const Arguments& arguments)) {
  const auto read = read_command_line(arguments);
  if (const auto* failure = std::get_if<Failure>(&read)) {
    RC_ASSERT(failure->status() == ExitStatus::usage);
    RC_ASSERT(!failure->faults().empty());
  }
}

}  // namespace
}  // namespace likelihet::cli::program_test
