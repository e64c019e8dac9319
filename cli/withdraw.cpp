// likelihet withdraw: takes an observation or a claim back, leaving it in the book.
#include "claims_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "open_book.hpp"
#include "record.hpp"

namespace likelihet::cli {
namespace {

struct WithdrawRequest {
  RecordAsked record;
  colony::WithdrawalRecord withdrawal;
};

/// The claim of this code that stands; nothing where the word names an observation.
std::optional<book::ClaimRecord> claim_named(const book::Snapshot& book, const std::string& word) {
  const auto code = publishing::code_from(word);
  if (!code) return std::nullopt;
  for (const auto& claim : book.claims) {
    if (claim.code != *code) continue;
    if (!claim.end) return claim;
    throw Failure(ExitStatus::input, "command line, claim", "it has ended already",
                  "see 'likelihet claims --all'");
  }
  return std::nullopt;
}

Reply withdraw_claim(book::Book& book, const BookGround& state, const book::ClaimRecord& claim,
                     const WithdrawRequest& asked, const Shell& shell) {
  if (!asked.record.on.empty() || asked.record.id) {
    throw Failure(ExitStatus::usage, "--on, --id", "a claim ends now, under its own code",
                  "leave them out");
  }
  auto before = claims_now(state, {animal_named(state.colony(), claim.animal)});
  std::erase_if(before, [&](const ClaimNow& one) { return one.record.code != claim.code; });
  book::Publication publication;
  publication.entries = state.evidence().entries;
  publication.ends = {{claim.code, book::ClaimEnd{claim.at, {}, asked.withdrawal.why.value()}}};
  const auto then = book.publish(publication);
  if (!then) {
    throw Failure(ExitStatus::failed, "book", "it was changed meanwhile", "withdraw it again");
  }
  shell.has_recorded("the end of claim " + claim.code);
  for (const auto& ended : then->claims) {
    if (ended.code == claim.code) before.front().record = ended;
  }
  before.front().just_ended = true;
  if (shell.json) return {claims_json(before), {}};
  return {claims_text(before, shell.terminal()), {}};
}

Reply run_withdraw(const WithdrawRequest& asked, const Shell& shell) {
  {
    auto book = open_book(asked.record.book);
    book::Snapshot now = book.snapshot();
    if (const auto claim = claim_named(now, asked.withdrawal.of)) {
      const BookGround state(std::move(now), odds::Options{});
      return withdraw_claim(book, state, *claim, asked, shell);
    }
  }
  return record(asked.record, asked.withdrawal, TellMoves::yes, shell);
}

}  // namespace

void add_withdraw(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<WithdrawRequest>();
  CLI::App& command =
      new_command(program, line, "withdraw",
                  "Take an observation or a claim back: it stays in the book and no longer counts.",
                  "  likelihet withdraw demo.book o2 --why \"wrong animal\" --on 2024-07-03\n"
                  "  likelihet withdraw demo.book 7K3Q-9D2M-XP4T-A8WZ --why \"sire in doubt\"\n");
  add_book(command, asked->record.book);
  add_word(command, "WHAT", asked->withdrawal.of, "an observation's id, or a claim's code");
  require(add_text(command, "--why", asked->withdrawal.why, "the reason, for the record"));
  add_record_options(command, line, asked->record);
  on_chosen(command, line, asked, run_withdraw);
}

}  // namespace likelihet::cli
