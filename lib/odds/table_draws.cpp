// Sets of tables as sets of numbers.
#include <optional>

#include <likelihet/odds/renewal.hpp>
#include <likelihet/odds/table_draws.hpp>

namespace likelihet::odds {

void run_draws(const Prepared& prepared, const colony::Model& model, Layer layer,
               const DrawTargets& targets, std::size_t draws, std::size_t memory_bytes,
               const std::function<const Tables&()>& next, const StepVisitor& step,
               const TargetVisitor& visit) {
  NumberSets sets;
  sets.values = prepared.net.values(layer, believed(model));
  // Only one of them is asked, and eight sets take eight times the memory.
  std::optional<Renewal<double>> one;
  sets.write = [&](std::vector<double>& values) {
    if (!one) one.emplace(prepared.net, layer);
    one->take(next());
    one->write(layer, values);
  };
  std::optional<Renewal<DrawLanes>> several;
  sets.write_lanes = [&](std::size_t count, std::vector<DrawLanes>& values) {
    if (!several) several.emplace(prepared.net, layer);
    for (std::size_t k = 0; k < count; ++k) several->take(next(), k);
    several->write(layer, values);
  };
  sets.instead = inference::infer(*prepared.plan, sets.values);
  run_sets(prepared, model, targets.list, std::move(sets), draws, memory_bytes, step, visit);
}

}  // namespace likelihet::odds
