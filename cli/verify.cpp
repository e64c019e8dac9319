// likelihet verify: whether a claim is what the evidence gave, and whether it still stands.
#include <algorithm>

#include "claims_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "open_book.hpp"
#include "printable.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <likelihet/colony/nearest.hpp>
#include <likelihet/publishing/verification.hpp>

namespace likelihet::cli {
namespace {

struct VerifyRequest {
  std::string code;
  std::string book;
  ComputationAsked computation;
};

book::ClaimRecord claim_with_code(const book::Book& book, const std::string& typed) {
  const auto claims = book.claims();
  const auto code = publishing::code_from(typed);
  std::vector<std::string> known;
  for (const auto& claim : claims) {
    if (claim.code == code || claim.code == typed) return claim;
    known.push_back(claim.code);
  }
  throw Failure(ExitStatus::input, "command line, code", "the book has no claim '" + typed + "'",
                colony::suggestion(typed, known));
}

publishing::EvidenceThen evidence_then(const book::Book& book, const book::ClaimRecord& claim) {
  publishing::EvidenceThen then;
  then.evidence = book.evidence(claim.entries);
  if (claim.tables) then.tables = book.counted_tables(*claim.tables);
  for (const auto& entry : book.ledger()) {
    if (entry.what == "claim published" && entry.id == claim.code) then.published = entry.at;
  }
  return then;
}

std::string text_of(const book::ClaimRecord& claim, const publishing::Verification& found,
                    const ClaimNow* now, const Terminal& terminal) {
  const auto line = [&](bool holds, const std::string& what) {
    return fmt::format("  {}  {}\n", holds ? "yes" : "NO ", what);
  };
  std::string out =
      terminal.heading(printable(
          fmt::format("{}: {}, published {}", claim.code, claim.animal, claim.at.text()))) +
      "\n" + line(found.code, "the claim is as it was published") +
      line(found.evidence, "the evidence is as it was (SHA-256 " + claim.evidence + ")") +
      line(found.derived, "the same numbers come out of it again");
  if (!found.holds()) {
    return out +
           terminal.warning(wrapped("It does not hold: " + printable(found.what, 2000) + ".",
                                    terminal.width(), 0)) +
           "\n";
  }
  out += "\n" + claims_text({*now}, terminal);
  return out;
}

nlohmann::ordered_json verification_json(const book::ClaimRecord& claim,
                                         const publishing::Verification& found,
                                         const ClaimNow* now) {
  nlohmann::ordered_json state;
  if (now != nullptr) state = word_of(*now);
  return {{"format", "likelihet-verification"},
          {"version", 1},
          {"code", claim.code},
          {"animal", claim.animal},
          {"published", claim.at.text()},
          {"evidence", claim.evidence},
          {"claim_as_published", found.code},
          {"evidence_as_it_was", found.evidence},
          {"derived_again", found.derived},
          {"holds", found.holds()},
          {"what", found.what},
          {"state", state}};
}

Failure fails(const book::ClaimRecord& claim, const publishing::Verification& found,
              const ClaimNow* now) {
  if (!found.holds()) {
    return {ExitStatus::failed, "claim " + claim.code, "it does not hold: " + found.what,
            "do not rely on it; ask the keeper for the book as it was"};
  }
  const std::string word = word_of(*now);
  return {ExitStatus::failed, "claim " + claim.code,
          "it held when it was published, and is " + word + " now",
          word == "not checked" ? "run 'likelihet learn', then verify again"
                                : "go by what the book says now: 'likelihet claims --all'"};
}

Reply run_verify(const VerifyRequest& asked, const Shell& shell) {
  const auto book = open_book(asked.book);
  const book::ClaimRecord claim = claim_with_code(book, asked.code);
  auto outcome = publishing::verify(claim, evidence_then(book, claim), asked.computation.memory);
  if (auto* large = std::get_if<odds::TooLarge>(&outcome)) throw failure_of(*large);
  const auto& found = std::get<publishing::Verification>(outcome);
  std::vector<ClaimNow> now;
  if (found.holds()) {
    const BookGround state(book.snapshot(), asked.computation.options());
    now = claims_now(state, {animal_named(state.colony(), claim.animal)});
    std::erase_if(now, [&](const ClaimNow& one) { return one.record.code != claim.code; });
  }
  const ClaimNow* today = now.empty() ? nullptr : &now.front();
  Reply reply{shell.json ? verification_json(claim, found, today).dump(2) + "\n"
                         : text_of(claim, found, today, shell.terminal()),
              {}};
  if (!found.holds() || !today->current()) reply.failure = fails(claim, found, today);
  return reply;
}

}  // namespace

void add_verify(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<VerifyRequest>();
  CLI::App& command =
      new_command(program, line, "verify", "Derive a claim again from the evidence as it was.",
                  "  likelihet verify demo.book 7K3Q-9D2M-XP4T-A8WZ\n");
  add_book(command, asked->book);
  add_word(command, "CODE", asked->code, "the claim's code; letter case and dashes do not matter");
  add_memory(command, asked->computation.memory);
  add_json(command, line);
  on_chosen(command, line, asked, run_verify);
}

}  // namespace likelihet::cli
