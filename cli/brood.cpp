// likelihet brood: records offspring that were counted but not recorded as animals.
#include <charconv>
#include <cstdint>
#include <vector>

#include "commands.hpp"
#include "printable.hpp"
#include "record.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

struct BroodRequest {
  RecordAsked record;
  colony::BroodRecord brood;
  std::vector<std::string> counts;
};

/// "plain=7", parted at the last "=".
std::pair<std::string, std::int64_t> count_of(const std::string& text) {
  const auto at = text.rfind('=');
  std::int64_t count = -1;
  if (at != std::string::npos && at + 1 < text.size()) {
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data() + at + 1, end, count);
    if (error != std::errc{} || stop != end) count = -1;
  }
  if (count < 0) {
    throw Failure(ExitStatus::usage, "command line", fmt::format("'{}' is not a count", text),
                  "write an appearance and how many showed it, as in plain=7");
  }
  return {text.substr(0, at), count};
}

Reply run_brood(const BroodRequest& asked, const Shell& shell) {
  colony::BroodRecord brood = asked.brood;
  for (const auto& text : asked.counts) brood.offspring.push_back(count_of(text));
  return record(asked.record, brood, TellMoves::yes, shell);
}

}  // namespace

void add_brood(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<BroodRequest>();
  CLI::App& command = new_command(
      program, line, "brood",
      "Record offspring that were counted but not kept; shows whose chances it moved.",
      "  likelihet brood demo.book M02 tarnbrook e/e plain=7 tarnbrook=0 --on 2025-06-20\n");
  add_book(command, asked->record.book);
  add_word(command, "ANIMAL", asked->brood.animal, "the parent's id");
  add_word(command, "LOCUS", asked->brood.locus, "the locus's id");
  add_word(command, "PARTNER", asked->brood.partner, "the other parent's genotype, such as e/e");
  add_words(command, "COUNT", asked->counts, "an appearance and how many showed it: plain=7");
  add_record_options(command, line, asked->record);
  on_chosen(command, line, asked, run_brood);
}

}  // namespace likelihet::cli
