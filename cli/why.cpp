// likelihet why: an animal's odds taken apart into the evidence that made them.
#include <cstdint>
#include <vector>

#include "commands.hpp"
#include "computation.hpp"
#include "learned_tables.hpp"
#include "open_book.hpp"
#include "why_output.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>
#include <likelihet/colony/nearest.hpp>
#include <likelihet/odds/why.hpp>

namespace likelihet::cli {
namespace {

struct WhyRequest {
  std::string book;
  std::string animal;
  std::optional<std::string> locus;
  std::optional<std::string> allele;
  ComputationAsked computation;
};

/// Where no allele is named, all but the first; where no locus is, all of them.
std::vector<odds::Question> questions_of(const WhyRequest& asked, const colony::Colony& colony) {
  const auto& loci = colony.model().loci();
  const std::size_t animal = animal_named(colony, asked.animal);
  const bool all = !asked.locus;
  const std::size_t only = all ? 0 : locus_named(colony.model(), *asked.locus);
  std::vector<odds::Question> questions;
  std::vector<std::string> known;
  for (std::size_t l = 0; l < loci.size(); ++l) {
    if (!all && only != l) continue;
    const auto alleles = static_cast<std::uint16_t>(loci[l].alleles().size());
    for (std::uint16_t allele = 0; allele < alleles; ++allele) {
      const std::string& name = loci[l].alleles()[allele];
      known.push_back(name);
      if (asked.allele ? *asked.allele == name : allele > 0) {
        questions.push_back({animal, l, allele});
      }
    }
  }
  if (questions.empty()) {
    throw Failure(ExitStatus::input, "command line",
                  fmt::format("there is not an allele '{}'", asked.allele.value_or("")),
                  colony::suggestion(asked.allele.value_or(""), known));
  }
  return questions;
}

Reply run_why(const WhyRequest& asked, const Shell& shell) {
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  const odds::Options options = asked.computation.options();
  std::vector<Answer> answers;
  for (const auto& question : questions_of(asked, colony)) {
    answers.push_back({question, value_or_fail(colony, odds::why(colony, question, options))});
  }
  if (shell.json) return {why_json(colony, answers, options.as_of), {}};
  const Terminal terminal = shell.terminal();
  return {why_text(colony, answers, options.as_of, terminal) +
              belief_note(book, options.as_of.has_value(), terminal.width()),
          {}};
}

}  // namespace

void add_why(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<WhyRequest>();
  CLI::App& command = new_command(program, line, "why",
                                  "Take an animal's chance apart into the evidence that made them.",
                                  "  likelihet why demo.book H0301\n"
                                  "  likelihet why demo.book H0301 --locus tarnbrook --json\n");
  add_book(command, asked->book);
  add_word(command, "ANIMAL", asked->animal, "the animal's id");
  add_text(command, "--locus", asked->locus, "this locus alone");
  add_text(command, "--allele", asked->allele, "one copy of this allele alone");
  add_computation(command, asked->computation);
  add_json(command, line);
  on_chosen(command, line, asked, run_why);
}

}  // namespace likelihet::cli
