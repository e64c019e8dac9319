// likelihet claims: what was published, and what later evidence made out of date.
#include <algorithm>

#include "claims_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "open_book.hpp"

namespace likelihet::cli {
namespace {

struct ClaimsRequest {
  std::string book;
  std::optional<std::string> animal;
  bool all = false;
  ComputationAsked computation;
};

Reply run_claims(const ClaimsRequest& asked, const Shell& shell) {
  const BookGround state(open_book(asked.book).snapshot(), asked.computation.options());
  std::vector<std::size_t> animals;
  if (asked.animal) animals.push_back(animal_named(state.colony(), *asked.animal));
  auto claims = claims_now(state, animals);
  if (!asked.all) std::erase_if(claims, [](const ClaimNow& claim) { return !!claim.record.end; });
  if (shell.json) return {claims_json(claims), {}};
  if (claims.empty()) return {"no claim is current\n", {}};
  return {claims_text(claims, shell.terminal()), {}};
}

}  // namespace

void add_claims(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ClaimsRequest>();
  CLI::App& command = new_command(program, line, "claims",
                                  "Show what was published, what is out of date, and what to send.",
                                  "  likelihet claims demo.book\n"
                                  "  likelihet claims demo.book --animal H0301 --all\n");
  add_book(command, asked->book);
  add_text(command, "--animal", asked->animal, "of this animal alone");
  add_flag(command, "--all", asked->all, "also those that were withdrawn or replaced");
  add_memory(command, asked->computation.memory);
  add_json(command, line);
  on_chosen(command, line, asked, run_claims);
}

}  // namespace likelihet::cli
