// A keeper at the command line: commands run in the program itself, on files in a folder of their
// own that goes away with the test.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

#include "program.hpp"

namespace likelihet::support {

/// What a command ended with: what it printed, and its failure if it had one.
struct Ended {
  std::string output;
  std::optional<cli::Failure> failure;

  [[nodiscard]] cli::ExitStatus status() const {
    return failure ? failure->status() : cli::ExitStatus::done;
  }
};

class Keeper {
 public:
  Keeper() {
    std::string pattern = (std::filesystem::temp_directory_path() / "likelihet-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder for the test");
    folder_ = pattern;
  }
  ~Keeper() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Keeper(const Keeper&) = delete;
  Keeper& operator=(const Keeper&) = delete;

  /// The path of a file in the folder.
  [[nodiscard]] std::string path(const std::string& name) const {
    return (folder_ / name).string();
  }
  /// Writes a file and gives its path.
  std::string file(const std::string& name, const std::string& content) const {
    std::ofstream(folder_ / name, std::ios::binary) << content;
    return path(name);
  }

  /// Reads the command line and runs the command, without colour.
  static Ended run(const std::vector<std::string>& arguments) {
    auto read = cli::read_command_line(arguments);
    if (auto* failure = std::get_if<cli::Failure>(&read)) return {"", *failure};
    if (auto* told = std::get_if<cli::Information>(&read)) return {told->text, std::nullopt};
    auto& line = std::get<cli::CommandLine>(read);
    line.shell.colour = cli::ColourWhen::never;
    try {
      cli::Reply reply = line.chosen(line.shell);
      return {reply.output, reply.failure};
    } catch (...) {
      return {"", cli::failure_of_current_exception()};
    }
  }

 private:
  std::filesystem::path folder_;
};

}  // namespace likelihet::support
