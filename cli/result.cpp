// likelihet result: records what a laboratory reported, and which animals' chances it moved.
#include "commands.hpp"
#include "record.hpp"

namespace likelihet::cli {
namespace {

struct ResultRequest {
  RecordAsked record;
  colony::ResultRecord result;
};

Reply run_result(const ResultRequest& asked, const Shell& shell) {
  return record(asked.record, asked.result, TellMoves::yes, shell);
}

}  // namespace

void add_result(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ResultRequest>();
  CLI::App& command = new_command(
      program, line, "result", "Record a test's result; shows which animals' chances it moved.",
      "  likelihet result demo.book H0301 shed-pcr carrier --sample S-0091 --on 2024-07-02\n");
  add_book(command, asked->record.book);
  add_word(command, "ANIMAL", asked->result.animal, "the animal's id");
  add_word(command, "ASSAY", asked->result.assay, "the assay's id");
  add_word(command, "REPORT", asked->result.report, "what was reported");
  add_text(command, "--sample", asked->result.sample, "the sample's number");
  add_record_options(command, line, asked->record);
  on_chosen(command, line, asked, run_result);
}

}  // namespace likelihet::cli
