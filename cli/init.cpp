// likelihet init: makes a new book with a model.
#include "change_output.hpp"
#include "commands.hpp"
#include "document_input.hpp"
#include "input_file.hpp"
#include "interruption.hpp"
#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>

namespace likelihet::cli {
namespace {

struct InitRequest {
  std::string book;
  std::string model;
};

Reply run_init(const InitRequest& asked, const Shell& shell) {
  const colony::Model model = model_of(read_input(asked.model));
  {
    const Interruption finish_first;  // a book half made would be in the way of the next try
    book::Book::create(asked.book, model);
  }
  shell.has_recorded("the new book");
  if (Interruption::flag()) {
    throw Failure(Interruption::status(), asked.book, "it was interrupted", "the book is made");
  }
  ChangeTold told;
  told.change.model_replaced = true;
  if (shell.json) return {change_json(told), {}};
  return {fitted(fmt::format("made {} with the model \"{}\": {}, {}, {}\n", printable(asked.book),
                             printable(model.description().name),
                             counted(model.loci().size(), "locus", "loci"),
                             counted(model.markers().size(), "marker", "markers"),
                             counted(model.assays().size(), "assay", "assays")),
                 shell.terminal().width(), 2),
          {}};
}

}  // namespace

void add_init(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<InitRequest>();
  CLI::App& command = new_command(program, line, "init", "Make a new book with a model.",
                                  "  likelihet init demo.book --model model.json\n");
  add_book(command, asked->book);
  add_file(command, "--model", asked->model, "a model document, or '-' for standard input");
  add_json(command, line);
  on_chosen(command, line, asked, run_init);
}

}  // namespace likelihet::cli
