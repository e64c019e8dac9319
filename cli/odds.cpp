// likelihet odds: every animal's odds, in three layers of evidence.
#include <algorithm>

#include "commands.hpp"
#include "computation.hpp"
#include "learned_tables.hpp"
#include "odds_output.hpp"
#include "open_book.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::cli {
namespace {

struct OddsRequest {
  std::string book;
  ComputationAsked computation;
  std::string tables;  // empty: whichever holds
  std::optional<std::string> animal;
  std::optional<std::string> clutch;
  std::optional<std::string> locus;
};

Lens lens_of(const OddsRequest& asked, const colony::Colony& colony) {
  Lens lens = lens_of_all(colony);
  if (asked.clutch)
    lens.animals = colony.clutches()[clutch_named(colony, *asked.clutch)].hatchlings;
  if (asked.animal) lens.animals = {animal_named(colony, *asked.animal)};
  if (asked.locus) lens.loci = {locus_named(colony.model(), *asked.locus)};
  std::sort(lens.animals.begin(), lens.animals.end());
  return lens;
}

Reply run_odds(const OddsRequest& asked, const Shell& shell) {
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  const Lens lens = lens_of(asked, colony);
  odds::Options options = asked.computation.options();
  const Chosen tables = choose_tables(book, asked.tables, options.as_of.has_value());
  if (tables.used == TablesUsed::learned) options.learned = &tables.draws;
  const auto odds = value_or_fail(colony, odds::compute(colony, options));
  if (shell.json) return {odds_json(colony, odds, lens, options.as_of, tables.used), {}};
  return {odds_text(colony, odds, lens, options.as_of, tables.used, shell.terminal()), {}};
}

}  // namespace

void add_odds(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<OddsRequest>();
  CLI::App& command = new_command(program, line, "odds", "Show every animal's odds.",
                                  "  likelihet odds demo.book\n"
                                  "  likelihet odds demo.book --clutch C03 --locus tarnbrook\n"
                                  "  likelihet odds demo.book --json --as-of 2024-06-30\n");
  add_book(command, asked->book);
  auto* animal = add_text(command, "--animal", asked->animal, "this animal alone");
  auto* clutch =
      add_text(command, "--clutch", asked->clutch, "the hatchlings of this clutch alone");
  exclude(clutch, animal);
  add_text(command, "--locus", asked->locus, "this locus alone");
  add_choice(command, "--tables", asked->tables, {"belief", "learned"},
             "the model's, or what the book taught; not given = learned if fresh");
  add_computation(command, asked->computation);
  add_draws(command, asked->computation);
  add_json(command, line);
  on_chosen(command, line, asked, run_odds);
}

}  // namespace likelihet::cli
