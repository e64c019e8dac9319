// likelihet outlook: what a pairing may give, or which pairing may best give what is wanted.
#include <cmath>

#include "commands.hpp"
#include "computation.hpp"
#include "learned_tables.hpp"
#include "open_book.hpp"
#include "outlook_output.hpp"
#include "planning_options.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/planning/clutch_size.hpp>

namespace likelihet::cli {
namespace {

struct OutlookRequest {
  std::string book;
  std::optional<std::string> dam;
  std::optional<std::string> sire;
  std::optional<std::string> goal;
  std::optional<std::string> locus;
  std::size_t offspring = 0;  // not given: the mean of the book
  std::size_t limit = 20;
  PlanningAsked planning;
};

// Rounded to the nearest; 1 where no clutch is recorded.
std::size_t offspring_of(const OutlookRequest& asked, const colony::Colony& colony) {
  if (asked.offspring > 0) return asked.offspring;
  return static_cast<std::size_t>(
      std::max(std::round(planning::mean_offspring(colony).value_or(1)), 1.0));
}

Reply run_pair(const OutlookRequest& asked, const Shell& shell, const colony::Colony& colony,
               const odds::Options& options, const Chosen& tables) {
  const planning::Pair pair{animal_named(colony, *asked.dam), animal_named(colony, *asked.sire)};
  if (const auto fault = planning::pairing_fault(colony, pair)) {
    throw Failure(ExitStatus::input, {*fault});
  }
  OutlookShown shown{pair, offspring_of(asked, colony), {}, options.as_of, tables.used, {}};
  for (std::size_t l = 0; l < colony.model().loci().size(); ++l) shown.loci.push_back(l);
  if (asked.locus) shown.loci = {locus_named(colony.model(), *asked.locus)};
  const auto learned = odds::thinned(tables.draws, planning_draws);
  shown.outlook = value_or_fail(colony, planning::outlook(colony, pair, options, learned));
  if (shell.json) return {outlook_json(colony, shown), {}};
  return {outlook_text(colony, shown, shell.terminal()), {}};
}

Reply run_rank(const OutlookRequest& asked, const Shell& shell, const colony::Colony& colony,
               const odds::Options& options, const Chosen& tables) {
  auto read = planning::read_goal(colony.model(), *asked.goal);
  if (auto* fault = std::get_if<colony::Fault>(&read)) {
    throw Failure(ExitStatus::input, {std::move(*fault)});
  }
  RankingShown shown{std::get<planning::Goal>(read),
                     offspring_of(asked, colony),
                     asked.limit,
                     options.as_of,
                     tables.used,
                     {}};
  const auto learned = odds::thinned(tables.draws, planning_draws);
  shown.ranking = value_or_fail(
      colony, planning::rank(colony, shown.goal, shown.offspring, options, learned, asked.limit));
  if (shell.json) return {ranking_json(colony, shown), {}};
  return {ranking_text(colony, shown, shell.terminal()), {}};
}

Reply run_outlook(const OutlookRequest& asked, const Shell& shell) {
  if (!asked.goal && !asked.sire) {
    throw Failure(ExitStatus::usage, "command line", "a pairing needs a DAM and a SIRE",
                  "name both, or give --rank LOCUS=GENOTYPE to compare all pairs");
  }
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  const odds::Options options = asked.planning.computation.options();
  const Chosen tables = choose_tables(book, asked.planning.tables, options.as_of.has_value());
  return asked.goal ? run_rank(asked, shell, colony, options, tables)
                    : run_pair(asked, shell, colony, options, tables);
}

}  // namespace

void add_outlook(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<OutlookRequest>();
  CLI::App& command = new_command(
      program, line, "outlook", "Show what a pairing may give, or rank all pairings for a goal.",
      "  likelihet outlook demo.book F01 M02 --offspring 8\n"
      "  likelihet outlook demo.book --rank tarnbrook=e/e --limit 10\n");
  add_book(command, asked->book);
  auto* dam = add_last_word(command, "DAM", asked->dam, "the dam's id");
  auto* sire = add_last_word(command, "SIRE", asked->sire, "the sire's id");
  auto* locus = add_text(command, "--locus", asked->locus, "this locus alone");
  auto* rank = add_text(command, "--rank", asked->goal,
                        "all pairs, by a goal: LOCUS=GENOTYPE or LOCUS=APPEARANCE");
  for (auto* other : {dam, sire, locus}) exclude(other, rank);
  add_size(command, "--offspring", asked->offspring, 1, 1000,
           "offspring of the clutch; not given = the mean of the book's clutches");
  add_size(command, "--limit", asked->limit, 1, 1e6, "pairs to show; not given = 20");
  add_planning(command, line, asked->planning);
  on_chosen(command, line, asked, run_outlook);
}

}  // namespace likelihet::cli
