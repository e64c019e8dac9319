// Genotypes drawn or believed, by term and cell.
#include <algorithm>

#include <likelihet/learning/scored_cells.hpp>

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

ScoredCells::ScoredCells(const odds::Prepared& prepared) : prepared_(&prepared) {
  const odds::ColonyNetwork& net = prepared.net;
  for (const auto& scored : net.scored()) terms_.push_back(scored.term);
  std::sort(terms_.begin(), terms_.end());
  terms_.erase(std::unique(terms_.begin(), terms_.end()), terms_.end());
  begin_.push_back(0);
  for (std::uint32_t t : terms_) {
    const auto cells = net.term(t).scores.front().row_of.size();
    begin_.push_back(begin_.back() + static_cast<std::uint32_t>(cells));
  }
  for (std::uint32_t s = 0; s < net.scored().size(); ++s) {
    const auto& scored = net.scored()[s];
    const auto term = std::lower_bound(terms_.begin(), terms_.end(), scored.term);
    const std::uint32_t begin = begin_[static_cast<std::size_t>(term - terms_.begin())];
    if (scored.loci.size() != 1) {
      tied_.push_back({s, begin});
      continue;
    }
    const odds::Node& node = net.node(scored.animal, scored.loci.front());
    (node.leaf ? leaves_ : variables_).push_back({node.id, begin});
  }
  std::stable_sort(variables_.begin(), variables_.end(),
                   [](const Alone& a, const Alone& b) { return a.id < b.id; });
}

void ScoredCells::count(const inference::Draw& genotypes,
                        std::vector<std::uint32_t>& animals) const {
  animals.assign(begin_.back(), 0);
  for (const Alone& one : leaves_) ++animals[one.begin + genotypes.leaves[one.id]];
  for (const Alone& one : variables_) ++animals[one.begin + genotypes.variables[one.id]];
  for (const Tied& one : tied_) {
    const auto& scored = prepared_->net.scored()[one.scored];
    ++animals[one.begin + cell_of(prepared_->net, scored, genotypes)];
  }
}

template <class Number>
void ScoredCells::believe(const inference::Pass<Number>& pass, std::vector<double>& animals) const {
  animals.assign(begin_.back(), 0.0);
  const auto add = [&](std::size_t begin, std::span<const Number> belief) {
    for (std::size_t g = 0; g < belief.size(); ++g) {
      animals[begin + g] += inference::as_double(belief[g]);
    }
  };
  const auto& run_of = prepared_->plan->leaves().run_of;
  for (const Alone& one : leaves_) add(one.begin, pass.run_posterior(run_of[one.id]));
  const auto& network = prepared_->net.network();
  std::vector<Number> belief;
  for (std::size_t i = 0; i < variables_.size(); ++i) {
    const auto v = variables_[i].id;
    if (i == 0 || v != variables_[i - 1].id) {
      belief.assign(network.states(v), Number{});
      pass.marginal(v, belief);
    }
    add(variables_[i].begin, belief);
  }
  for (const Tied& one : tied_) {
    const auto& scored = prepared_->net.scored()[one.scored];
    belief.assign(1, Number(1.0));
    if (scored.tie) {
      belief.assign(network.size(network.factor_table(*scored.tie)), Number{});
      pass.factor_belief(*scored.tie, belief);
    }
    add(one.begin, belief);
  }
}

template void ScoredCells::believe(const inference::Pass<double>&, std::vector<double>&) const;
template void ScoredCells::believe(const inference::Pass<inference::Extended>&,
                                   std::vector<double>&) const;

}  // namespace likelihet::learning
