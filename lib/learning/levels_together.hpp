// Levels of markers that come together as they were drawn, and what they say of rows and loadings.
#pragma once

#include <compare>
#include <cstdint>
#include <map>
#include <vector>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/counts.hpp>

namespace likelihet::learning {

/// How often each combination of rows and levels was drawn. Animals' strengths are summed out, so
/// that rows and loadings do not wait for them: P(levels) = Σ_q w_q Π_markers P(level | row, q).
class LevelsTogether {
 public:
  struct Part {
    std::uint32_t marker = 0;
    std::uint32_t table = 0;
    std::uint32_t row = 0;
    std::uint32_t level = 0;
    friend auto operator<=>(const Part&, const Part&) = default;
  };

  void clear() { seen_.clear(); }
  /// One animal's, in the order of the markers.
  void add(const std::vector<Part>& parts) { seen_[parts] += 1; }

  /// New rows and loadings of all groups that learning may move, into `next`, from those of `now`.
  /// A row is proposed as if markers were independent, from Dirichlet(prior + counts) and then from
  /// Dirichlet(prior + share x counts) with a share drawn anew, and accepted by Metropolis and
  /// Hastings's rule (Hastings 1970, Biometrika 57:97); a loading is drawn by
  /// slice sampling (Neal 2003, Annals of Statistics 31:705, figures 3 and 5). Leaves the posterior
  /// given genotypes and levels as it is.
  void move(const colony::Model& model, const odds::StrengthPoints& points, const Counts& prior,
            const Counts& counts, const odds::Tables& now, odds::Tables& next,
            inference::RandomBits& random) const;

 private:
  std::map<std::vector<Part>, double> seen_;
};

}  // namespace likelihet::learning
