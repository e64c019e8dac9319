// likelihet: reads the command line, runs one command, prints its result, exits with its status.
#include <algorithm>
#include <exception>
#include <string>
#include <variant>
#include <vector>

#include "failure.hpp"
#include "interruption.hpp"
#include "program.hpp"
#include "standard_streams.hpp"

namespace likelihet::cli {
namespace {

int told(const Failure& failure, bool json) {
  write_standard_error(json ? failure_json(failure) : failure_text(failure));
  return static_cast<int>(failure.status());
}

int printed(const std::string& text, const std::string& recorded, bool json) {
  const Written written = write_standard_output(text);
  if (written == Written::all) return static_cast<int>(ExitStatus::done);
  if (written == Written::reader_gone && recorded.empty()) {
    return static_cast<int>(ExitStatus::failed);
  }
  return told(
      after_recording(
          recorded, {ExitStatus::failed, "standard output", "the result could not be written to it",
                     "check the disk's free space, or what the output is piped into"}),
      json);
}

int run(const CommandLine& line) {
  try {
    const Reply reply = line.chosen(line.shell);
    const int status = printed(reply.output, line.shell.recorded(), line.shell.json);
    if (reply.failure) return told(*reply.failure, line.shell.json);
    return status;
  } catch (...) {
    return told(after_recording(line.shell.recorded(), failure_of_current_exception()),
                line.shell.json);
  }
}

int run_program(const std::vector<std::string>& arguments) {
  const auto asked = read_command_line(arguments);
  if (const auto* line = std::get_if<CommandLine>(&asked)) return run(*line);
  // Where the command line is wrong, whether it asks for JSON is all that is looked for.
  const bool json = std::find(arguments.begin(), arguments.end(), "--json") != arguments.end();
  if (const auto* information = std::get_if<Information>(&asked)) {
    return printed(information->text, {}, json);
  }
  return told(std::get<Failure>(asked), json);
}

}  // namespace
}  // namespace likelihet::cli

int main(int count, char** words) {
  using namespace likelihet::cli;
  try {
    end_on_signals();
    guard_standard_streams();
    return run_program(std::vector<std::string>(words + std::min(count, 1), words + count));
  } catch (const std::exception&) {
    return static_cast<int>(ExitStatus::failed);
  }
}
