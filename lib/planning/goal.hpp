// What a keeper wants of an offspring, in words.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model.hpp>

namespace likelihet::planning {

/// What is wanted of an offspring: a genotype or an appearance of one locus.
struct Goal {
  std::size_t locus = 0;
  std::optional<std::size_t> genotype;  ///< else the appearance
  std::size_t appearance = 0;  ///< wanted, or what the genotype shows most: what is counted
};

/// "tarnbrook=e/e" or "tarnbrook=tarnbrook": a genotype key, else an appearance. A fault names what
/// there is.
std::variant<Goal, colony::Fault> read_goal(const colony::Model& model, std::string_view text);

/// What to write in place of a text that is not a genotype of the locus: the key with its alleles
/// in declared order where only that is wrong, else the nearest of `others` and of `keys`.
std::string genotype_mend(const genetics::Locus& locus, const std::string& text,
                          std::vector<std::string> others, const std::vector<std::string>& keys);

}  // namespace likelihet::planning
