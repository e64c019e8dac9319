// Parents and offspring, as clutches say.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::colony {

/// The dam, then every candidate sire, as far as they are recorded; none of a founder.
std::vector<std::size_t> possible_parents(const Colony& colony, std::size_t animal);

/// A parent's offspring, as far as they were recorded as animals.
struct Offspring {
  std::size_t animal = 0;
  /// The other parent; empty where nobody named one or there are several.
  std::optional<std::size_t> partner;
  bool surely = true;  ///< false: the parent is one of several possible sires
};

/// By parent: all offspring that may be its own, in the order of clutches. Linear in animals and
/// parents.
std::vector<std::vector<Offspring>> offspring_by_parent(const Colony& colony);

/// By animal: whether it is one of `roots` or descends from one, any candidate sire counting as a
/// father.
std::vector<bool> with_descendants(const Colony& colony, const std::vector<std::size_t>& roots);

/// The animals and their recorded ancestors, any candidate sire counting as a father; ancestors
/// first, each once.
std::vector<std::size_t> with_ancestors(const Colony& colony, std::span<const std::size_t> animals);

}  // namespace likelihet::colony
