// Whole clusters drawn with replacement: animals of one clutch are not independent.
#pragma once

#include <cstddef>
#include <random>
#include <span>
#include <vector>

namespace likelihet::audit {

/// Positions of the members of as many clusters as there are, drawn with replacement (Davison and
/// Hinkley 1997, Bootstrap Methods and their Application, section 3.8). `cluster[i]` is the cluster
/// of member i, by any numbers. A cluster drawn twice has its members twice.
class ClusterSampler {
 public:
  explicit ClusterSampler(std::span<const std::size_t> cluster);
  [[nodiscard]] std::size_t clusters() const { return members_.size(); }
  std::vector<std::size_t> draw(std::mt19937_64& random) const;

 private:
  std::vector<std::vector<std::size_t>> members_;
};

}  // namespace likelihet::audit
