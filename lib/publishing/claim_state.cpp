// Then against now.
#include <algorithm>
#include <set>

#include "records_named.hpp"
#include <fmt/format.h>

#include <likelihet/colony/counting.hpp>
#include <likelihet/publishing/claim_state.hpp>
#include <likelihet/publishing/rounding.hpp>

namespace likelihet::publishing {
namespace {

/// Ids of the observations that count.
std::set<std::string> counting_ids(const colony::Colony& colony,
                                   const std::optional<colony::Date>& as_of) {
  std::set<std::string> ids;
  for (const std::size_t o : colony::counting(colony, as_of)) {
    ids.insert(colony.observations()[o].id);
  }
  return ids;
}

const Statement* statement_of(const ClaimedNumber& number, const colony::Colony& colony,
                              const Listing& now) {
  const auto found =
      std::find_if(now.statements.begin(), now.statements.end(), [&](const Statement& statement) {
        const genetics::Locus& locus = colony.model().loci()[statement.locus];
        return locus.id() == number.locus && locus.alleles()[statement.allele] == number.allele;
      });
  return found == now.statements.end() ? nullptr : &*found;
}

/// A label that is certain lapses as soon as it is not.
ClaimState certain_state(const ClaimedNumber& then, const Statement& now) {
  const bool one = now.markerless >= 1 - rounding_error;
  switch (then.label) {
    case Label::visual:
      return now.label == Label::visual ? ClaimState::current : ClaimState::basis_withdrawn;
    case Label::none:
      return now.markerless <= rounding_error ? ClaimState::current : ClaimState::too_low;
    case Label::proven:
      if (one && now.label != Label::proven) return ClaimState::basis_withdrawn;
      break;
    case Label::certain:
    case Label::possible:
      break;
  }
  return one ? ClaimState::current : ClaimState::too_high;
}

ClaimState possible_state(const ClaimedNumber& then, const Statement& now, double value) {
  const Published& said = then.published;
  if (value < said.low - rounding_error) return ClaimState::too_high;
  if (then.basis != Basis::markers && now.marked && now.published.high < said.low) {
    return ClaimState::too_high;
  }
  const bool certain = value >= 1 - rounding_error || value <= rounding_error;
  if (certain || value >= said.high + said.step - rounding_error) return ClaimState::too_low;
  return ClaimState::current;
}

NumberState state_of(const ClaimedNumber& then, const Statement& now, bool learned) {
  NumberState out;
  out.now = now.headline;
  const bool by_markers = then.basis == Basis::markers;
  out.value = by_markers && now.marked ? now.marked->mean : now.markerless;
  const bool settled = now.label != Label::possible;
  if (by_markers && !now.marked && !settled) {
    out.state = learned ? ClaimState::basis_withdrawn : ClaimState::not_learned;
    return out;
  }
  out.state = then.label == Label::possible ? possible_state(then, now, out.value)
                                            : certain_state(then, now);
  return out;
}

}  // namespace

std::vector<NumberState> states_of(const Claim& claim, const colony::Colony& colony,
                                   const Listing& now, bool learned) {
  const std::set<std::string> counting = counting_ids(colony, now.as_of);
  std::vector<NumberState> out;
  for (std::size_t n = 0; n < claim.numbers.size(); ++n) {
    const ClaimedNumber& then = claim.numbers[n];
    const Statement* statement = statement_of(then, colony, now);
    NumberState state;
    if (statement == nullptr) {
      state.state = ClaimState::basis_withdrawn;
      state.now = "the model no longer has " + then.allele + " of " + then.locus;
    } else {
      state = state_of(then, *statement, learned);
    }
    state.number = n;
    for (const std::string& id : then.rests_on) {
      if (counting.contains(id)) continue;
      state.withdrawn.push_back(id);
      const auto record = colony.find_observation(id);
      state.taken_back.push_back(record ? record_named(colony, *record) : "a record");
    }
    if (state.state == ClaimState::current && !state.withdrawn.empty()) {
      state.state = ClaimState::basis_withdrawn;
    }
    out.push_back(std::move(state));
  }
  return out;
}

bool all_current(const std::vector<NumberState>& numbers) {
  return std::all_of(numbers.begin(), numbers.end(),
                     [](const NumberState& number) { return number.state == ClaimState::current; });
}

bool out_of_date(const std::vector<NumberState>& numbers) {
  return std::any_of(numbers.begin(), numbers.end(), [](const NumberState& number) {
    return number.state != ClaimState::current && number.state != ClaimState::not_learned;
  });
}

std::string_view word_of(ClaimState state) {
  switch (state) {
    case ClaimState::current:
      return "current";
    case ClaimState::too_high:
      return "too-high";
    case ClaimState::too_low:
      return "too-low";
    case ClaimState::basis_withdrawn:
      return "basis-withdrawn";
    case ClaimState::not_learned:
      return "not-learned";
  }
  return {};
}

}  // namespace likelihet::publishing
