// Odds of events, with and without markers.
#include <algorithm>

#include <likelihet/audit/markerless.hpp>

namespace likelihet::audit {

namespace {

// Empty where the evidence contradicts itself.
std::vector<genetics::CopyChances> all_copies(const odds::Prepared& prepared,
                                              const colony::Model& model,
                                              const odds::Tables& tables,
                                              const std::vector<Event>& events) {
  std::vector<genetics::CopyChances> out;
  const auto beliefs =
      inference::infer(*prepared.plan, prepared.net.values(odds::Layer::posterior, tables));
  if (!beliefs.possible) return out;
  out.reserve(events.size());
  for (const Event& event : events) {
    out.push_back(genetics::copy_chances(
        model.loci()[event.locus],
        odds::genotype_odds(prepared, beliefs, event.animal, event.locus), event.allele));
  }
  return out;
}

}  // namespace

std::vector<Event> events_of(const colony::Colony& colony) {
  std::vector<Event> out;
  const auto& loci = colony.model().loci();
  for (std::size_t a = 0; a < colony.animals().size(); ++a) {
    for (std::size_t l = 0; l < loci.size(); ++l) {
      const auto alleles = static_cast<std::uint16_t>(loci[l].alleles().size());
      for (std::uint16_t allele = 1; allele < alleles; ++allele) {
        out.push_back({a, l, allele});
      }
    }
  }
  return out;
}

odds::Scenario without_scores(const odds::Scenario& whole) {
  odds::Scenario out = whole;
  std::erase_if(out.observations, [](const colony::Observation* observation) {
    return std::holds_alternative<colony::Score>(observation->what);
  });
  return out;
}

std::variant<std::vector<double>, odds::TooLarge> event_odds(const odds::Scenario& scenario,
                                                             const odds::Tables& tables,
                                                             const std::vector<Event>& events,
                                                             std::size_t memory_bytes) {
  const colony::Model& model = scenario.colony->model();
  auto made = odds::prepare(scenario, odds::believed(model), memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  std::vector<double> out;
  for (const genetics::CopyChances& copies :
       all_copies(*std::get<std::unique_ptr<odds::Prepared>>(made), model, tables, events)) {
    out.push_back(copies.one);
  }
  return out;
}

std::variant<std::vector<genetics::CopyChances>, odds::TooLarge> markerless_copies(
    const odds::Scenario& whole, const std::vector<Event>& events, std::size_t memory_bytes) {
  const colony::Model& model = whole.colony->model();
  const odds::Tables tables = odds::believed(model);
  auto made = odds::prepare(without_scores(whole), tables, memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  return all_copies(*std::get<std::unique_ptr<odds::Prepared>>(made), model, tables, events);
}

}  // namespace likelihet::audit
