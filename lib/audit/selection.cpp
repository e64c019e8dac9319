// Tested against untested, by what their markers said.
#include <algorithm>
#include <cmath>
#include <set>

#include <likelihet/audit/learned_mode.hpp>
#include <likelihet/audit/roc.hpp>
#include <likelihet/audit/selection.hpp>
#include <likelihet/genetics/copies.hpp>

namespace likelihet::audit {

namespace {

constexpr std::size_t enough = 5;

// P(one copy) of each event up to a layer.
std::vector<double> layer_odds(const odds::Prepared& prepared, const colony::Model& model,
                               const odds::Tables& tables, odds::Layer layer,
                               const std::vector<Event>& events) {
  std::vector<double> out;
  const auto beliefs = inference::infer(*prepared.plan, prepared.net.values(layer, tables));
  if (!beliefs.possible) return out;
  for (const Event& event : events) {
    const auto odds = odds::genotype_odds(prepared, beliefs, event.animal, event.locus);
    out.push_back(genetics::copy_chances(model.loci()[event.locus], odds, event.allele).one);
  }
  return out;
}

// What markers multiplied the odds by, as a number in [0, 1]: factor / (1 + factor).
double loudness(double pedigree, double scored) {
  constexpr double least = 1e-12;
  const auto odds = [&](double p) {
    const double q = std::clamp(p, least, 1 - least);
    return q / (1 - q);
  };
  const double factor = odds(scored) / odds(pedigree);
  return factor / (1 + factor);
}

Selection selection_of(std::size_t locus, std::uint16_t allele,
                       const std::vector<std::pair<double, bool>>& animals) {
  Selection out;
  out.locus = locus;
  out.allele = allele;
  std::vector<Case> cases;
  for (std::size_t i = 0; i < animals.size(); ++i) {
    const auto& [loud, tested] = animals[i];
    ++(tested ? out.tested : out.untested);
    out.low_score_tested += tested && loud < 0.5 ? 1 : 0;
    cases.push_back({loud, tested ? 1.0 : 0.0, i});
  }
  if (const auto found = auc(cases)) out.louder = Estimate{found->value, found->interval};
  if (out.tested < enough || out.untested < enough || !out.louder) return out;
  out.verdict = out.louder->interval.low > 0.5 ? Selected::looks_selected : Selected::looks_random;
  return out;
}

}  // namespace

std::variant<std::vector<Selection>, odds::TooLarge> selections(const colony::Colony& colony,
                                                                const MarkerBackground& background,
                                                                const TruthSettings& settings) {
  const colony::Model& model = colony.model();
  const odds::Scenario whole = odds::scenario(colony, settings.as_of);
  auto learned = learned_mode(whole, first_start(model), settings.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&learned)) return std::move(*large);
  const auto& mode = std::get<std::optional<odds::Tables>>(learned);
  std::vector<Selection> out;
  if (!mode) return out;
  auto made = odds::prepare(whole, odds::believed(model), settings.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
  std::set<std::size_t> read;
  for (const MarkerReadings& readings : background.readings) {
    for (const LevelRead& one : readings.by_animal) read.insert(one.animal);
  }
  std::set<std::pair<std::size_t, std::size_t>> tested;  // by locus and animal
  for (const colony::Observation* observation : whole.observations) {
    const auto* result = std::get_if<colony::Result>(&observation->what);
    if (result != nullptr) tested.emplace(model.assays()[result->assay].locus, result->animal);
  }
  for (std::size_t locus = 0; locus < model.loci().size(); ++locus) {
    const bool can_test = std::any_of(model.assays().begin(), model.assays().end(),
                                      [&](const auto& assay) { return assay.locus == locus; });
    if (!can_test) continue;
    const auto alleles = static_cast<std::uint16_t>(model.loci()[locus].alleles().size());
    for (std::uint16_t a = 1; a < alleles; ++a) {
      std::vector<Event> events;
      events.reserve(read.size());
      for (std::size_t animal : read) {
        if (background.markerless.of(animal, locus, a).two <= 0.5)
          events.push_back({animal, locus, a});
      }
      const auto pedigree = layer_odds(prepared, model, *mode, odds::Layer::pedigree, events);
      const auto scored = layer_odds(prepared, model, *mode, odds::Layer::scored, events);
      if (pedigree.size() != events.size() || scored.size() != events.size()) continue;
      std::vector<std::pair<double, bool>> animals;
      for (std::size_t i = 0; i < events.size(); ++i) {
        // Certain by descent: nobody would test it.
        if (pedigree[i] < 1e-9 || pedigree[i] > 1 - 1e-9) continue;
        animals.emplace_back(loudness(pedigree[i], scored[i]),
                             tested.contains({locus, events[i].animal}));
      }
      out.push_back(selection_of(locus, a, animals));
    }
  }
  return out;
}

}  // namespace likelihet::audit
