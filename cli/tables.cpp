// likelihet tables: what each marker does to the odds, as believed and as learned.
#include "commands.hpp"
#include "failure.hpp"
#include "open_book.hpp"
#include "tables_output.hpp"

#include <likelihet/learning/learned_text.hpp>
#include <likelihet/learning/level_factors.hpp>

namespace likelihet::cli {
namespace {

struct TablesRequest {
  std::string book;
};

Reply run_tables(const TablesRequest& asked, const Shell& shell) {
  const book::Snapshot book = open_book(asked.book).snapshot();
  const colony::Model& model = book.colony.model();
  const Chosen chosen = choose_tables(book, "", false);
  learning::Learned shown = learning::belief_alone(model);
  if (chosen.used == TablesUsed::learned) {
    const auto& kept = book.learned;
    auto learned = learning::read_learned(kept->document, kept->draws, model);
    if (!learned) {
      throw Failure(ExitStatus::input, "book", "what was learned cannot be read",
                    "run 'likelihet learn' again");
    }
    shown = std::move(*learned);
  }
  if (shell.json) return {tables_json(model, shown, chosen.used), {}};
  return {tables_text(model, shown, chosen.used, shell.terminal()), {}};
}

}  // namespace

void add_tables(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<TablesRequest>();
  CLI::App& command =
      new_command(program, line, "tables", "Show what each marker does to the odds.",
                  "  likelihet tables demo.book\n"
                  "  likelihet tables demo.book --json\n");
  add_book(command, asked->book);
  add_json(command, line);
  on_chosen(command, line, asked, run_tables);
}

}  // namespace likelihet::cli
