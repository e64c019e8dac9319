// The accounts behind a sheet.
#include <likelihet/audit/markerless.hpp>
#include <likelihet/odds/scenario.hpp>
#include <likelihet/publishing/sheet.hpp>

namespace likelihet::publishing {

std::variant<std::vector<Evidence>, odds::Contradiction, odds::TooLarge> evidence_of(
    const Ground& ground, const Listing& listing) {
  const odds::Scenario all = odds::scenario(*ground.colony, ground.as_of);
  const odds::Scenario bare = audit::without_scores(all);
  std::vector<Evidence> out;
  for (std::size_t s = 0; s < listing.statements.size(); ++s) {
    const Statement& statement = listing.statements[s];
    if (statement.label == Label::none || statement.label == Label::visual) continue;
    const odds::Question question{listing.animal, statement.locus, statement.allele};
    auto account =
        odds::why(statement.basis == Basis::markers ? all : bare, question, ground.memory_bytes);
    if (auto* clash = std::get_if<odds::Contradiction>(&account)) return std::move(*clash);
    if (auto* large = std::get_if<odds::TooLarge>(&account)) return std::move(*large);
    out.push_back({s, std::move(std::get<odds::Account>(account))});
  }
  return out;
}

}  // namespace likelihet::publishing
