// Terms into slots, one set of numbers or several.
#include <algorithm>

#include <likelihet/odds/renewal.hpp>

namespace likelihet::odds {

namespace {

double& in_lane(double& number, std::size_t /*lane*/) {
  return number;
}
template <std::size_t width>
double& in_lane(inference::Lanes<width>& number, std::size_t lane) {
  return number.lane[lane];
}

}  // namespace

template <class Number>
Renewal<Number>::Renewal(const ColonyNetwork& net, Layer last)
    : net_(&net), term_numbers_(net.model(), net.strengths()), begin_(net.terms().size(), 0) {
  std::size_t size = 0;
  for (std::uint32_t t = 0; t < begin_.size(); ++t) {
    const Term& term = net.term(t);
    if (!term.fixed.empty() || term.layer > last) continue;
    open_.push_back(t);
    begin_[t] = size;
    size += term.founder ? net.model().loci()[term.founder->locus].size()
                         : term.scores.front().row_of.size();
  }
  numbers_.assign(size, Number(1.0));
}

template <class Number>
void Renewal<Number>::take(const Tables& tables, std::size_t lane) {
  term_numbers_.at(tables);
  for (std::uint32_t t : open_) {
    const auto of = term_numbers_.of(net_->term(t));
    Number* out = &numbers_[begin_[t]];
    for (std::size_t i = 0; i < of.size(); ++i) in_lane(out[i], lane) = of[i];
  }
}

template <class Number>
void Renewal<Number>::write(const ColonyNetwork::Slot& slot, Layer layer,
                            std::span<Number> values) const {
  const std::size_t size = net_->network().size(slot.table);
  Number* out = &values[net_->network().offset(slot.table)];
  std::fill_n(out, size, Number(1.0));
  for (std::uint32_t t : slot.terms) {
    const Term& term = net_->term(t);
    if (term.layer > layer) continue;
    if (term.fixed.empty()) {
      const Number* of = &numbers_[begin_[t]];
      for (std::size_t i = 0; i < size; ++i) out[i] *= of[i];
    } else {
      for (std::size_t i = 0; i < size; ++i) out[i] *= Number(term.fixed[i]);
    }
  }
}

template <class Number>
void Renewal<Number>::write(Layer layer, std::span<Number> values) const {
  for (const auto& slot : net_->slots()) {
    if (slot.depends) write(slot, layer, values);
  }
}

template <class Number>
void Renewal<Number>::write_all(Layer layer, std::span<Number> values) const {
  for (const auto& slot : net_->slots()) write(slot, layer, values);
}

template class Renewal<double>;
template class Renewal<inference::Lanes<8>>;

}  // namespace likelihet::odds
