// Where each cell of a clique's table stands in a smaller table over some of its variables. Tables
// lie in memory by factors, cliques by the elimination; these lists are worked out once so that a
// pass only adds offsets.
#pragma once

#include <cstdint>
#include <span>
#include <unordered_map>
#include <vector>

namespace likelihet::inference {

/// Cell i of the clique stands at outer[i / inner.size()] + inner[i % inner.size()] of the other
/// table. Held by number in an IndexMaps. Two short lists in place of one as long as the clique.
struct IndexMap {
  std::uint32_t outer = 0;
  std::uint32_t inner = 0;
};

/// The distinct index lists that a plan needs. Cliques of one shape share theirs, so that a large
/// pedigree needs few and they stay in cache. Grows only; numbers that were given out stay good.
class IndexMaps {
 public:
  /// `offsets[d][s]`: what state s of the clique's dimension d adds to the position, the last
  /// dimension fastest. Dimensions from the last on are held cell by cell while together they have
  /// at most `inner_cells` cells; the ones before make the outer list. A dimension that the other
  /// table does not have has offsets of 0. Offsets are 32 bits, so the other table must have fewer
  /// than 2^32 cells (32 GiB of doubles).
  IndexMap make(std::span<const std::vector<std::uint32_t>> offsets);

  /// Valid until the next make().
  [[nodiscard]] std::span<const std::uint32_t> list(std::uint32_t number) const {
    return {lists_.data() + ends_[number], lists_.data() + ends_[number + 1]};
  }
  /// Of the lists alone, without the table that finds equal ones.
  [[nodiscard]] std::size_t bytes() const { return lists_.size() * sizeof(std::uint32_t); }

 private:
  /// FNV-1a with 32-bit steps in place of bytes; only speed hangs on it.
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
