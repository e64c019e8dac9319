// The whole colony's odds.
#include <algorithm>

#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/intervals.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/surprises.hpp>

namespace likelihet::odds {

namespace {

std::vector<double>& at(LocusOdds& odds, Layer layer) {
  if (layer == Layer::pedigree) return odds.pedigree;
  return layer == Layer::scored ? odds.scored : odds.posterior;
}

void read_layer(const Prepared& prepared, const inference::Beliefs& beliefs, Layer layer,
                std::vector<AnimalOdds>& animals) {
  for (std::size_t a = 0; a < animals.size(); ++a) {
    for (std::size_t l = 0; l < animals[a].loci.size(); ++l) {
      at(animals[a].loci[l], layer) = genotype_odds(prepared, beliefs, a, l);
    }
  }
}

}  // namespace

Outcome compute(const colony::Colony& colony, const Options& options) {
  const colony::Model& model = colony.model();
  const Scenario all = scenario(colony, options.as_of);
  const Tables tables = believed(model);
  auto made = prepare(all, tables, options.memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&made)) return std::move(*large);
  const auto& prepared = *std::get<std::unique_ptr<Prepared>>(made);

  ColonyOdds out;
  out.animals.resize(colony.animals().size());
  for (AnimalOdds& animal : out.animals) animal.loci.resize(model.loci().size());
  for (Layer layer : {Layer::pedigree, Layer::scored, Layer::posterior}) {
    const auto beliefs = inference::infer(*prepared.plan, prepared.net.values(layer, tables));
    if (!beliefs.possible) return explain(all, options);
    read_layer(prepared, beliefs, layer, out.animals);
    out.log_evidence = beliefs.log_evidence;
  }
  const bool learned = options.learned != nullptr && !options.learned->empty();
  if (learned) {
    out.log_evidence = average_over(prepared, model, options, out.animals);
  } else {
    set_means(model, out.animals);
    fill_intervals(prepared, model, options, out.animals);
  }
  auto given = log_of_sexes(all, prepared, tables, options.memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&given)) return std::move(*large);
  // Nothing observed is certain to have been observed: exactly 0, not a rounding of it.
  out.log_evidence = all.observations.empty() ? 0.0 : out.log_evidence - std::get<double>(given);

  if (options.surprises) {
    const std::size_t bytes = prepared.plan->whole_size() * sizeof(double);
    out.surprises = find_surprises(all, out, bytes, options);
  }
  return out;
}

}  // namespace likelihet::odds
