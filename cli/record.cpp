// Writes one observation into a book and compares the odds before and after.
#include "record.hpp"

#include <utility>
#include <variant>

#include "change_output.hpp"
#include "computation.hpp"
#include "moves.hpp"
#include "observation_words.hpp"
#include "open_book.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::cli {
namespace {

odds::Outcome computed(const colony::Colony& colony, bool surprises) {
  odds::Options options;
  options.draws = 0;
  options.surprises = surprises;
  return odds::compute(colony, options);
}

std::string surprise_text(const std::string& id, const odds::Surprise& surprise) {
  return fmt::format("{} is surprising: its chance, given everything else, was {}. {}\n", id,
                     percent(surprise.probability), surprise.why);
}

std::string recorded_text(const book::Recorded& done) {
  const auto position = done.after.find_observation(done.id);
  const std::string words = position ? words_of(done.after, *position, true) : std::string{};
  return fmt::format("{} {}: {}\n",
                     done.change.observations_added > 0 ? "recorded" : "already there:",
                     printable(done.id), words);
}

/// Tells what the observation moved, or why that cannot be told.
void tell_moves(const book::Recorded& done, ChangeTold& told, std::string& text, Reply& reply,
                const Shell& shell) {
  const colony::Colony& after = done.after;
  const auto odds_after = computed(after, true);
  if (const auto* contradiction = std::get_if<odds::Contradiction>(&odds_after)) {
    reply.failure = failure_of(after, *contradiction);
  } else if (const auto* now = std::get_if<odds::ColonyOdds>(&odds_after)) {
    const auto odds_before = computed(done.before, false);
    if (std::holds_alternative<odds::Contradiction>(odds_before)) {
      text += "the evidence no longer contradicts itself\n";
    } else if (const auto* was = std::get_if<odds::ColonyOdds>(&odds_before)) {
      told.moves = moves_between(after, *was, *now, *after.find_observation(done.id));
      if (told.moves->surprise) text += surprise_text(done.id, *told.moves->surprise);
      text += moves_text(*told.moves, shell.terminal());
    }
  }
}

}  // namespace

void add_record_options(CLI::App& command, CommandLine& line, RecordAsked& asked) {
  add_date(command, "--on", asked.on, "the day it was seen; not given = not known");
  add_text(command, "--id", asked.id, "the observation's id; not given = the next free");
  add_json(command, line);
}

Reply record(const RecordAsked& asked, const decltype(colony::ObservationRecord::what)& what,
             TellMoves tell, const Shell& shell) {
  auto book = open_book(asked.book);
  colony::ObservationRecord observation;
  observation.what = what;
  observation.on = day_of(asked.on);
  observation.place.text = "command line";
  if (asked.id) observation.id = *asked.id;
  auto outcome = book.record(std::move(observation));
  if (auto* faults = std::get_if<colony::Faults>(&outcome)) {
    throw Failure(ExitStatus::input, std::move(*faults));
  }
  const auto& done = std::get<book::Recorded>(outcome);
  shell.has_recorded("observation " + done.id);

  ChangeTold told;
  told.change = done.change;
  told.observation = done.id;
  Reply reply;
  std::string text = recorded_text(done);
  if (tell == TellMoves::yes && done.change.observations_added > 0) {
    tell_moves(done, told, text, reply, shell);
  }
  reply.output = shell.json ? change_json(told) : text;
  return reply;
}

}  // namespace likelihet::cli
