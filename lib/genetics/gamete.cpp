// Mendel's first law.
#include <likelihet/genetics/gamete.hpp>

namespace likelihet::genetics {

std::vector<Gamete> gametes(const Genotype& parent) {
  if (parent.second && *parent.second == parent.first) return {{parent.first, 1.0}};
  return {{parent.first, 0.5}, {parent.second, 0.5}};
}

}  // namespace likelihet::genetics
