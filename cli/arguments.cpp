// The kinds of options, and what each will take.
#include "arguments.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <map>
#include <string_view>

#include "printable.hpp"
#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

constexpr double most_draws = 1e6;

std::string joined(const std::vector<std::string>& words, const std::string& between) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : between) + word;
  return text;
}

CLI::Validator utf8() {
  return {[](const std::string& text) {
            return is_utf8(text) ? std::string{} : "'" + printable(text) + "' is not UTF-8";
          },
          "", "UTF-8"};
}

CLI::Validator iso_day() {
  return {[](const std::string& text) {
            return colony::Date::parse(text)
                       ? std::string{}
                       : "'" + printable(text) +
                             "' is not a day; write it as 2024-06-11 (ISO 8601)";
          },
          "", "day"};
}

CLI::Validator one_of(const std::vector<std::string>& words) {
  return {[words](const std::string& text) {
            if (std::find(words.begin(), words.end(), text) != words.end()) return std::string{};
            return "'" + printable(text) + "' is none of " + joined(words, ", ");
          },
          "", "word"};
}

/// Whole where `whole`; from `low` to `high`.
CLI::Validator number_between(double low, double high, bool whole) {
  return {[=](const std::string& text) {
            double value = 0;
            const char* end = text.data() + text.size();
            const auto [stop, error] = std::from_chars(text.data(), end, value);
            const bool read = error == std::errc{} && stop == end && !std::isnan(value);
            if (read && value >= low && value <= high && (!whole || value == std::floor(value))) {
              return std::string{};
            }
            return fmt::format("'{}' is not a {}number from {} to {}", printable(text),
                               whole ? "whole " : "", low, high);
          },
          "", "number"};
}

/// Bytes of "512MiB", "2G", "1000": binary units, whatever the letter case.
std::optional<std::uint64_t> size_of(std::string_view text) {
  std::uint64_t count = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, count);
  if (error != std::errc{} || count == 0) return std::nullopt;
  std::string unit(stop, end);
  for (char& letter : unit) {
    letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  }
  static const std::map<std::string, unsigned> shifts = {
      {"", 0},     {"b", 0},  {"k", 10},  {"kb", 10},  {"kib", 10}, {"m", 20},  {"mb", 20},
      {"mib", 20}, {"g", 30}, {"gb", 30}, {"gib", 30}, {"t", 40},   {"tb", 40}, {"tib", 40}};
  const auto found = shifts.find(unit);
  if (found == shifts.end()) return std::nullopt;
  const std::uint64_t bytes = count << found->second;
  return bytes >> found->second == count ? std::optional(bytes) : std::nullopt;
}

CLI::Validator size() {
  return {[](const std::string& text) {
            return size_of(text)
                       ? std::string{}
                       : "'" + printable(text) + "' is not a size; write it as 512MiB or 4GiB";
          },
          "", "size"};
}

}  // namespace

CLI::App& new_command(CLI::App& parent, CommandLine& line, const std::string& name,
                      const std::string& summary, const std::string& examples) {
  CLI::App& command = *parent.add_subcommand(name, summary);
  command.footer(examples);
  add_colour(command, line);
  return command;
}

void when_named(CLI::App& command, std::function<void()> act) {
  command.callback(std::move(act));
}

void needs_command(CLI::App& command) {
  command.require_subcommand(1);
}

void add_book(CLI::App& command, std::string& book) {
  add_file(command, "BOOK", book, "the keeper's book, one file");
}

CLI::Option* add_file(CLI::App& command, const std::string& name, std::string& file,
                      const std::string& help) {
  return command.add_option(name, file, help)
      ->required()
      ->type_name(name.starts_with("-") ? "FILE" : "");
}

CLI::Option* add_word(CLI::App& command, const std::string& name, std::string& word,
                      const std::string& help) {
  return command.add_option(name, word, help)->required()->check(utf8())->type_name("");
}

CLI::Option* add_words(CLI::App& command, const std::string& name, std::vector<std::string>& words,
                       const std::string& help) {
  return add_more_words(command, name, words, help)->required();
}

CLI::Option* add_more_words(CLI::App& command, const std::string& name,
                            std::vector<std::string>& words, const std::string& help) {
  return command.add_option(name, words, help)->check(utf8())->type_name("");
}

CLI::Option* add_last_word(CLI::App& command, const std::string& name,
                           std::optional<std::string>& word, const std::string& help) {
  return add_text(command, name, word, help)->type_name("");
}

CLI::Option* add_flag(CLI::App& command, const std::string& name, bool& flag,
                      const std::string& help) {
  return command.add_flag(name, flag, help);
}

CLI::Option* add_text(CLI::App& command, const std::string& name, std::optional<std::string>& text,
                      const std::string& help) {
  return command
      .add_option_function<std::string>(
          name, [&text](const std::string& given) { text = given; }, help)
      ->check(utf8())
      ->type_name("TEXT");
}

