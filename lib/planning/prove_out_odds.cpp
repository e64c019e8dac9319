// Non-visual offspring by Bayes' rule.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <likelihet/planning/prove_out.hpp>

namespace likelihet::planning {

ProveOutOdds::ProveOutOdds(std::vector<ProveOutCell> cells) : cells_(std::move(cells)) {
  std::erase_if(cells_, [](const ProveOutCell& cell) { return !(cell.weight > 0); });
  if (cells_.empty()) throw std::invalid_argument("no joint state of the two is possible");
  double sum = 0;
  for (const ProveOutCell& cell : cells_) sum += cell.weight;
  for (ProveOutCell& cell : cells_) cell.weight /= sum;
}

// The smallest power is taken out, so that a thousand offspring do not underflow.
std::pair<double, double> ProveOutOdds::sums(std::size_t n) const {
  double least = 1;
  for (const ProveOutCell& cell : cells_) least = std::min(least, cell.visual);
  std::pair<double, double> out{0, 0};
  for (const ProveOutCell& cell : cells_) {
    double power = 1;
    if (n > 0 && least < 1) {
      power = std::pow((1 - cell.visual) / (1 - least), static_cast<double>(n));
    } else if (n > 0) {
      power = 0;
    }
    out.first += cell.weight * power;
    if (cell.carrier) out.second += cell.weight * power;
  }
  return out;
}

double ProveOutOdds::carrier_after(std::size_t n) const {
  const auto [all, hets] = sums(n);
  return all > 0 ? std::min(hets / all, 1.0) : 0.0;
}

double ProveOutOdds::all_non_visual(std::size_t n) const {
  double sum = 0;
  for (const ProveOutCell& cell : cells_) {
    sum += cell.weight * std::pow(1 - cell.visual, static_cast<double>(n));
  }
  return std::min(sum, 1.0);
}

double ProveOutOdds::detected(std::size_t n) const {
  double hets = 0, shown = 0;
  for (const ProveOutCell& cell : cells_) {
    if (!cell.carrier) continue;
    hets += cell.weight;
    shown += cell.weight * (1 - std::pow(1 - cell.visual, static_cast<double>(n)));
  }
  return hets > 0 ? std::min(shown / hets, 1.0) : 0.0;
}

double ProveOutOdds::visual() const {
  double sum = 0;
  for (const ProveOutCell& cell : cells_) sum += cell.weight * cell.visual;
  return std::min(sum, 1.0);
}

// Only the states least likely to give a visual are left.
double ProveOutOdds::limit() const {
  double least = 1;
  for (const ProveOutCell& cell : cells_) least = std::min(least, cell.visual);
  double all = 0, others = 0;
  for (const ProveOutCell& cell : cells_) {
    // States as good as the best but for rounding keep their weight.
    if (cell.visual > least + 1e-12) continue;
    all += cell.weight;
    if (!cell.carrier) others += cell.weight;
  }
  return others / all;
}

std::optional<std::size_t> ProveOutOdds::needed(double level) const {
  const auto reached = [&](std::size_t n) {
    const auto [all, hets] = sums(n);
    return all > 0 && all - hets >= level * all;
  };
  for (std::size_t n = 0; n <= most_offspring; ++n) {
    if (reached(n)) return n;
    // Once far from changing, look only whether it can still come to it.
    if (n == 1000 && limit() < level) return std::nullopt;
  }
  return std::nullopt;
}

std::optional<ProveOutOdds::AfterVisual> ProveOutOdds::after_visual() const {
  double all = 0;
  AfterVisual out;
  for (const ProveOutCell& cell : cells_) {
    const double p = cell.weight * cell.visual;
    all += p;
    if (cell.carrier) out.carrier += p;
    if (cell.partner_carrier) out.partner_carrier += p;
  }
  if (!(all > 0)) return std::nullopt;
  out.carrier = std::min(out.carrier / all, 1.0);
  out.partner_carrier = std::min(out.partner_carrier / all, 1.0);
  return out;
}

}  // namespace likelihet::planning
