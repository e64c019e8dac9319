// likelihet prove-out: how many non-visual offspring show that an animal carries nothing.
#include "commands.hpp"
#include "computation.hpp"
#include "learned_tables.hpp"
#include "open_book.hpp"
#include "planning_options.hpp"
#include "prove_out_output.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>
#include <likelihet/colony/nearest.hpp>
#include <likelihet/planning/goal.hpp>

namespace likelihet::cli {
namespace {

struct ProveOutRequest {
  std::string book;
  std::string animal;
  std::optional<std::string> partner;
  std::optional<std::string> locus;
  std::optional<std::string> allele;
  std::size_t per_clutch = 0;  // not given: the mean of the book
  PlanningAsked planning;
};

// Where the model has one locus, that one; else it must be named, unless the partner's genotype
// does.
std::size_t proved_locus(const ProveOutRequest& asked, const colony::Colony& colony) {
  if (asked.locus) return locus_named(colony.model(), *asked.locus);
  const auto& loci = colony.model().loci();
  if (loci.size() == 1) return 0;
  std::string ids;
  for (const auto& locus : loci) ids += (ids.empty() ? "" : ", ") + locus.id();
  throw Failure(ExitStatus::usage, "command line", "the model has several traits: which is meant?",
                "give --locus with one of " + ids);
}

// The only one but the first; where there are several, it must be named.
std::uint16_t allele_of(const ProveOutRequest& asked, const genetics::Locus& locus) {
  if (!asked.allele) {
    if (locus.alleles().size() == 2) return 1;
    throw Failure(ExitStatus::usage, "command line",
                  fmt::format("{} has several alleles: which is meant?", locus.id()),
                  "give --allele");
  }
  const auto found = locus.find_allele(*asked.allele);
  if (!found) {
    throw Failure(ExitStatus::input, "command line",
                  fmt::format("there is not an allele '{}'", *asked.allele),
                  colony::suggestion(*asked.allele, locus.alleles()));
  }
  return *found;
}

std::variant<planning::PartnerAnimal, planning::PartnerGenotype> partner_of(
    const std::string& name, const colony::Colony& colony, std::size_t animal, std::size_t at) {
  const genetics::Locus& locus = colony.model().loci()[at];
  if (const auto partner = colony.find_animal(name)) return planning::PartnerAnimal{*partner};
  if (const auto genotype = locus.find(name)) return planning::PartnerGenotype{*genotype};
  std::vector<std::string> known;
  for (const auto& one : colony.animals()) known.push_back(one.id);
  throw Failure(
      ExitStatus::input, "--partner",
      fmt::format("'{}' is neither an animal of the book nor a genotype of {}", name, locus.id()),
      planning::genotype_mend(locus, name, known, planning::partner_genotypes(colony, animal, at)));
}

Reply run_proof(const ProveOutRequest& asked, const Shell& shell) {
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Colony& colony = book.colony;
  ProveOutShown shown{{animal_named(colony, asked.animal), {}, proved_locus(asked, colony), 1, {}},
                      {},
                      TablesUsed::belief,
                      {planning::ProveOutOdds({{1.0, 0.0, false, false}}), {}, false, {}, {}, 0}};
  const genetics::Locus& locus = colony.model().loci()[shown.asked.locus];
  shown.asked.allele = allele_of(asked, locus);
  shown.asked.partner = partner_of(*asked.partner, colony, shown.asked.animal, shown.asked.locus);
  if (asked.per_clutch > 0) shown.asked.per_clutch = static_cast<double>(asked.per_clutch);
  if (const auto fault = planning::prove_out_fault(colony, shown.asked)) {
    throw Failure(ExitStatus::input, {*fault});
  }
  const odds::Options options = asked.planning.computation.options();
  const Chosen tables = choose_tables(book, asked.planning.tables, options.as_of.has_value());
  shown.as_of = options.as_of;
  shown.tables = tables.used;
  const auto learned = odds::thinned(tables.draws, planning_draws);
  shown.proof = value_or_fail(colony, planning::proof(colony, shown.asked, options, learned));
  if (shell.json) return {prove_out_json(colony, shown), {}};
  return {prove_out_text(colony, shown, shell.terminal()), {}};
}

}  // namespace

void add_prove_out(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ProveOutRequest>();
  CLI::App& command = new_command(
      program, line, "prove-out",
      "Show how many non-visual offspring it takes to rule out that an animal carries an allele.",
      "  likelihet prove-out demo.book M02 --partner F01\n"
      "  likelihet prove-out demo.book M02 --partner e/e --locus tarnbrook --per-clutch 8\n");
  add_book(command, asked->book);
  add_word(command, "ANIMAL", asked->animal, "the animal's id");
  require(add_text(command, "--partner", asked->partner,
                   "an animal of the book, or a genotype such as e/e"));
  add_text(command, "--locus", asked->locus, "the locus; not given = the model's only one");
  add_text(command, "--allele", asked->allele,
           "the allele; not given = the only one but the first");
  add_size(command, "--per-clutch", asked->per_clutch, 1, 10000,
           "offspring of a clutch; not given = the mean of the book's clutches");
  add_planning(command, line, asked->planning);
  on_chosen(command, line, asked, run_proof);
}

}  // namespace likelihet::cli
