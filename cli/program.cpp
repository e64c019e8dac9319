// Builds the program's commands and reads the arguments with them.
#include "program.hpp"

#include <algorithm>
#include <memory>

#include "commands.hpp"
#include "printable.hpp"
#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <likelihet/colony/nearest.hpp>

namespace likelihet::cli {
namespace {

/// Help that opens with what the command does and how it is used in earnest.
class ExamplesFirst : public CLI::Formatter {
 public:
  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override {
    if (mode == CLI::AppFormatMode::Sub) return make_expanded(app);
    return fitted(whole_help(app, std::move(name), mode), help_width, get_column_width());
  }

 private:
  static constexpr std::size_t help_width = 80;

  std::string whole_help(const CLI::App* app, std::string name, CLI::AppFormatMode mode) const {
    std::string text = app->get_description() + "\n\n";
    if (!app->get_footer().empty()) text += "Examples:\n" + app->get_footer() + "\n";
    return text + make_usage(app, std::move(name)) + make_positionals(app) +
           make_groups(app, mode) + make_subcommands(app, mode);
  }
};

/// The heading over the list of an app's commands.
void head_commands(CLI::App& app) {
  for (CLI::App* command : app.get_subcommands({})) {
    command->group("Commands");
    head_commands(*command);
  }
}

void add_commands(CLI::App& program, CommandLine& line) {
  program.formatter(std::make_shared<ExamplesFirst>());
  program.get_formatter()->column_width(34);
  program.get_formatter()->label("OPTIONS", "options");
  program.get_formatter()->label("SUBCOMMAND", "command");
  program.get_formatter()->label("SUBCOMMANDS", "commands");
  program.get_formatter()->label("Positionals", "Arguments");
  program.get_formatter()->label("REQUIRED", "(required)");
  program.footer(
      "  likelihet init demo.book --model model.json\n"
      "  likelihet import demo.book colony.json\n"
      "  likelihet odds demo.book\n");
  program.set_version_flag("--version", "likelihet " LIKELIHET_VERSION, "print the version");
  add_colour(program, line);
  needs_command(program);
  add_init(program, line);
  add_import(program, line);
  add_export(program, line);
  add_odds(program, line);
  add_why(program, line);
  add_history(program, line);
  add_learn(program, line);
  add_tables(program, line);
  add_audit(program, line);
  add_listing(program, line);
  add_sheet(program, line);
  add_publish(program, line);
  add_claims(program, line);
  add_verify(program, line);
  add_outlook(program, line);
  add_prove_out(program, line);
  add_next_test(program, line);
  add_holdbacks(program, line);
  add_simulate(program, line);
  add_score(program, line);
  add_result(program, line);
  add_appearance(program, line);
  add_brood(program, line);
  add_withdraw(program, line);
  add_add(program, line);
  add_check(program, line);
  add_copy(program, line);
  head_commands(program);
}

std::vector<std::string> command_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
  return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options()) {
    for (const auto& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

std::string full_name(const CLI::App& app) {
  return app.get_parent() == nullptr ? app.get_name()
                                     : full_name(*app.get_parent()) + " " + app.get_name();
}

/// Where the arguments lead: the deepest command they name, and the word after it that is none.
struct Reached {
  const CLI::App* command = nullptr;
  std::string unknown_word;
};

Reached reached(const CLI::App& program, const std::vector<std::string>& arguments) {
  Reached where{&program, {}};
  bool value_follows = false;
  for (const auto& argument : arguments) {
    const auto names = command_names(*where.command);
    if (names.empty()) break;
    if (value_follows || argument.starts_with("-")) {
      value_follows = argument == "--color";
      continue;
    }
    if (std::find(names.begin(), names.end(), argument) == names.end()) {
      where.unknown_word = argument;
      break;
    }
    where.command = where.command->get_subcommand(argument);
  }
  return where;
}

Failure usage(std::string what, std::string mend) {
  return {ExitStatus::usage, "command line", std::move(what), std::move(mend)};
}

Failure unexpected(const CLI::App& command, const std::vector<std::string>& extras) {
  const std::string name = full_name(command);
  for (const auto& extra : extras) {
    if (!extra.starts_with("-")) continue;
    const std::string option = extra.substr(0, extra.find('='));
    return usage(fmt::format("'{}' has no option '{}'", name, option),
                 colony::suggestion(option, option_names(command)));
  }
  return usage(
      fmt::format("'{}' is one argument too many", extras.empty() ? std::string{} : extras.front()),
      fmt::format("see '{} --help'; a value with spaces needs quotes", name));
}

Failure usage_failure(const CLI::App& program, const std::vector<std::string>& arguments,
                      const CLI::ParseError& error) {
  const Reached where = reached(program, arguments);
  const std::string name = full_name(*where.command);
  if (!where.unknown_word.empty()) {
    return usage(fmt::format("'{}' has no command '{}'", name, where.unknown_word),
                 colony::suggestion(where.unknown_word, command_names(*where.command)));
  }
  constexpr int extras_code = static_cast<int>(CLI::ExitCodes::ExtrasError);
  const auto extras = program.remaining(true);
  const bool option_unknown = std::any_of(extras.begin(), extras.end(), [](const auto& extra) {
    return extra.starts_with("-") && extra != "--";
  });
  if (error.get_exit_code() == extras_code || option_unknown) {
    return unexpected(*where.command, extras);
  }
  if (!command_names(*where.command).empty()) {
    return usage(fmt::format("'{}' needs a command", name), fmt::format("see '{} --help'", name));
  }
  return usage(error.what(), fmt::format("see '{} --help'", name));
}

}  // namespace

std::variant<CommandLine, Information, Failure> read_command_line(
    const std::vector<std::string>& arguments) {
  CommandLine line;
  CLI::App program{"Odds that an animal carries a recessive trait, from a keeper's own records.",
                   "likelihet"};
  add_commands(program, line);
  try {
    program.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::CallForHelp&) {
    return Information{program.help()};
  } catch (const CLI::CallForVersion& version) {
    return Information{std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    return usage_failure(program, arguments, error);
  }
  return line;
}

}  // namespace likelihet::cli
