// Numbers of a colony's network from layers and tables.
#include <algorithm>

#include <likelihet/odds/colony_network.hpp>
#include <likelihet/odds/renewal.hpp>

namespace likelihet::odds {

std::vector<double> ColonyNetwork::reading_of(const Term::Score& score,
                                              const Tables& tables) const {
  std::vector<double> out;
  read_score(*model_, score, tables, out);
  return out;
}

std::vector<double> ColonyNetwork::values(Layer layer, const Tables& tables) const {
  std::vector<double> out = network_.values();
  Renewal<double> renewal(*this, layer);
  renewal.take(tables);
  renewal.write_all(layer, out);
  return out;
}

void ColonyNetwork::suppose(const GenotypePlace& place, std::span<const double> likelihood,
                            std::vector<double>& values) const {
  const auto [begin, end] = supposed(place);
  for (std::size_t i = begin; i < end; ++i) values[i] *= likelihood[i - begin];
}

bool ColonyNetwork::uncertain() const {
  return std::any_of(slots_.begin(), slots_.end(), [](const Slot& s) { return s.depends; });
}

}  // namespace likelihet::odds
