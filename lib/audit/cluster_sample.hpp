// Whole clusters drawn with replacement: animals of one clutch are not independent.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <likelihet/inference/random_bits.hpp>

namespace likelihet::audit {

/// A member of a drawn cluster. A cluster drawn twice is two clusters, numbered from 0 in the order
/// of drawing.
struct ClusterMember {
  std::size_t position = 0;  ///< among those sampled from
  std::size_t cluster = 0;   ///< its new number
};

/// As many clusters as there are, drawn with replacement (Davison and Hinkley 1997, Bootstrap
/// Methods and their Application, section 3.8). `cluster[i]` is the cluster of member i, by any
/// numbers; clusters are drawn in ascending order of number, their members in the order in which
/// they stand.
class ClusterSampler {
 public:
  explicit ClusterSampler(std::span<const std::size_t> cluster);
  [[nodiscard]] std::size_t clusters() const { return members_.size(); }
  /// The members of the clusters drawn; the same with every standard library.
  std::vector<ClusterMember> draw(inference::RandomBits& random) const;

 private:
  std::vector<std::vector<std::size_t>> members_;
};

}  // namespace likelihet::audit
