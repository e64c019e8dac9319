// How many animals have which genotype, by what was read of them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/inference/sampling.hpp>
#include <likelihet/odds/colony_network.hpp>

namespace likelihet::learning {

/// Which cell of its term a scored animal's drawn genotypes are: the joint genotype of
/// Scored::loci, the last locus fastest.
std::size_t cell_of(const odds::ColonyNetwork& net, const odds::ColonyNetwork::Scored& scored,
                    const inference::Draw& genotypes);

/// Animals of which the same was read and whose genotypes are the same differ in nothing that
/// learning asks for, so a sweep only needs their numbers. For terms of one score; the network must
/// outlive it.
class CellCounts {
 public:
  explicit CellCounts(const odds::ColonyNetwork& net);
  /// Ascending.
  [[nodiscard]] const std::vector<std::uint32_t>& terms() const { return terms_; }
  void count(const inference::Draw& genotypes);
  /// Animals in each cell of terms()[place], as last counted.
  [[nodiscard]] std::span<const std::uint32_t> of(std::size_t place) const {
    return std::span(animals_).subspan(begin_[place], begin_[place + 1] - begin_[place]);
  }

 private:
  // An animal scored for one locus: its genotype is the cell.
  struct Alone {
    std::uint32_t id = 0;  // leaf or variable
    std::uint32_t begin = 0;
  };
  struct Tied {
    std::uint32_t scored = 0;
    std::uint32_t begin = 0;
  };

  const odds::ColonyNetwork* net_;
  std::vector<std::uint32_t> terms_;
  std::vector<std::uint32_t> begin_;  // by place in terms_, in animals_; one more at the end
  std::vector<Alone> leaves_;
  std::vector<Alone> variables_;
  std::vector<Tied> tied_;
  std::vector<std::uint32_t> animals_;
};

}  // namespace likelihet::learning
