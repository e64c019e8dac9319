// A statement's sentences. Private to the layer.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "reason.hpp"

namespace likelihet::publishing {

/// What the sentences of one statement are made from: its numbers, and what the animal shows.
struct Stated {
  const Standings* standings = nullptr;
  std::size_t animal = 0;
  std::optional<genetics::Sex> sex;
  genetics::CopyChances markerless;
  std::vector<std::string> shown;  ///< words of the recorded looks at the locus
  bool sign = false;               ///< one of them takes two copies
};

/// "tarnbrook"; of a locus with several alleles "e of tarnbrook".
std::string trait_name(const genetics::Locus& locus, std::uint16_t allele);

/// The number in the trade's words, with what it rests on where that is more than the pedigree.
std::string headline(const Stated& stated, const Statement& statement);

/// The same as a natural frequency.
std::string plain_words(const Stated& stated, const Statement& statement);

/// What would move the number: a visual offspring, a result, non-visual offspring (how many,
/// about), a record taken back.
std::vector<std::string> would_change(const Stated& stated, const Statement& statement,
                                      const colony::Model& model);

}  // namespace likelihet::publishing
