// Results and how often such a test errs.
#include "result_shown.hpp"

#include <algorithm>
#include <tuple>

#include "rounding.hpp"
#include <fmt/format.h>

#include <likelihet/odds/evidence_result.hpp>

namespace likelihet::publishing {
namespace {

// By report: P(report | genotype), mix-ups counted in.
using Likelihoods = std::vector<std::vector<double>>;

constexpr double alike = 1e-12;

bool tells_apart(const std::vector<double>& likelihood) {
  const auto [least, most] = std::minmax_element(likelihood.begin(), likelihood.end());
  return *most - *least > alike;
}

}  // namespace

ResultShown result_shown(const colony::Colony& colony, std::size_t observation) {
  const auto& seen = colony.observations()[observation];
  const auto& result = std::get<colony::Result>(seen.what);
  const auto& assay = colony.model().assays()[result.assay];
  ResultShown out;
  out.observation = observation;
  out.locus = assay.locus;
  out.on = seen.on ? seen.on : seen.known;
  out.assay = assay.id;
  out.report = assay.reports[result.report];
  Likelihoods likelihoods;
  for (std::size_t r = 0; r < assay.reports.size(); ++r) {
    likelihoods.push_back(odds::result_likelihood(assay, r));
  }
  const auto& own = likelihoods[result.report];
  out.tells = tells_apart(own);
  if (!out.tells) return out;
  const auto best =
      static_cast<std::size_t>(std::max_element(own.begin(), own.end()) - own.begin());
  for (std::size_t g = 0; g < own.size(); ++g) {
    if (g != best) out.false_report = std::max(out.false_report, own[g]);
  }
  for (std::size_t r = 0; r < likelihoods.size(); ++r) {
    if (r != result.report && tells_apart(likelihoods[r])) out.missed += likelihoods[r][best];
  }
  return out;
}

std::vector<ResultShown> results_of(const odds::Scenario& scenario, std::size_t animal) {
  const auto& all = scenario.colony->observations();
  std::vector<ResultShown> out;
  for (const colony::Observation* observation : scenario.observations) {
    const auto* result = std::get_if<colony::Result>(&observation->what);
    if (result == nullptr || result->animal != animal) continue;
    out.push_back(
        result_shown(*scenario.colony, static_cast<std::size_t>(observation - all.data())));
  }
  std::sort(out.begin(), out.end(), [&](const ResultShown& a, const ResultShown& b) {
    return std::tie(a.on, all[a.observation].id) < std::tie(b.on, all[b.observation].id);
  });
  return out;
}

std::string in_words(const colony::Colony& colony, const ResultShown& result) {
  const std::string day = result.on ? " on " + result.on->text() : std::string();
  const std::string& locus = colony.model().loci()[result.locus].id();
  std::string out =
      fmt::format("{} for {} came back {}{}.", result.assay, locus, result.report, day);
  if (!result.tells) return out + " Such a result tells nothing of the animal.";
  return out +
         fmt::format(
             " By its model, up to {} of animals of another genotype get this result, mixed-up "
             "samples counted in, and {} of those it is for get another. It sees one variant "
             "only: what another variant does, it cannot tell.",
             error_in_percent(result.false_report), error_in_percent(result.missed));
}

}  // namespace likelihet::publishing
