// How many animals have which genotypes, by what was read of them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/sampling.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::learning {

/// Which cell of its term a scored animal's drawn genotypes are: the joint genotype of
/// Scored::loci, the last locus fastest.
std::size_t cell_of(const odds::ColonyNetwork& net, const odds::ColonyNetwork::Scored& scored,
                    const inference::Draw& genotypes);

/// Animals of which the same was read and whose genotypes are the same differ in nothing that
/// learning asks for, so it only needs their numbers, or the sums of their chances. The network and
/// the plan must outlive it.
class ScoredCells {
 public:
  explicit ScoredCells(const odds::Prepared& prepared);
  /// Those of ColonyNetwork::scored(), ascending.
  [[nodiscard]] const std::vector<std::uint32_t>& terms() const { return terms_; }
  /// The cells of terms()[place] out of what count() or believe() wrote.
  template <class Number>
  [[nodiscard]] std::span<const Number> of(std::size_t place,
                                           const std::vector<Number>& animals) const {
    return std::span(animals).subspan(begin_[place], begin_[place + 1] - begin_[place]);
  }

  /// Animals in each cell of each term, as their genotypes were drawn; written over `animals`.
  void count(const inference::Draw& genotypes, std::vector<std::uint32_t>& animals) const;
  /// The same in expectation, given all that `pass` believes: after propagate() and
  /// late_posteriors().
  template <class Number>
  void believe(const inference::Pass<Number>& pass, std::vector<double>& animals) const;

 private:
  // An animal scored for one locus: its genotype is the cell.
  struct Alone {
    std::uint32_t id = 0;  // leaf or variable
    std::uint32_t begin = 0;
  };
  // One scored for several, or for none.
  struct Tied {
    std::uint32_t scored = 0;
    std::uint32_t begin = 0;
  };

  const odds::Prepared* prepared_;
  std::vector<std::uint32_t> terms_;
  std::vector<std::uint32_t> begin_;  // by place in terms_; one more at the end
  std::vector<Alone> leaves_;
  std::vector<Alone> variables_;  // ascending
  std::vector<Tied> tied_;
};

}  // namespace likelihet::learning
