// Products over the loci of a group, by sex.
#include <likelihet/planning/offspring_of_cell.hpp>

namespace likelihet::planning {

OffspringOfCell::OffspringOfCell(const std::vector<LocusOffspring>& offspring,
                                 const std::vector<std::size_t>& group,
                                 std::span<const std::uint32_t> parents)
    : offspring_(offspring), group_(group), parents_(parents) {
  for (std::size_t x = 0; x < 2; ++x) {
    for (std::size_t k = 0; k < group.size(); ++k) {
      alive_[x].push_back(offspring[group[k]].alive(dam(k), sire(k), both_sexes[x]));
    }
    lives_ += product(x, group.size()) / 2;
  }
}

double OffspringOfCell::product(std::size_t x, std::size_t but) const {
  double out = 1;
  for (std::size_t k = 0; k < group_.size(); ++k) {
    if (k != but) out *= alive_[x][k];
  }
  return out;
}

double OffspringOfCell::genotype(std::size_t k, std::size_t x, std::size_t g) const {
  return offspring_[group_[k]].weight(dam(k), sire(k), both_sexes[x], g) * product(x, k) / 2 /
         lives_;
}

double OffspringOfCell::appearance(std::size_t k, std::size_t x, std::size_t a) const {
  return shows(k, x, a) * product(x, k) / 2 / lives_;
}

double OffspringOfCell::together(const std::vector<std::size_t>& appearances) const {
  double sum = 0;
  for (std::size_t x = 0; x < 2; ++x) {
    double of_sex = 0.5;
    for (std::size_t k = 0; k < group_.size(); ++k) of_sex *= shows(k, x, appearances[k]);
    sum += of_sex;
  }
  return std::min(sum / lives_, 1.0);
}

double OffspringOfCell::shows(std::size_t k, std::size_t x, std::size_t a) const {
  const LocusOffspring& of = offspring_[group_[k]];
  double sum = 0;
  for (std::size_t g = 0; g < of.locus().size(); ++g) {
    const double p = of.locus().shows(g, a);
    if (p > 0) sum += p * of.weight(dam(k), sire(k), both_sexes[x], g);
  }
  return sum;
}

}  // namespace likelihet::planning
