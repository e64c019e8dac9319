// likelihet withdraw: takes an observation back, leaving it in the book.
#include "commands.hpp"
#include "record.hpp"

namespace likelihet::cli {
namespace {

struct Asked {
  RecordAsked record;
  colony::WithdrawalRecord withdrawal;
};

Reply run(const Asked& asked, const Shell& shell) {
  return record(asked.record, asked.withdrawal, TellMoves::yes, shell);
}

}  // namespace

void add_withdraw(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<Asked>();
  CLI::App& command =
      new_command(program, line, "withdraw",
                  "Take an observation back: it stays in the book and no longer counts.",
                  "  likelihet withdraw demo.book o2 --why \"wrong animal\" --on 2024-07-03\n");
  add_book(command, asked->record.book);
  add_word(command, "OBSERVATION", asked->withdrawal.of, "the observation's id");
  require(add_text(command, "--why", asked->withdrawal.why, "the reason, for the record"));
  add_record_options(command, line, asked->record);
  on_chosen(command, line, asked, run);
}

}  // namespace likelihet::cli
