// likelihet next-test: which samples to send, in order.
#include "commands.hpp"
#include "computation.hpp"
#include "learned_tables.hpp"
#include "next_test_output.hpp"
#include "open_book.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/planning/next_test.hpp>

namespace likelihet::cli {
namespace {

struct NextTestRequest {
  std::string book;
  ComputationAsked computation;
  std::optional<double> budget;
  std::optional<std::int64_t> tests;
  std::optional<std::string> assay;
  std::vector<std::string> animals;
  std::optional<std::string> locus;
};

planning::TestQuestion test_question(const NextTestRequest& asked, const colony::Colony& colony) {
  planning::TestQuestion question;
  const odds::Options options = asked.computation.options();
  question.book = {options.as_of, options.memory_bytes};
  question.seed = options.seed;
  question.budget = asked.budget;
  if (asked.tests) question.tests = static_cast<std::size_t>(*asked.tests);
  for (const auto& animal : asked.animals) {
    question.asked.animals.push_back(animal_named(colony, animal));
  }
  if (asked.assay) question.asked.assays = {assay_named(colony.model(), *asked.assay)};
  if (asked.locus) question.asked.locus = locus_named(colony.model(), *asked.locus);
  return question;
}

Reply run_next_test(const NextTestRequest& asked, const Shell& shell) {
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  const colony::Policy& policy = book.evidence.policy;
  const planning::TestQuestion question = test_question(asked, colony);
  const auto plan = value_or_fail(colony, planning::next_test(colony, policy, question));
  const TestPlanTold told{&colony, &policy, &question, &plan};
  if (shell.json) return {next_test_json(told), {}};
  const Terminal terminal = shell.terminal();
  return {next_test_text(told, terminal) +
              belief_note(book, question.book.as_of.has_value(), terminal.width()),
          {}};
}

}  // namespace

void add_next_test(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<NextTestRequest>();
  CLI::App& command =
      new_command(program, line, "next-test", "Say which samples to send, in order, and why.",
                  "  likelihet next-test demo.book\n"
                  "  likelihet next-test demo.book --tests 8 --locus tarnbrook\n"
                  "  likelihet next-test demo.book --budget 200 --json\n");
  add_book(command, asked->book);
  add_amount(command, "--budget", asked->budget, "what all of them may cost");
  add_count(command, "--tests", asked->tests,
            "the most samples; not given = 5, or as many as the budget allows");
  add_text(command, "--assay", asked->assay, "this assay alone");
  add_texts(command, "--animal", asked->animals, "TEXT",
            "only samples of this animal; may be given more than once");
  add_text(command, "--locus", asked->locus, "tests of this trait alone");
  add_computation(command, asked->computation);
  add_seed(command, asked->computation.seed);
  add_json(command, line);
  on_chosen(command, line, asked, run_next_test);
}

}  // namespace likelihet::cli
