// The notice for those who were told a number that no longer holds.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <likelihet/publishing/claim_state.hpp>

namespace likelihet::publishing {
namespace {

constexpr std::size_t most_named = 6;

std::string because(const NumberState& number) {
  switch (number.state) {
    case ClaimState::too_high:
      return "Records made since put the chance below what was said.";
    case ClaimState::too_low:
      return "Records made since put the chance above what was said.";
    case ClaimState::basis_withdrawn:
      return "What it was based on no longer holds.";
    case ClaimState::current:
    case ClaimState::not_learned:
      break;
  }
  return {};
}

std::string taken_back(const std::vector<std::string>& records) {
  if (records.empty()) return {};
  const std::vector<std::string> shown(
      records.begin(),
      records.begin() + static_cast<std::ptrdiff_t>(std::min(records.size(), most_named)));
  const std::string more =
      records.size() > most_named ? fmt::format(" and {} more", records.size() - most_named) : "";
  return fmt::format(" Taken back since: {}{}.", fmt::join(shown, ", "), more);
}

}  // namespace

std::vector<std::string> correction(const Claim& claim, const std::string& code,
                                    const std::vector<NumberState>& numbers) {
  std::vector<std::string> out;
  for (const NumberState& number : numbers) {
    if (number.state == ClaimState::current || number.state == ClaimState::not_learned) continue;
    out.push_back(
        fmt::format("{}, published {} as {}: it was said to be \"{}\" ({}). {} It is now "
                    "\"{}\".{}",
                    claim.animal, claim.day.text(), code, claim.numbers[number.number].headline,
                    claim.numbers[number.number].reason, because(number), number.now,
                    taken_back(number.taken_back)));
  }
  if (out.empty()) return out;
  out.emplace_back(
      "Tell everyone who was told the old number, buyers first, and change each listing that "
      "quotes "
      "it. What you owe a buyer whose purchase rested on it is for consumer law to say.");
  return out;
}

}  // namespace likelihet::publishing
