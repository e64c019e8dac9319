// From joint genotypes of a pair to chances of its offspring.
#include <algorithm>
#include <map>
#include <tuple>

#include <likelihet/planning/pair_cells.hpp>

namespace likelihet::planning {

namespace {

void renormalise(std::vector<PairCell>& cells) {
  double sum = 0;
  for (const PairCell& cell : cells) sum += cell.weight;
  for (PairCell& cell : cells) cell.weight /= sum;
}

}  // namespace

Wanted wanted_genotype(const colony::Model& model, std::size_t locus, std::size_t genotype) {
  Wanted out{locus, std::vector<double>(model.loci()[locus].size(), 0.0)};
  out.of_genotype[genotype] = 1;
  return out;
}

Wanted wanted_appearance(const colony::Model& model, std::size_t locus, std::size_t appearance) {
  Wanted out{locus, {}};
  for (std::size_t g = 0; g < model.loci()[locus].size(); ++g) {
    out.of_genotype.push_back(model.loci()[locus].shows(g, appearance));
  }
  return out;
}

PairChances::PairChances(const colony::Model& model, Wanted wanted)
    : wanted_(std::move(wanted)), loci_(together_with(model.loci(), wanted_.locus)) {
  for (std::size_t l : loci_) offspring_.emplace_back(model.loci()[l]);
}

std::optional<double> PairChances::chance(std::span<const std::uint32_t> parents) const {
  double wanted = 0, alive = 0;
  for (const genetics::Sex sex : both_sexes) {
    double others = 1;
    for (std::size_t k = 1; k < offspring_.size(); ++k) {
      others *= offspring_[k].alive(parents[2 * k], parents[2 * k + 1], sex);
    }
    alive += others * offspring_.front().alive(parents[0], parents[1], sex);
    for (std::size_t g = 0; g < wanted_.of_genotype.size(); ++g) {
      if (wanted_.of_genotype[g] == 0) continue;
      wanted += others * offspring_.front().weight(parents[0], parents[1], sex, g) *
                wanted_.of_genotype[g];
    }
  }
  if (!(alive > 0)) return std::nullopt;
  return std::min(wanted / alive, 1.0);
}

std::variant<std::vector<PairCell>, odds::TooLarge> PairChances::cells(
    odds::JointBeliefs& beliefs, std::span<const std::size_t> dam,
    std::span<const std::size_t> sire, std::span<const odds::Tables* const> tables) const {
  std::vector<std::size_t> held;
  for (std::size_t k = 0; k < loci_.size(); ++k) held.insert(held.end(), {dam[k], sire[k]});
  std::map<std::tuple<std::size_t, std::size_t, double>, double> weights;
  const std::size_t runs = std::max<std::size_t>(tables.size(), 1);
  for (std::size_t t = 0; t < runs; ++t) {
    if (!tables.empty()) beliefs.take(*tables[t]);
    auto made = beliefs.joint(held);
    if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
    const auto& joint = std::get<odds::JointTable>(made);
    for (std::size_t c = 0; c < joint.cells(); ++c) {
      const auto cell = joint.cell(c);
      if (const auto p = chance(cell)) {
        weights[{cell[0], cell[1], *p}] += joint.probability[c] / static_cast<double>(runs);
      }
    }
  }
  std::vector<PairCell> out;
  out.reserve(weights.size());
  for (const auto& [key, weight] : weights) {
    out.push_back({std::get<0>(key), std::get<1>(key), weight, std::get<2>(key)});
  }
  renormalise(out);
  return out;
}

std::vector<PairCell> PairChances::cells(const std::vector<double>& pair) const {
  const std::size_t size = wanted_.of_genotype.size();
  std::vector<PairCell> out;
  for (std::uint32_t d = 0; d < size; ++d) {
    for (std::uint32_t s = 0; s < size; ++s) {
      const double weight = pair[d * size + s];
      if (!(weight > 0)) continue;
      const std::uint32_t parents[] = {d, s};
      if (const auto p = chance(parents)) out.push_back({d, s, weight, *p});
    }
  }
  renormalise(out);
  return out;
}

ChanceMixture mixture_of(const std::vector<PairCell>& cells) {
  ChanceMixture out;
  for (const PairCell& cell : cells) out.add(cell.chance, cell.weight);
  return out;
}

}  // namespace likelihet::planning
