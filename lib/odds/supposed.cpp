// Supposed evidence as sets of numbers.
#include <algorithm>
#include <map>
#include <numeric>

#include <likelihet/odds/supposed.hpp>

namespace likelihet::odds {

namespace {

// Disjoint sets (Tarjan 1975, Journal of the ACM 22:215), with halving of paths.
class DisjointSets {
 public:
  explicit DisjointSets(std::size_t size) : parent_(size) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }
  std::size_t find(std::size_t item) {
    while (parent_[item] != item) item = parent_[item] = parent_[parent_[item]];
    return item;
  }
  void join(std::size_t a, std::size_t b) { parent_[find(a)] = find(b); }

 private:
  std::vector<std::size_t> parent_;
};

}  // namespace

void run_supposed(const Prepared& prepared, const colony::Model& model,
                  std::span<const DrawTarget> targets, std::span<const SupposedSet> sets,
                  std::size_t memory_bytes, const StepVisitor& step, const TargetVisitor& visit) {
  NumberSets numbers;
  numbers.values = prepared.net.values(Layer::posterior, believed(model));
  std::map<GenotypePlace, std::pair<std::size_t, std::size_t>> places;
  for (const SupposedSet& set : sets) {
    for (const Supposition& one : set) places.emplace(one.place, prepared.net.supposed(one.place));
  }
  for (const auto& [place, range] : places) numbers.written.push_back(range);
  const std::vector<double> recorded = numbers.values;
  std::size_t next = 0;
  numbers.write = [&](std::vector<double>& values) {
    if (next > 0) {
      for (const Supposition& one : sets[next - 1]) {
        const auto [begin, end] = places.at(one.place);
        for (std::size_t i = begin; i < end; ++i) values[i] = recorded[i];
      }
    }
    for (const Supposition& one : sets[next]) {
      prepared.net.suppose(one.place, one.likelihood, values);
    }
    ++next;
  };
  run_sets(prepared, model, targets, std::move(numbers), sets.size(), memory_bytes, step, visit);
}

std::vector<std::size_t> separate_parts(const ColonyNetwork& net, std::size_t animals,
                                        std::size_t loci) {
  const inference::Network& network = net.network();
  DisjointSets sets(network.variables() + network.leaves());
  for (std::size_t f = 0; f < network.factors(); ++f) {
    const auto scope = network.scope(f);
    for (inference::Variable v : scope) sets.join(v, scope.front());
  }
  for (inference::Leaf l = 0; l < network.leaves(); ++l) {
    for (const inference::Branch& branch : network.branches(l)) {
      sets.join(network.variables() + l, branch.first);
      sets.join(branch.second, branch.first);
      if (branch.guard) sets.join(*branch.guard, branch.first);
    }
  }
  std::map<std::size_t, std::size_t> known;
  std::vector<std::size_t> out;
  for (std::size_t a = 0; a < animals; ++a) {
    for (std::size_t l = 0; l < loci; ++l) {
      const Node& node = net.node(a, l);
      const std::size_t root = sets.find(node.leaf ? network.variables() + node.id : node.id);
      out.push_back(known.try_emplace(root, known.size()).first->second);
    }
  }
  return out;
}

}  // namespace likelihet::odds
