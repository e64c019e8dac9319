// likelihet check: whether a book is sound.
#include "change_output.hpp"
#include "commands.hpp"
#include "open_book.hpp"
#include "printable.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <likelihet/book/book.hpp>

namespace likelihet::cli {
namespace {

struct CheckRequest {
  std::string book;
};

std::string as_json(const colony::Faults& faults) {
  using nlohmann::ordered_json;
  auto listed = ordered_json::array();
  for (const auto& fault : faults) {
    listed.push_back({{"place", fault.place}, {"what", fault.what}, {"mend", fault.mend}});
  }
  const ordered_json document = {
      {"format", "likelihet-check"}, {"version", 1}, {"sound", faults.empty()}, {"faults", listed}};
  return document.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

std::string as_text(const std::string& name, const book::Book& book, const Terminal& terminal) {
  const auto records = book.records();
  return fitted(
      fmt::format("{} is sound: {}, {}, {}, {}\n", printable(name),
                  counted(records.animals.size(), "animal", "animals"),
                  counted(records.clutches.size(), "clutch", "clutches"),
                  counted(records.observations.size(), "observation", "observations"),
                  counted(book.ledger().size(), "entry in the ledger", "entries in the ledger")),
      terminal.width(), 2);
}

Reply run_check(const CheckRequest& asked, const Shell& shell) {
  const auto book = open_book(asked.book);
  const auto faults = book.check();
  Reply reply;
  if (shell.json) {
    reply.output = as_json(faults);
  } else if (faults.empty()) {
    reply.output = as_text(asked.book, book, shell.terminal());
  }
  if (!faults.empty()) reply.failure = Failure(ExitStatus::input, faults);
  return reply;
}

}  // namespace

void add_check(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<CheckRequest>();
  CLI::App& command = new_command(program, line, "check",
                                  "Check a book: its file, its ledger, and that its records fit.",
                                  "  likelihet check demo.book\n");
  add_book(command, asked->book);
  add_json(command, line);
  on_chosen(command, line, asked, run_check);
}

}  // namespace likelihet::cli
