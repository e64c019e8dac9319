// Where each cell of a clique's table stands in a smaller table over some of its variables.
#pragma once

#include <cstdint>
#include <span>
#include <unordered_map>
#include <vector>

namespace likelihet::inference {

/// Cell i of the clique stands at outer[i / inner.size()] + inner[i % inner.size()] of the other
/// table. Held by number in an IndexMaps.
struct IndexMap {
  std::uint32_t outer = 0;
  std::uint32_t inner = 0;
};

/// The distinct index lists that a plan needs. Cliques of one shape share theirs, so that a large
/// pedigree needs few and they stay in cache.
class IndexMaps {
 public:
  /// `offsets[d][s]`: what state s of the clique's dimension d adds to the position, the last
  /// dimension fastest. Dimensions from the last on are held cell by cell while together they have
  /// at most `inner_cells` cells; the ones before make the outer list.
  IndexMap make(std::span<const std::vector<std::uint32_t>> offsets);

  [[nodiscard]] std::span<const std::uint32_t> list(std::uint32_t number) const {
    return {lists_.data() + ends_[number], lists_.data() + ends_[number + 1]};
  }
  [[nodiscard]] std::size_t bytes() const { return lists_.size() * sizeof(std::uint32_t); }

 private:
  struct Hash {
    std::size_t operator()(const std::vector<std::uint32_t>& key) const {
      std::uint64_t h = 0xcbf29ce484222325ULL;
      for (std::uint32_t part : key) h = (h ^ part) * 0x100000001b3ULL;
      return static_cast<std::size_t>(h);
    }
  };
  std::uint32_t list_of(std::span<const std::vector<std::uint32_t>> offsets);

  std::vector<std::uint32_t> lists_;
  std::vector<std::size_t> ends_{0};
  std::unordered_map<std::vector<std::uint32_t>, std::uint32_t, Hash> known_;
};

}  // namespace likelihet::inference
