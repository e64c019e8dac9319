// likelihet learn: how well each marker does, from the whole book.
#include "commands.hpp"
#include "computation.hpp"
#include "interruption.hpp"
#include "learned_tables.hpp"
#include "open_book.hpp"
#include "progress.hpp"
#include "standard_streams.hpp"
#include "tables_output.hpp"
#include <fmt/format.h>

#include <likelihet/book/book_error.hpp>
#include <likelihet/learning/learn.hpp>
#include <likelihet/learning/learned_text.hpp>

namespace likelihet::cli {
namespace {

struct LearnRequest {
  std::string book;
  ComputationAsked computation;
  std::size_t chains = learning::Settings{}.chains;
  std::size_t most = learning::Settings{}.most_sweeps;
};

learning::Settings learning_settings(const LearnRequest& asked) {
  learning::Settings settings;
  settings.seed = asked.computation.seed;
  settings.memory_bytes = asked.computation.memory;
  settings.chains = asked.chains;
  settings.most_sweeps = asked.most;
  settings.draws = std::min(settings.draws, settings.most_sweeps / 2);
  return settings;
}

Failure stopped() {
  return {Interruption::status(), "learning", "it was interrupted",
          "the book is as it was; run it again"};
}

/// Learning took minutes: a book that another program holds is waited for, until Ctrl-C.
void keep(book::Book& book, const book::LearnedRecord& learned) {
  for (bool told = false; !Interruption::flag(); told = true) {
    try {
      book.keep_learned(learned);
      return;
    } catch (const book::BookError& error) {
      if (error.trouble() != book::BookTrouble::locked) throw;
    }
    if (!told) {
      write_standard_error(
          "waiting for the book: another program is writing to it (Ctrl-C gives up what was "
          "learned)\n");
    }
  }
  throw stopped();
}

learning::Learned learned_or_fail(const colony::Colony& colony, learning::Settings settings) {
  ProgressLine line;
  settings.stop = &Interruption::flag();
  settings.progress = [&](const learning::Progress& progress) {
    line.show(progress.done, progress.r_hat > 0
                                 ? fmt::format("chains agree to {:.3f}", progress.r_hat)
                                 : "first round");
  };
  auto outcome = learning::learn(colony, settings);
  if (std::holds_alternative<learning::Stopped>(outcome)) {
    throw stopped();
  }
  if (const auto* clash = std::get_if<odds::Contradiction>(&outcome)) {
    throw failure_of(colony, *clash);
  }
  if (const auto* large = std::get_if<odds::TooLarge>(&outcome)) throw failure_of(*large);
  return std::get<learning::Learned>(std::move(outcome));
}

Failure not_converged(const learning::Learned& learned) {
  const bool several = learned.modes.size() > 1;
  std::string mend = "nothing was kept; allow more sweeps with --most";
  if (several) {
    mend += fmt::format(
        ". The evidence has {} explanations, the second {:.1f} nats less likely than the first: "
        "chains may stay with one of them for good, and results or appearances decide between them",
        learned.modes.size(), learned.modes[0].log_posterior - learned.modes[1].log_posterior);
  }
  return {ExitStatus::failed, "learning",
          fmt::format(
              "after {} sweeps the {} chains {}: worst R-hat {:.3f}, least effective size "
              "{:.0f}",
              learned.sweeps, learned.chains,
              learned.worst_r_hat > learning::good_r_hat ? "do not agree yet" : "are too short yet",
              learned.worst_r_hat, std::min(learned.least_bulk, learned.least_tail)),
          mend};
}

Reply run_learn(const LearnRequest& asked, const Shell& shell) {
  const Interruption interruption;
  auto book = open_book(asked.book);
  // What another process adds meanwhile makes what is learned stale: the digest is of what taught.
  const book::Snapshot taught = book.snapshot();
  const colony::Colony& colony = taught.colony;
  const learning::Learned learned = learned_or_fail(colony, learning_settings(asked));
  if (!learned.converged) throw not_converged(learned);
  keep(book, {digest_of(taught), learning::write_learned(learned),
              learning::flat_draws(learned, colony.model())});
  shell.has_recorded("what was learned");
  if (shell.json) return {tables_json(colony.model(), learned, TablesUsed::learned), {}};
  return {learned_text(colony.model(), learned, shell.terminal()), {}};
}

}  // namespace

void add_learn(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<LearnRequest>();
  CLI::App& command = new_command(program, line, "learn",
                                  "Learn how well each marker does, and keep it in the book.",
                                  "  likelihet learn demo.book\n"
                                  "  likelihet learn demo.book --seed 7 --most 200000\n");
  add_book(command, asked->book);
  add_size(command, "--chains", asked->chains, 2, 64, "chains that must agree; not given = 4");
  add_size(command, "--most", asked->most, 20, 1e8,
           "the most sweeps of a chain; not given = 64000");
  add_seed(command, asked->computation.seed);
  add_memory(command, asked->computation.memory);
  add_json(command, line);
  on_chosen(command, line, asked, run_learn);
}

}  // namespace likelihet::cli
