// likelihet holdbacks: which hatchlings of a clutch to keep.
#include "change_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "holdbacks_output.hpp"
#include "learned_tables.hpp"
#include "open_book.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>
#include <likelihet/planning/holdbacks.hpp>

namespace likelihet::cli {
namespace {

struct HoldbacksRequest {
  std::string book;
  ComputationAsked computation;
  std::optional<std::string> clutch;
  std::size_t keep = 1;
  std::optional<std::string> goal;
  std::optional<std::string> locus;
  std::size_t females = 0;
  std::size_t males = 0;
};

std::size_t kept_locus(const HoldbacksRequest& asked, const colony::Model& model) {
  if (asked.locus) return locus_named(model, *asked.locus);
  if (model.loci().size() == 1) return 0;
  std::string known;
  for (const auto& locus : model.loci()) known += (known.empty() ? "'" : ", '") + locus.id() + "'";
  throw Failure(ExitStatus::usage, "command line", "the model has several traits",
                "say which with --locus: " + known);
}

planning::HoldbackQuestion holdback_question(const HoldbacksRequest& asked,
                                             const colony::Colony& colony) {
  planning::HoldbackQuestion question;
  const odds::Options options = asked.computation.options();
  question.book = {options.as_of, options.memory_bytes};
  question.clutch = clutch_named(colony, *asked.clutch);
  const std::size_t locus = kept_locus(asked, colony.model());
  auto goal = planning::keep_goal_named(colony.model().loci()[locus], locus,
                                        asked.goal.value_or("carries"));
  if (auto* fault = std::get_if<colony::Fault>(&goal)) throw Failure(ExitStatus::input, {*fault});
  question.goal = std::get<planning::KeepGoal>(std::move(goal));
  question.keep = asked.keep;
  question.females = asked.females;
  question.males = asked.males;
  return question;
}

Reply run_holdbacks(const HoldbacksRequest& asked, const Shell& shell) {
  if (asked.females + asked.males > asked.keep) {
    throw Failure(ExitStatus::usage, "--females, --males",
                  fmt::format("{} and {} are more than --keep {}",
                              counted(asked.females, "female", "females"),
                              counted(asked.males, "male", "males"), asked.keep),
                  "keep more, or ask for fewer");
  }
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  const planning::HoldbackQuestion question = holdback_question(asked, colony);
  const auto found = value_or_fail(colony, planning::holdbacks(colony, question));
  const HoldbacksTold told{&colony, &question, &found};
  if (shell.json) return {holdbacks_json(told), {}};
  const Terminal terminal = shell.terminal();
  return {holdbacks_text(told, terminal) +
              belief_note(book, question.book.as_of.has_value(), terminal.width()),
          {}};
}

}  // namespace

void add_holdbacks(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<HoldbacksRequest>();
  CLI::App& command =
      new_command(program, line, "holdbacks", "Say which hatchlings of a clutch to keep.",
                  "  likelihet holdbacks demo.book --clutch C03 --keep 3 --locus tarnbrook\n"
                  "  likelihet holdbacks demo.book --clutch C03 --keep 4 --females 2 --males 1\n");
  add_book(command, asked->book);
  require(add_text(command, "--clutch", asked->clutch, "the clutch"));
  require(add_size(command, "--keep", asked->keep, 1, 10'000, "how many may be kept"));
  add_text(command, "--goal", asked->goal,
           "carries, visual or a genotype's key; not given = carries");
  add_text(command, "--locus", asked->locus, "the locus; needed where the model has several");
  add_size(command, "--females", asked->females, 0, 10'000,
           "at least so many of them, one of which should meet the goal");
  add_size(command, "--males", asked->males, 0, 10'000,
           "at least so many of them, one of which should meet the goal");
  add_computation(command, asked->computation);
  add_json(command, line);
  on_chosen(command, line, asked, run_holdbacks);
}

}  // namespace likelihet::cli
