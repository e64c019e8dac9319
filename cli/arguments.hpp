// Options and operands of the commands; each kind is checked in the same way everywhere. Values are
// stored straight into what a command was asked, which is shared by the parser and the command's
// run.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "shell.hpp"

#include <likelihet/colony/date.hpp>
#include <likelihet/odds/options.hpp>

// The parser itself is included by arguments.cpp and program.cpp alone.
namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace likelihet::cli {

/// The command line while it is being read: the shell, and the command found. Lives longer than the
/// parser, whose options write into it.
struct CommandLine {
  Shell shell;
  Command chosen;
};

/// A command of this name; `examples` stand first in its help, one a line. Owned by `parent`.
CLI::App& new_command(CLI::App& parent, CommandLine& line, const std::string& name,
                      const std::string& summary, const std::string& examples);

/// Makes `act` what is done when the command is named. It is called while the command line is read;
/// the command itself runs later.
void when_named(CLI::App& command, std::function<void()> act);

/// Makes `run` what is done once the command line proves to be right. Keeps `asked` alive until the
/// command has run.
template <class Asked>
void on_chosen(CLI::App& command, CommandLine& line, const std::shared_ptr<Asked>& asked,
               Reply (*run)(const Asked&, const Shell&)) {
  when_named(command, [asked, run, &line] {
    line.chosen = [asked, run](const Shell& shell) { return run(*asked, shell); };
  });
}

/// A command that needs one of its own commands after it.
void needs_command(CLI::App& command);

// Operands, required. A file's name may be any bytes; a word of the records must be UTF-8.
/// BOOK, the first operand of every command.
void add_book(CLI::App& command, std::string& book);
CLI::Option* add_file(CLI::App& command, const std::string& name, std::string& file,
                      const std::string& help);
CLI::Option* add_word(CLI::App& command, const std::string& name, std::string& word,
                      const std::string& help);
/// One or more of them.
CLI::Option* add_words(CLI::App& command, const std::string& name, std::vector<std::string>& words,
                       const std::string& help);
/// Any number of them, none too.
CLI::Option* add_more_words(CLI::App& command, const std::string& name,
                            std::vector<std::string>& words, const std::string& help);
/// One that may be left out. Comes after the required ones.
CLI::Option* add_last_word(CLI::App& command, const std::string& name,
                           std::optional<std::string>& word, const std::string& help);

// Options, each absent unless given.
CLI::Option* add_flag(CLI::App& command, const std::string& name, bool& flag,
                      const std::string& help);
CLI::Option* add_text(CLI::App& command, const std::string& name, std::optional<std::string>& text,
                      const std::string& help);
/// A file to write, "-" for standard output, which it also is without a file where it
/// `may_stand_alone`. A command with one has --force too, and writes by write_output() alone.
CLI::Option* add_output(CLI::App& command, const std::string& name,
                        std::optional<std::string>& file, bool may_stand_alone,
                        const std::string& help);
/// --force, for commands with add_output().
void add_force(CLI::App& command, bool& force);
/// May be given more than once.
CLI::Option* add_texts(CLI::App& command, const std::string& name, std::vector<std::string>& texts,
                       const std::string& type, const std::string& help);
/// One of these words. Compared exactly, as all words of commands are.
CLI::Option* add_choice(CLI::App& command, const std::string& name, std::string& word,
                        const std::vector<std::string>& words, const std::string& help);
/// An ISO 8601 day; `day_of` reads it. Checked while arguments are read; `text` stays empty where
/// it is not given.
CLI::Option* add_date(CLI::App& command, const std::string& name, std::string& text,
                      const std::string& help);
/// In [0, 1]. NaN and infinities are refused.
CLI::Option* add_probability(CLI::App& command, const std::string& name,
                             std::optional<double>& probability, const std::string& help);
/// A sum of money, in whatever currency the keeper counts in. From 0 to 1e15.
CLI::Option* add_amount(CLI::App& command, const std::string& name, std::optional<double>& amount,
                        const std::string& help);
/// A whole number, not negative. At most 1e15, which a double holds exactly.
CLI::Option* add_count(CLI::App& command, const std::string& name,
                       std::optional<std::int64_t>& count, const std::string& help);
/// A whole number from `least` to `most`.
CLI::Option* add_size(CLI::App& command, const std::string& name, std::size_t& size, double least,
                      double most, const std::string& help);
/// --json. The flag is the shell's: one for all commands.
void add_json(CLI::App& command, CommandLine& line);
/// --color, on the program and on each command.
void add_colour(CLI::App& command, CommandLine& line);

void require(CLI::Option* option);
/// Makes it an error to give both.
void exclude(CLI::Option* one, CLI::Option* other);

/// The day of an option that add_date made; nothing where it was not given. Also nothing for a text
/// that is not a day, which the option has refused before.
std::optional<colony::Date> day_of(const std::string& text);

/// What the options of a computation were set to. Starts from the defaults of odds::Options.
struct ComputationAsked {
  std::string as_of;
  std::uint64_t memory = odds::Options{}.memory_bytes;
  unsigned draws = odds::Options{}.draws;
  std::uint64_t seed = odds::Options{}.seed;

  /// Surprises are looked for, as by default.
  [[nodiscard]] odds::Options options() const;
};

/// --as-of and --memory. Sizes are in binary units, whatever the letter case: "512MiB", "2G",
/// "1000".
void add_computation(CLI::App& command, ComputationAsked& asked);
/// --memory alone.
void add_memory(CLI::App& command, std::uint64_t& bytes);
/// --seed alone; up to 1e15.
void add_seed(CLI::App& command, std::uint64_t& seed);
/// --draws and --seed, for commands that show intervals. At most a million draws and seeds up to
/// 1e15.
void add_draws(CLI::App& command, ComputationAsked& asked);

}  // namespace likelihet::cli
