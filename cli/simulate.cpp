// likelihet simulate: records that a model would write, of a book's animals and readings.
#include "commands.hpp"
#include "computation.hpp"
#include "document_input.hpp"
#include "input_file.hpp"
#include "open_book.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/book/book.hpp>
#include <likelihet/documents/colony_document.hpp>
#include <likelihet/learning/parameters.hpp>
#include <likelihet/learning/simulate.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

struct SimulateRequest {
  std::string model;
  std::string like;
  ComputationAsked computation;
  bool truth = false;
};

// What lies behind the records: every genotype and every table.
std::string truth_json(const colony::Colony& colony, const learning::Simulated& book) {
  const colony::Model& model = colony.model();
  ordered_json document = {{"format", "likelihet-truth"}, {"version", 1}};
  document["animals"] = ordered_json::array();
  for (std::size_t a = 0; a < colony.animals().size(); ++a) {
    auto loci = ordered_json::object();
    for (std::size_t l = 0; l < model.loci().size(); ++l) {
      loci[model.loci()[l].id()] = model.loci()[l].key(book.genotypes[a * model.loci().size() + l]);
    }
    document["animals"].push_back({{"id", colony.animals()[a].id}, {"loci", loci}});
  }
  document["markers"] = ordered_json::array();
  for (std::size_t m = 0; m < model.markers().size(); ++m) {
    document["markers"].push_back({{"id", model.markers()[m].id}, {"tables", book.tables.rows[m]}});
  }
  document["origins"] = ordered_json::array();
  for (std::size_t o = 0; o < model.origins().size(); ++o) {
    document["origins"].push_back(
        {{"id", model.origins()[o].id}, {"frequencies", book.tables.origins[o]}});
  }
  document["scorers"] = ordered_json::array();
  for (std::size_t s = 0; s < model.scorers().size(); ++s) {
    document["scorers"].push_back(
        {{"id", model.scorers()[s].id}, {"sure", book.tables.scorers[s]}});
  }
  return document.dump(2) + "\n";
}

Reply run_simulate(const SimulateRequest& asked, const Shell& /*shell*/) {
  const auto model = std::make_shared<const colony::Model>(model_of(read_input(asked.model)));
  const auto records = open_book(asked.like).records();
  auto made = colony::Colony::make(model, records);
  if (const auto* faults = std::get_if<colony::Faults>(&made)) {
    throw Failure(ExitStatus::input, *faults);
  }
  const auto& colony = std::get<colony::Colony>(made);
  const auto book = value_or_fail(
      colony,
      learning::simulate(colony, records, asked.computation.seed, asked.computation.memory));
  return {asked.truth ? truth_json(colony, book) : documents::write_colony(book.records), {}};
}

}  // namespace

void add_simulate(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<SimulateRequest>();
  CLI::App& command = new_command(
      program, line, "simulate", "Draw records that a model would give, like those of a book.",
      "  likelihet simulate model.json --like demo.book --seed 3 > drawn.json\n"
      "  likelihet simulate model.json --like demo.book --seed 3 --truth\n");
  add_word(command, "MODEL", asked->model, "a model document, or '-' for standard input");
  add_file(command, "--like", asked->like,
           "the book whose animals, scores and samples to draw for");
  add_flag(command, "--truth", asked->truth, "print the genotypes and tables behind them instead");
  add_seed(command, asked->computation.seed);
  add_memory(command, asked->computation.memory);
  on_chosen(command, line, asked, run_simulate);
}

}  // namespace likelihet::cli
