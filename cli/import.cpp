// likelihet import: adds a document or a table to a book, all of it or nothing.
#include "change_output.hpp"
#include "commands.hpp"
#include "document_input.hpp"
#include "input_file.hpp"
#include "open_book.hpp"
#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>

namespace likelihet::cli {
namespace {

struct ImportRequest {
  std::string book;
  std::string file;
  std::string kind;
  bool dry_run = false;
};

std::variant<book::Change, colony::Faults> put(book::Book& book, const Imported& imported,
                                               book::Mode mode) {
  if (const auto* model = std::get_if<colony::Model>(&imported)) {
    return book.replace_model(*model, mode);
  }
  if (const auto* policy = std::get_if<colony::Policy>(&imported)) {
    return book.replace_policy(*policy, mode);
  }
  return book.add(std::get<colony::Records>(imported), mode);
}

Reply run_import(const ImportRequest& asked, const Shell& shell) {
  auto book = open_book(asked.book);
  const auto kind = asked.kind.empty() ? std::nullopt : documents::csv_kind(asked.kind);
  const Imported what = imported(read_input(asked.file), asked.file, kind);
  auto outcome = put(book, what, asked.dry_run ? book::Mode::rehearse : book::Mode::commit);
  if (auto* faults = std::get_if<colony::Faults>(&outcome)) {
    throw Failure(ExitStatus::input, std::move(*faults));
  }
  ChangeTold told;
  told.change = std::get<book::Change>(outcome);
  told.written = !asked.dry_run;
  if (told.written) shell.has_recorded(change_text(told));
  if (shell.json) return {change_json(told), {}};
  return {fmt::format("{}: {}\n", printable(asked.book), change_text(told)), {}};
}

}  // namespace

void add_import(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ImportRequest>();
  CLI::App& command = new_command(
      program, line, "import", "Add a colony document, a table, a new model or a policy to a book.",
      "  likelihet import demo.book colony.json\n"
      "  likelihet import demo.book rack.csv --as scores --dry-run\n"
      "  likelihet export old.book | likelihet import new.book -\n");
  add_book(command, asked->book);
  add_file(command, "FILE", asked->file,
           "a colony, model or policy document (JSON), a .csv or .tsv table, or '-'");
  add_flag(command, "--dry-run", asked->dry_run, "find every fault and count; write nothing");
  add_choice(command, "--as", asked->kind, {"animals", "clutches", "scores", "results"},
             "what a table's rows are");
  add_json(command, line);
  on_chosen(command, line, asked, run_import);
}

}  // namespace likelihet::cli
