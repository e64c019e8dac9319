// Claims for programs.
#include "claims_output.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/publishing/listing_document.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

ordered_json number_json(const ClaimNow& claim, std::size_t n) {
  const publishing::ClaimedNumber& number = claim.claim.numbers[n];
  ordered_json out = {{"locus", number.locus},
                      {"allele", number.allele},
                      {"label", publishing::word_of(number.label)},
                      {"basis", publishing::word_of(number.basis)},
                      {"low", number.published.low},
                      {"high", number.published.high},
                      {"value", number.value},
                      {"headline", number.headline},
                      {"reason", number.reason},
                      {"rests_on", number.rests_on},
                      {"now", nullptr}};
  if (claim.states.empty()) return out;
  const publishing::NumberState& state = claim.states[n];
  out["now"] = {{"state", publishing::word_of(state.state)},
                {"value", state.value},
                {"headline", state.now},
                {"withdrawn", state.withdrawn}};
  return out;
}

ordered_json end_json(const std::optional<book::ClaimEnd>& end) {
  if (!end) return nullptr;
  return {
      {"at", end->at.text()},
      {"replaced_by", end->replaced_by ? ordered_json(*end->replaced_by) : ordered_json(nullptr)},
      {"why", end->why}};
}

ordered_json claim_json(const ClaimNow& claim) {
  ordered_json out = {
      {"code", claim.record.code},
      {"animal", claim.record.animal},
      {"day", claim.claim.day.text()},
      {"published", claim.record.at.text()},
      {"entries", claim.record.entries},
      {"evidence", claim.record.evidence},
      {"tables", claim.record.tables ? ordered_json(*claim.record.tables) : ordered_json(nullptr)},
      {"state", word_of(claim)},
      {"end", end_json(claim.record.end)},
      {"numbers", ordered_json::array()}};
  for (std::size_t n = 0; n < claim.claim.numbers.size(); ++n) {
    out["numbers"].push_back(number_json(claim, n));
  }
  out["correction"] = claim.to_correct()
                          ? publishing::correction(claim.claim, claim.record.code, claim.states)
                          : std::vector<std::string>{};
  return out;
}

}  // namespace

std::string claims_json(const std::vector<ClaimNow>& claims) {
  ordered_json document = {
      {"format", "likelihet-claims"}, {"version", 1}, {"claims", ordered_json::array()}};
  for (const ClaimNow& claim : claims) document["claims"].push_back(claim_json(claim));
  return document.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace likelihet::cli
