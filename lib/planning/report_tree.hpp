// What the tests chosen so far may report together.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/supposed.hpp>
#include <likelihet/planning/information.hpp>

namespace likelihet::planning {

/// How far joint reports are listed, and how many are drawn beyond that.
struct TreeLimits {
  std::size_t exact = 4096;    ///< the most combinations of reports that are all gone through
  std::size_t samples = 4096;  ///< drawn beyond that; 1 or more
};

/// Combinations of report classes with their weights, which sum to 1: all that can be, while these
/// are few, else so many draws of equal weight out of their joint distribution (each report given
/// those before it, so the draws are exact and independent but for the first step, which is
/// systematic: Kitagawa 1996, Journal of Computational and Graphical Statistics 5:1).
class ReportTree {
 public:
  ReportTree() = default;
  explicit ReportTree(const TreeLimits& limits) : limits_(limits) {}

  struct Branch {
    double weight = 1;
    std::vector<std::size_t> classes;  ///< by test, in the order of add()
  };

  [[nodiscard]] const std::vector<Branch>& branches() const { return branches_; }
  [[nodiscard]] bool sampled() const { return sampled_; }
  /// The branches as supposed evidence.
  [[nodiscard]] std::vector<odds::SupposedSet> sets() const;
  /// Another test, of the genotype at `place`; `genotypes` are its chances given each branch.
  /// Random numbers are taken only where draws are made.
  void add(const odds::GenotypePlace& place, const std::vector<ReportClass>& classes,
           std::span<const std::vector<double>> genotypes, inference::RandomBits& random);

 private:
  struct Tested {
    odds::GenotypePlace place;
    std::vector<ReportClass> classes;
  };
  void split(const std::vector<std::vector<double>>& chances);
  void draw(const std::vector<std::vector<double>>& chances, inference::RandomBits& random);

  TreeLimits limits_;
  std::vector<Tested> tests_;
  std::vector<Branch> branches_{Branch{}};
  bool sampled_ = false;
};

}  // namespace likelihet::planning
