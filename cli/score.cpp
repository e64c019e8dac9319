// likelihet score: records one reading of one marker. It tells no odds, so that the next reading is
// not coloured by them.
#include "commands.hpp"
#include "record.hpp"
namespace likelihet::cli {
namespace {

struct ScoreRequest {
  RecordAsked record;
  colony::ScoreRecord score;
  bool blind = false;
};

Reply run_score(const ScoreRequest& asked, const Shell& shell) {
  colony::ScoreRecord score = asked.score;
  if (!score.level && !score.reason) {
    throw Failure(ExitStatus::usage, "command line", "LEVEL is missing",
                  "say the level that was seen, or --not-scorable and why");
  }
  if (asked.blind) score.blind = true;
  return record(asked.record, score, TellMoves::no, shell);
}

}  // namespace

void add_score(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ScoreRequest>();
  auto& score = asked->score;
  CLI::App& command = new_command(
      program, line, "score", "Record the score of a marker on an animal.",
      "  likelihet score demo.book H0301 crown-fleck strong --scorer ana --blind --on 2024-06-11\n"
      "  likelihet score demo.book H0302 crown-fleck --not-scorable \"stuck shed\"\n");
  add_book(command, asked->record.book);
  add_word(command, "ANIMAL", score.animal, "the animal's id");
  add_word(command, "MARKER", score.marker, "the marker's id");
  auto* level = add_last_word(command, "LEVEL", score.level, "the level that was seen");
  auto* not_scorable = add_text(command, "--not-scorable", score.reason,
                                "it could not be scored, and why: no evidence either way");
  exclude(not_scorable, level);
  add_text(command, "--scorer", score.scorer, "who scored it");
  add_probability(command, "--sure", score.sure,
                  "chance that the level scored is the level there; not given = the scorer's own");
  add_flag(command, "--blind", asked->blind,
           "the scorer knew neither parents nor chances nor others' scores");
  add_record_options(command, line, asked->record);
  on_chosen(command, line, asked, run_score);
}

}  // namespace likelihet::cli
