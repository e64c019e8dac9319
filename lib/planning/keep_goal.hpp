// What an animal is kept for.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <likelihet/colony/fault.hpp>
#include <likelihet/genetics/locus.hpp>

namespace likelihet::planning {

/// The genotypes at one locus that will do.
struct KeepGoal {
  std::size_t locus = 0;
  std::string name;         ///< as it was asked
  std::vector<bool> meets;  ///< by genotype, in state order
};

/// `carries`: at least one copy of an allele other than the first, shown or not. `visual`: its
/// likeliest appearance is another than that of an animal without such an allele (of its sex, on a
/// sex chromosome). Else a genotype's key. A fault names the nearest known word.
std::variant<KeepGoal, colony::Fault> keep_goal_named(const genetics::Locus& locus,
                                                      std::size_t position, std::string_view name);

}  // namespace likelihet::planning
