// likelihet appearance: records what an animal looks like.
#include "commands.hpp"
#include "record.hpp"

namespace likelihet::cli {
namespace {

struct SeeRequest {
  RecordAsked record;
  colony::AppearanceRecord appearance;
};

Reply run_see(const SeeRequest& asked, const Shell& shell) {
  return record(asked.record, asked.appearance, TellMoves::yes, shell);
}

}  // namespace

void add_appearance(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<SeeRequest>();
  CLI::App& command =
      new_command(program, line, "appearance",
                  "Record what an animal looks like; shows whose chances it moved.",
                  "  likelihet appearance demo.book F01 tarnbrook plain --on 2024-01-10\n");
  add_book(command, asked->record.book);
  add_word(command, "ANIMAL", asked->appearance.animal, "the animal's id");
  add_word(command, "LOCUS", asked->appearance.locus, "the locus's id");
  add_word(command, "APPEARANCE", asked->appearance.shows, "what it shows");
  add_record_options(command, line, asked->record);
  on_chosen(command, line, asked, run_see);
}

}  // namespace likelihet::cli
