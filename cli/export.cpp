// likelihet export: writes a book's records or model to standard output.
#include "commands.hpp"
#include "open_book.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/csv_records.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::cli {
namespace {

struct ExportRequest {
  std::string book;
  bool model = false;
  bool policy = false;
  std::string kind;
};

Reply run_export(const ExportRequest& asked, const Shell&) {
  const auto book = open_book(asked.book);
  if (asked.policy) return {documents::write_policy(book.policy()), {}};
  if (asked.model) return {documents::write_model(book.model()->description()), {}};
  const auto records = book.records();
  if (const auto kind = documents::csv_kind(asked.kind)) {
    return {documents::write_csv_records(records, *kind), {}};
  }
  return {documents::write_colony(records), {}};
}

}  // namespace

void add_export(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ExportRequest>();
  CLI::App& command = new_command(program, line, "export",
                                  "Write a book's records, its model or its policy as a document.",
                                  "  likelihet export demo.book > colony.json\n"
                                  "  likelihet export demo.book --model > model.json\n"
                                  "  likelihet export demo.book --csv scores > scores.csv\n");
  add_book(command, asked->book);
  auto* model = add_flag(command, "--model", asked->model, "the model document instead");
  auto* csv =
      add_choice(command, "--csv", asked->kind, {"animals", "clutches", "scores", "results"},
                 "a table of one kind of record instead");
  exclude(csv, model);
  auto* policy = add_flag(command, "--policy", asked->policy, "the policy document instead");
  exclude(policy, model);
  exclude(policy, csv);
  on_chosen(command, line, asked, run_export);
}

}  // namespace likelihet::cli
