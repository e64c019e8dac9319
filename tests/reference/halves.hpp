// Women measured for a trait that they may carry: learned from one half, predicted in the other.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "reference/two_classes.hpp"

#include <likelihet/learning/learn.hpp>

namespace likelihet {

/// What was measured, and who is a carrier.
struct Measured {
  std::vector<std::vector<double>> columns;  ///< by column, then by woman
  std::vector<bool> carrier;
};

/// A file of this folder: numbers, the last of a line 1 for carriers.
Measured measured(const std::string& file);

/// Thirds by rank of each column as levels, equal numbers in the order in which they stand.
std::vector<Marked> in_thirds(const Measured& from);

/// Mean skill over halves.
struct Means {
  Skill ours, theirs;
};

/// Over the first `halves` of those for which R's predictions stand in `file` under `markers`;
/// drawn here again, `half` women each. Records both.
Means over_halves(const std::string& file, const std::string& markers, std::vector<Marked> all,
                  std::size_t half, std::size_t halves);

/// What learning tells of each pair of markers, every woman being tested.
std::vector<learning::Dependence> dependences(std::vector<Marked> all);

}  // namespace likelihet
