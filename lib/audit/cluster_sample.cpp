// Drawing clusters.
#include <map>

#include <likelihet/audit/cluster_sample.hpp>
#include <likelihet/inference/random_bits.hpp>

namespace likelihet::audit {

ClusterSampler::ClusterSampler(std::span<const std::size_t> cluster) {
  std::map<std::size_t, std::vector<std::size_t>> sorted;
  for (std::size_t i = 0; i < cluster.size(); ++i) sorted[cluster[i]].push_back(i);
  members_.reserve(sorted.size());
  for (auto& [number, members] : sorted) members_.push_back(std::move(members));
}

std::vector<ClusterMember> ClusterSampler::draw(inference::RandomBits& random) const {
  std::vector<ClusterMember> out;
  for (std::size_t k = 0; k < members_.size(); ++k) {
    for (std::size_t i : members_[random.below(members_.size())]) out.push_back({i, k});
  }
  return out;
}

}  // namespace likelihet::audit
