// Claims for people.
#include "claims_output.hpp"
#include "printable.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

using publishing::ClaimedNumber;
using publishing::ClaimState;
using publishing::Label;

constexpr std::size_t longest_claim_line = 8000;

std::string line_of(const std::string& text, std::size_t indent, const Terminal& terminal) {
  return std::string(indent, ' ') +
         wrapped(printable(text, longest_claim_line), terminal.width() - indent, indent + 2) + "\n";
}

std::string state_words(ClaimState state, const std::string& now) {
  switch (state) {
    case ClaimState::current:
      return {};
    case ClaimState::too_high:
      return "; too high: now \"" + now + "\"";
    case ClaimState::too_low:
      return "; too low: now \"" + now + "\"";
    case ClaimState::basis_withdrawn:
      return "; what it rested on no longer holds: now \"" + now + "\"";
    case ClaimState::not_learned:
      return "; it counted markers: run 'likelihet learn' to see whether it is current";
  }
  return {};
}

std::string heading_of(const ClaimNow& claim, const Terminal& terminal) {
  const std::string line =
      printable(fmt::format("{}  {}  published {}: {}", claim.record.code, claim.claim.animal,
                            claim.claim.day.text(), word_of(claim)));
  return (claim.out_of_date() ? terminal.warning(line) : terminal.heading(line)) + "\n";
}

std::string end_of(const book::ClaimEnd& end, const Terminal& terminal) {
  std::string text = end.replaced_by ? "replaced by " + *end.replaced_by : std::string("withdrawn");
  text += " on " + end.at.text().substr(0, 10);
  if (!end.why.empty()) text += ": " + end.why;
  return line_of(text, 2, terminal);
}

std::string numbers_of(const ClaimNow& claim, const Terminal& terminal) {
  std::string out;
  for (std::size_t n = 0; n < claim.claim.numbers.size(); ++n) {
    const ClaimedNumber& number = claim.claim.numbers[n];
    const ClaimState state = claim.states.empty() ? ClaimState::current : claim.states[n].state;
    if (number.label == Label::none && state == ClaimState::current) continue;
    out += line_of(
        number.headline + (claim.states.empty() ? "" : state_words(state, claim.states[n].now)), 2,
        terminal);
  }
  return out;
}

}  // namespace

std::string claims_text(const std::vector<ClaimNow>& claims, const Terminal& terminal) {
  std::string out;
  for (const ClaimNow& claim : claims) {
    if (!out.empty()) out += "\n";
    out += heading_of(claim, terminal) + numbers_of(claim, terminal);
    if (claim.record.end) out += end_of(*claim.record.end, terminal);
    if (!claim.to_correct()) continue;
    out += line_of("To send:", 2, terminal);
    for (const std::string& sentence :
         publishing::correction(claim.claim, claim.record.code, claim.states)) {
      out += line_of(sentence, 4, terminal);
    }
  }
  return out;
}

}  // namespace likelihet::cli
