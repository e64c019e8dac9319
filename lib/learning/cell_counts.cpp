// Genotypes that were drawn, by term and cell.
#include <algorithm>

#include <likelihet/learning/cell_counts.hpp>

namespace likelihet::learning {

std::size_t cell_of(const odds::ColonyNetwork& net, const odds::ColonyNetwork::Scored& scored,
                    const inference::Draw& genotypes) {
  std::size_t cell = 0;
  for (std::size_t l : scored.loci) {
    const odds::Node& node = net.node(scored.animal, l);
    const auto& states = node.leaf ? genotypes.leaves : genotypes.variables;
    cell = cell * net.model().loci()[l].size() + states[node.id];
  }
  return cell;
}

CellCounts::CellCounts(const odds::ColonyNetwork& net) : net_(&net) {
  for (const auto& scored : net.scored()) {
    if (net.term(scored.term).scores.size() == 1) terms_.push_back(scored.term);
  }
  std::sort(terms_.begin(), terms_.end());
  terms_.erase(std::unique(terms_.begin(), terms_.end()), terms_.end());
  begin_.push_back(0);
  for (std::uint32_t t : terms_) {
    const auto cells = net.term(t).scores.front().row_of.size();
    begin_.push_back(begin_.back() + static_cast<std::uint32_t>(cells));
  }
  animals_.assign(begin_.back(), 0);
  for (std::uint32_t s = 0; s < net.scored().size(); ++s) {
    const auto& scored = net.scored()[s];
    const auto term = std::lower_bound(terms_.begin(), terms_.end(), scored.term);
    if (term == terms_.end() || *term != scored.term) continue;
    const std::uint32_t begin = begin_[static_cast<std::size_t>(term - terms_.begin())];
    if (scored.loci.size() != 1) {
      tied_.push_back({s, begin});
      continue;
    }
    const odds::Node& node = net.node(scored.animal, scored.loci.front());
    (node.leaf ? leaves_ : variables_).push_back({node.id, begin});
  }
}

void CellCounts::count(const inference::Draw& genotypes) {
  std::fill(animals_.begin(), animals_.end(), 0);
  for (const Alone& one : leaves_) ++animals_[one.begin + genotypes.leaves[one.id]];
  for (const Alone& one : variables_) ++animals_[one.begin + genotypes.variables[one.id]];
  for (const Tied& one : tied_) {
    ++animals_[one.begin + cell_of(*net_, net_->scored()[one.scored], genotypes)];
  }
}

}  // namespace likelihet::learning
