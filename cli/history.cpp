// likelihet history: an animal's odds day by day.
#include <vector>

#include "commands.hpp"
#include "computation.hpp"
#include "history_output.hpp"
#include "learned_tables.hpp"
#include "lens.hpp"
#include "open_book.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::cli {
namespace {

struct HistoryRequest {
  std::string book;
  std::string animal;
  std::optional<std::string> locus;
  ComputationAsked computation;
};

Reply run_history(const HistoryRequest& asked, const Shell& shell) {
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  Lens lens = lens_of_all(colony);
  lens.animals = {animal_named(colony, asked.animal)};
  if (asked.locus) lens.loci = {locus_named(colony.model(), *asked.locus)};
  const odds::Options options = asked.computation.options();
  const auto moments = value_or_fail(colony, odds::history(colony, lens.animals.front(), options));
  if (shell.json) return {history_json(colony, moments, lens, options.as_of), {}};
  const Terminal terminal = shell.terminal();
  return {history_text(colony, moments, lens, options.as_of, terminal) +
              belief_note(book, options.as_of.has_value(), terminal.width()),
          {}};
}

}  // namespace

void add_history(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<HistoryRequest>();
  CLI::App& command =
      new_command(program, line, "history", "Show an animal's chances after each day of evidence.",
                  "  likelihet history demo.book H0301\n"
                  "  likelihet history demo.book F01 --locus tarnbrook --as-of 2024-12-31\n");
  add_book(command, asked->book);
  add_word(command, "ANIMAL", asked->animal, "the animal's id");
  add_text(command, "--locus", asked->locus, "this locus alone");
  add_computation(command, asked->computation);
  add_json(command, line);
  on_chosen(command, line, asked, run_history);
}

}  // namespace likelihet::cli
