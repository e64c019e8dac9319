// Building and sharing index lists.
#include <likelihet/inference/index_map.hpp>

namespace likelihet::inference {

namespace {
constexpr std::size_t inner_cells = 4096;
}

std::uint32_t IndexMaps::list_of(std::span<const std::vector<std::uint32_t>> offsets) {
  std::vector<std::uint32_t> key;
  for (const auto& dimension : offsets) {
    key.push_back(static_cast<std::uint32_t>(dimension.size()));
    key.insert(key.end(), dimension.begin(), dimension.end());
  }
  const auto [found, fresh] =
      known_.try_emplace(std::move(key), static_cast<std::uint32_t>(ends_.size() - 1));
  if (!fresh) return found->second;
  std::vector<std::uint32_t> list{0};
  for (const auto& dimension : offsets) {
    std::vector<std::uint32_t> longer;
    longer.reserve(list.size() * dimension.size());
    for (std::uint32_t base : list) {
      for (std::uint32_t step : dimension) longer.push_back(base + step);
    }
    list = std::move(longer);
  }
  lists_.insert(lists_.end(), list.begin(), list.end());
  ends_.push_back(lists_.size());
  return found->second;
}

IndexMap IndexMaps::make(std::span<const std::vector<std::uint32_t>> offsets) {
  std::size_t split = offsets.size();
  std::size_t cells = 1;
  while (split > 0 && cells * offsets[split - 1].size() <= inner_cells) {
    cells *= offsets[--split].size();
  }
  return {list_of(offsets.first(split)), list_of(offsets.subspan(split))};
}

}  // namespace likelihet::inference
