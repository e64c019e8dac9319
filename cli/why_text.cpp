// An account as a table: what came when, what it weighed, where it led.
#include <cmath>
#include <cstddef>

#include "change_output.hpp"
#include "observation_words.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include "why_output.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

constexpr double least_decibans_shown = 0.05;  // decibans; what one decimal would show as 0.0

std::string account_table(const colony::Colony& colony, const odds::Account& account,
                          const Terminal& terminal) {
  Table table({{"date"},
               {"from"},
               {"factor", Align::right},
               {"dB", Align::right},
               {"before", Align::right},
               {"after", Align::right},
               {"evidence"}});
  std::size_t weightless = 0;
  for (const auto& step : account.steps) {
    if (std::abs(step.decibans) < least_decibans_shown) {
      ++weightless;
      continue;
    }
    const auto& first = colony.observations()[step.observations.front()];
    table.add({day_in_words(first), step.own ? "own" : "relatives", factor_in_words(step.factor),
               decibans_in_words(step.decibans), percent(step.before), percent(step.after),
               words_of(colony, step.observations, !step.own)});
  }
  std::string text = table.empty() ? "  nothing recorded weighs on it\n" : table.text(terminal, 2);
  if (weightless > 0) {
    text += fmt::format("  not listed: {} less than 0.05 dB (all of them with --json)\n",
                        counted(weightless, "step that weighs", "steps that weigh"));
  }
  return text;
}

/// Start odds x every factor = the posterior; in words where evidence proves or rules out.
std::string product_line(const odds::Account& account) {
  double product = 1;
  for (const auto& step : account.steps) product *= step.factor;
  const double odds = account.start / (1 - account.start) * product;
  const std::string end =
      fmt::format("{}, that is {}", odds_ratio_in_words(odds), percent(account.end));
  if (!std::isfinite(product) || product == 0) {
    return fmt::format("  start {}; the evidence settles it: {}\n", odds_in_words(account.start),
                       end);
  }
  return fmt::format("  start {} {} = {}\n", odds_in_words(account.start), factor_in_words(product),
                     end);
}

std::string account_text(const colony::Colony& colony, const Answer& answer,
                         const Terminal& terminal) {
  const auto& locus = colony.model().loci()[answer.question.locus];
  const odds::Account& account = answer.account;
  const auto& animal = colony.animals()[answer.question.animal];
  std::string text = terminal.heading(printable(fmt::format(
                         "{}: chance of exactly one copy of {} at {}", printable_id(animal.id),
                         locus.alleles()[answer.question.allele], locus.id()))) +
                     "\n";
  text += fmt::format("  start, from founders, clutches and sexes: {} ({})\n",
                      percent(account.start), odds_in_words(account.start));
  text += account_table(colony, account, terminal);
  const std::string own = decibans_in_words(account.own_decibans);
  const std::string relatives = decibans_in_words(account.relatives_decibans);
  text += fmt::format("  own evidence {}, relatives' evidence {}\n",
                      own.empty() ? "decides" : own + " dB",
                      relatives.empty() ? "decides" : relatives + " dB");
  return text + product_line(account);
}

}  // namespace

std::string why_text(const colony::Colony& colony, const std::vector<Answer>& answers,
                     const std::optional<colony::Date>& as_of, const Terminal& terminal) {
  std::string text;
  if (as_of) text += fmt::format("As known at the end of {}.\n\n", as_of->text());
  for (const auto& answer : answers) text += account_text(colony, answer, terminal) + "\n";
  return text +
         wrapped(
             "A factor above 1 speaks for one copy, below 1 against it; 10 dB is a factor of "
             "ten. Markers are not proof.",
             terminal.width(), 0) +
         "\n";
}

}  // namespace likelihet::cli
