// Claims against what the book says today.
#include <algorithm>

#include "claims_output.hpp"
#include "computation.hpp"

namespace likelihet::cli {
namespace {

ClaimNow as_it_is_now(const book::ClaimRecord& record) {
  auto claim = publishing::read_claim(record.document);
  if (!claim) {
    throw Failure(ExitStatus::input, "book: claim " + record.code,
                  "its text is not as it was published",
                  "see 'likelihet check'; work on from a copy made before");
  }
  return {record, std::move(*claim), {}};
}

bool asked_for(const colony::Colony& colony, const std::vector<std::size_t>& animals,
               const std::string& animal) {
  return animals.empty() || std::any_of(animals.begin(), animals.end(), [&](std::size_t a) {
           return colony.animals()[a].id == animal;
         });
}

}  // namespace

std::vector<ClaimNow> claims_now(const BookGround& state, const std::vector<std::size_t>& animals) {
  const colony::Colony& colony = state.colony();
  std::vector<ClaimNow> out;
  std::vector<std::size_t> standing;  // positions in `out`
  std::vector<std::size_t> listed;    // their animals
  for (const book::ClaimRecord& record : state.book().claims) {
    if (!asked_for(colony, animals, record.animal)) continue;
    out.push_back(as_it_is_now(record));
    if (record.end) continue;
    standing.push_back(out.size() - 1);
    listed.push_back(animal_named(colony, record.animal));
  }
  if (standing.empty()) return out;
  const auto now = value_or_fail(colony, publishing::listings(state.ground(), listed));
  for (std::size_t i = 0; i < standing.size(); ++i) {
    ClaimNow& claim = out[standing[i]];
    claim.states = publishing::states_of(claim.claim, colony, now[i], state.learned());
  }
  return out;
}

void refuse_out_of_date(const std::vector<ClaimNow>& claims) {
  colony::Faults faults;
  for (const ClaimNow& claim : claims) {
    if (!claim.out_of_date()) continue;
    for (const auto& state : claim.states) {
      if (state.state == publishing::ClaimState::current) continue;
      faults.push_back(
          {"claim " + claim.record.code,
           "it is out of date, later evidence moved the number: " + claim.claim.animal +
               " was published as \"" + claim.claim.numbers[state.number].headline +
               "\" and is now \"" + state.now + "\"",
           "'likelihet publish' publishes it anew, with the correction to send; "
           "'likelihet withdraw' takes it back"});
    }
  }
  if (!faults.empty()) throw Failure(ExitStatus::failed, std::move(faults));
}

std::optional<std::string> standing_code(const std::vector<ClaimNow>& claims,
                                         const std::string& animal) {
  for (const ClaimNow& claim : claims) {
    if (claim.record.animal == animal && claim.current()) return claim.record.code;
  }
  return std::nullopt;
}

std::string word_of(const ClaimNow& claim) {
  if (claim.record.end) return claim.record.end->replaced_by ? "replaced" : "withdrawn";
  if (claim.out_of_date()) return "out of date";
  return claim.current() ? "current" : "not checked";
}

}  // namespace likelihet::cli
