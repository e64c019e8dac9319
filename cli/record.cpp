// Writes one observation into a book and compares the odds before and after.
#include "record.hpp"

#include <algorithm>
#include <cstddef>
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

constexpr int most_attempts = 100;

std::string free_id(const colony::Colony& colony) {
  std::size_t number = colony.observations().size() + 1;
  while (colony.find_observation(fmt::format("o{}", number))) ++number;
  return fmt::format("o{}", number);
}

odds::Outcome computed(const colony::Colony& colony, bool surprises) {
  odds::Options options;
  options.draws = 0;
  options.surprises = surprises;
  return odds::compute(colony, options);
}

/// What was added, and the colony as it was just before.
struct Added {
  std::string id;
  book::Change change;
  colony::Colony before;
};

/// Another program may take the free id between our looking and our writing; then the next is
/// tried.
Added added(book::Book& book, const RecordAsked& asked, colony::ObservationRecord observation) {
  for (int attempt = 1;; ++attempt) {
    colony::Colony before = book.colony();
    observation.id = asked.id ? *asked.id : free_id(before);
    auto outcome = book.add({{}, {}, {observation}}, book::Mode::commit);
    if (const auto* change = std::get_if<book::Change>(&outcome)) {
      const bool someone_elses = !asked.id && change->observations_added == 0;
      if (!someone_elses) return {observation.id, *change, std::move(before)};
    } else if (asked.id || !book.colony().find_observation(observation.id)) {
      throw Failure(ExitStatus::input, std::move(std::get<colony::Faults>(outcome)));
    }
    if (attempt == most_attempts) {
      throw Failure(ExitStatus::failed, "book", "other programs took every free id that was tried",
                    "try again, or give an id with --id");
    }
  }
}

std::string surprise_text(const std::string& id, const odds::Surprise& surprise) {
  return fmt::format("{} is surprising: its chance, given everything else, was {}. {}\n", id,
                     percent(surprise.probability), surprise.why);
}

std::string recorded_text(const Added& added, const colony::Colony& after) {
  const auto position = after.find_observation(added.id);
  const std::string words = position ? words_of(after, *position, true) : std::string{};
  return fmt::format("{} {}: {}\n",
                     added.change.observations_added > 0 ? "recorded" : "already there:",
                     printable(added.id), words);
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
  const Added done = added(book, asked, std::move(observation));
  const colony::Colony after = book.colony();

  ChangeTold told;
  told.change = done.change;
  told.observation = done.id;
  Reply reply;
  std::string text = recorded_text(done, after);
  if (tell == TellMoves::yes && done.change.observations_added > 0) {
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
  reply.output = shell.json ? change_json(told) : text;
  return reply;
}

}  // namespace likelihet::cli
