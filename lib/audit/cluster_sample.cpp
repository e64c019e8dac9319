// Drawing clusters.
#include <map>

#include <likelihet/audit/cluster_sample.hpp>

namespace likelihet::audit {

ClusterSampler::ClusterSampler(std::span<const std::size_t> cluster) {
  std::map<std::size_t, std::vector<std::size_t>> sorted;
  for (std::size_t i = 0; i < cluster.size(); ++i) sorted[cluster[i]].push_back(i);
  members_.reserve(sorted.size());
  for (auto& [number, members] : sorted) members_.push_back(std::move(members));
}

std::vector<std::size_t> ClusterSampler::draw(std::mt19937_64& random) const {
  std::vector<std::size_t> out;
  std::uniform_int_distribution<std::size_t> any(0, members_.empty() ? 0 : members_.size() - 1);
  for (std::size_t k = 0; k < members_.size(); ++k) {
    const auto& members = members_[any(random)];
    out.insert(out.end(), members.begin(), members.end());
  }
  return out;
}

}  // namespace likelihet::audit
