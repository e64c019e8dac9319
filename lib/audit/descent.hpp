// Who descends from whom.
#pragma once

#include <vector>

#include <likelihet/colony/colony.hpp>

namespace likelihet::audit {

/// By animal: whether it is one of `roots` or descends from one, any candidate sire counting as a
/// father. Linear in animals and parents.
std::vector<bool> with_descendants(const colony::Colony& colony,
                                   const std::vector<std::size_t>& roots);

}  // namespace likelihet::audit