CLI::Option* add_output(CLI::App& command, const std::string& name,
                        std::optional<std::string>& file, bool may_stand_alone,
                        const std::string& help) {
  return command
      .add_option_function<std::vector<std::string>>(
          name,
          [&file, may_stand_alone](const std::vector<std::string>& given) {
            const bool alone = given.empty() || (may_stand_alone && given.front().empty());
            file = alone ? "-" : given.front();
          },
          help)
      ->expected(may_stand_alone ? 0 : 1, 1)
      ->type_name(may_stand_alone ? "[FILE]" : "FILE");
}

void add_force(CLI::App& command, bool& force) {
  add_flag(command, "--force", force, "replace a file that is there; never a book");
}

CLI::Option* add_texts(CLI::App& command, const std::string& name, std::vector<std::string>& texts,
                       const std::string& type, const std::string& help) {
  return command.add_option(name, texts, help)
      ->allow_extra_args(false)
      ->check(utf8())
      ->type_name(type);
}

CLI::Option* add_choice(CLI::App& command, const std::string& name, std::string& word,
                        const std::vector<std::string>& words, const std::string& help) {
  return command.add_option(name, word, help)->check(one_of(words))->type_name(joined(words, "|"));
}

CLI::Option* add_date(CLI::App& command, const std::string& name, std::string& text,
                      const std::string& help) {
  return command.add_option(name, text, help)->check(iso_day())->type_name("DATE");
}

CLI::Option* add_probability(CLI::App& command, const std::string& name,
                             std::optional<double>& probability, const std::string& help) {
  return command
      .add_option_function<double>(
          name, [&probability](double given) { probability = given; }, help)
      ->check(number_between(0, 1, false))
      ->type_name("P");
}

CLI::Option* add_amount(CLI::App& command, const std::string& name, std::optional<double>& amount,
                        const std::string& help) {
  return command
      .add_option_function<double>(
          name, [&amount](double given) { amount = given; }, help)
      ->check(number_between(0, 1e15, false))
      ->type_name("AMOUNT");
}

CLI::Option* add_count(CLI::App& command, const std::string& name,
                       std::optional<std::int64_t>& count, const std::string& help) {
  return command
      .add_option_function<std::int64_t>(
          name, [&count](std::int64_t given) { count = given; }, help)
      ->check(number_between(0, 1e15, true))
      ->type_name("N");
}

void add_json(CLI::App& command, CommandLine& line) {
  command.add_flag("--json", line.shell.json, "print the result as a JSON document");
}

void add_colour(CLI::App& command, CommandLine& line) {
  static const std::map<std::string, ColourWhen> words = {{"auto", ColourWhen::automatic},
                                                          {"always", ColourWhen::always},
                                                          {"never", ColourWhen::never}};
  command
      .add_option_function<std::string>(
          "--color", [&line](const std::string& word) { line.shell.colour = words.at(word); },
          "colour: auto is on a terminal, unless NO_COLOR is set")
      ->check(one_of({"auto", "always", "never"}))
      ->type_name("auto|always|never");
}

void require(CLI::Option* option) {
  option->required();
}

void exclude(CLI::Option* one, CLI::Option* other) {
  one->excludes(other);
}

std::optional<colony::Date> day_of(const std::string& text) {
  return text.empty() ? std::nullopt : colony::Date::parse(text);
}

odds::Options ComputationAsked::options() const {
  odds::Options options;
  options.as_of = day_of(as_of);
  options.memory_bytes = static_cast<std::size_t>(memory);
  options.draws = draws;
  options.seed = seed;
  return options;
}

void add_computation(CLI::App& command, ComputationAsked& asked) {
  add_date(command, "--as-of", asked.as_of, "count only what was known at the end of that day");
  add_memory(command, asked.memory);
}

void add_memory(CLI::App& command, std::uint64_t& bytes) {
  command
      .add_option_function<std::string>(
          "--memory", [&bytes](const std::string& text) { bytes = *size_of(text); },
          "the most that exact inference may take; not given = 2GiB")
      ->check(size())
      ->type_name("SIZE");
}

CLI::Option* add_size(CLI::App& command, const std::string& name, std::size_t& size, double least,
                      double most, const std::string& help) {
  return command.add_option(name, size, help)
      ->check(number_between(least, most, true))
      ->type_name("N");
}

void add_seed(CLI::App& command, std::uint64_t& seed) {
  command.add_option("--seed", seed, "where draws start; not given = 1")
      ->check(number_between(0, 1e15, true))
      ->type_name("N");
}

void add_draws(CLI::App& command, ComputationAsked& asked) {
  command
      .add_option("--draws", asked.draws,
                  "draws of the tables behind each interval; not given = 1000")
      ->check(number_between(0, most_draws, true))
      ->type_name("N");
  add_seed(command, asked.seed);
}

}  // namespace likelihet::cli
