// The tables of the files that are compiled for newer processors.
#pragma once

#include <likelihet/inference/loops.hpp>

namespace likelihet::inference {

/// Null where the build does not compile for these instructions. Calling through the table on a
/// processor without them ends the program; can_run() tells.
[[nodiscard]] const Loops<Lanes<8>>* avx2_loops();
[[nodiscard]] const Loops<Lanes<8>>* avx512_loops();

}  // namespace likelihet::inference
