// Counting animals, event by event.
#include <set>

#include <likelihet/audit/flow.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::audit {

namespace {

void count_open_results(const MarkerBackground& background, const std::set<std::size_t>& tested,
                        Flow& flow) {
  for (std::size_t animal : tested) {
    const genetics::CopyChances& copies = background.markerless.of(animal, flow.locus, flow.allele);
    if (copies.one >= background.yes || copies.one <= background.no) continue;
    ++flow.open_after_result;
    flow.open_carriers += copies.one;
  }
}

// By locus, the animals with a result that counts.
std::vector<std::set<std::size_t>> tested_animals(const colony::Colony& colony,
                                                  const std::optional<colony::Date>& as_of) {
  std::vector<std::set<std::size_t>> out(colony.model().loci().size());
  for (const colony::Observation* observation : odds::scenario(colony, as_of).observations) {
    const auto* result = std::get_if<colony::Result>(&observation->what);
    if (result == nullptr) continue;
    out[colony.model().assays()[result->assay].locus].insert(result->animal);
  }
  return out;
}

}  // namespace

std::vector<Flow> flows(const colony::Colony& colony, const Forecasts& forecasts,
                        const MarkerBackground& background,
                        const std::optional<colony::Date>& as_of) {
  const auto tested = tested_animals(colony, as_of);
  std::vector<Flow> out;
  const auto& loci = colony.model().loci();
  for (std::size_t l = 0; l < loci.size(); ++l) {
    const auto alleles = static_cast<std::uint16_t>(loci[l].alleles().size());
    for (std::uint16_t a = 1; a < alleles; ++a) {
      Flow flow;
      flow.locus = l;
      flow.allele = a;
      flow.animals = colony.animals().size();
      for (std::size_t i = 0; i < colony.animals().size(); ++i) {
        flow.hatched += colony.animals()[i].clutch ? 1 : 0;
        flow.scored += forecasts.scored[i] ? 1 : 0;
      }
      std::size_t truths = 0;
      const auto of_this = [&](std::size_t truth) {
        const Event& event = forecasts.truths[truth].event;
        return event.locus == l && event.allele == a;
      };
      for (std::size_t t = 0; t < forecasts.truths.size(); ++t) truths += of_this(t) ? 1 : 0;
      for (const Refused& refused : forecasts.refused) {
        if (refused.scheme != Scheme::as_it_stood || !of_this(refused.truth)) continue;
        ++flow.left_out[static_cast<std::size_t>(refused.why)];
      }
      for (const Forecast& forecast : forecasts.forecasts) {
        if (forecast.scheme != Scheme::as_it_stood || forecast.basis != Basis::scored) continue;
        if (!of_this(forecast.truth)) continue;
        ++flow.forecast;
        ++flow.known[static_cast<std::size_t>(forecasts.truths[forecast.truth].kind)];
      }
      flow.not_known = flow.animals - truths;
      count_open_results(background, tested[l], flow);
      out.push_back(flow);
    }
  }
  return out;
}

}  // namespace likelihet::audit
