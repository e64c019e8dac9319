// A chance that itself depends on something unknown, and what several draws that share it come to.
#pragma once

#include <cstddef>
#include <map>
#include <vector>

namespace likelihet::planning {

/// The offspring of one pair are independent given their parents' genotypes, and not otherwise:
/// each tells of the parents. So first comes a mixture over the chance p that goes with each pair
/// of genotypes, then the count. Equal chances are kept once.
class ChanceMixture {
 public:
  /// `weight` of the chance `p` in [0, 1]; all weights together are to come to 1.
  void add(double p, double weight) { weights_[p] += weight; }
  /// All of another, `share` times.
  void add(const ChanceMixture& other, double share);

  /// The sum of all weights.
  [[nodiscard]] double total() const;
  /// Divides all weights by their sum, where it is above 0.
  void normalise();

  [[nodiscard]] bool empty() const { return weights_.empty(); }
  /// By chance, ascending.
  [[nodiscard]] const std::map<double, double>& weights() const { return weights_; }

  /// P(one draw has it) = E[p].
  [[nodiscard]] double chance() const;
  /// P(at least one of n) = E[1 - (1 - p)^n], at most n E[p] and at least 1 - (1 - E[p])^n only
  /// where p is known.
  [[nodiscard]] double at_least_one(std::size_t n) const;
  /// P(k of n) for k = 0 .. n: a mixture of binomials.
  [[nodiscard]] std::vector<double> counts(std::size_t n) const;
  /// How much counting n draws is expected to take off the entropy of what p depends on, in bits:
  /// the mutual information H(count) - E[H(count | p)] (Lindley 1956, Annals of Mathematical
  /// Statistics 27:986, from memory). 0 or more.
  [[nodiscard]] double information(std::size_t n) const;

 private:
  std::map<double, double> weights_;
};

/// The chance that both of two independent things are there, each with a chance of its own mixture.
ChanceMixture both(const ChanceMixture& one, const ChanceMixture& other);

/// P(k of n) for k = 0 .. n at a known chance, each exact to about 1e-13 of its value.
std::vector<double> binomial(std::size_t n, double p);

}  // namespace likelihet::planning
