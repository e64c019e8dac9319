// Why an animal's odds are what they are, without markers: in the trade's words. Private to the
// layer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ground_odds.hpp"
#include "kin.hpp"

#include <likelihet/genetics/copies.hpp>

namespace likelihet::publishing {

/// What a reason says and which observations it names.
struct Reason {
  std::string text;
  std::vector<std::size_t> rests_on;  ///< ascending, each once
};

/// An allele of a locus, and how it stands with every animal by all that counts but markers.
class Standings {
 public:
  Standings(const GroundOdds& odds, const Kin& kin, std::size_t locus, std::uint16_t allele);

  [[nodiscard]] const genetics::Locus& locus() const;
  [[nodiscard]] const genetics::Looks& looks() const { return looks_; }
  [[nodiscard]] genetics::CopyChances markerless(std::size_t animal) const;
  /// The same without results.
  [[nodiscard]] genetics::CopyChances pedigree(std::size_t animal) const;
  /// The same as markerless() had these observations not been made; nothing where that would not
  /// fit the memory allowed.
  [[nodiscard]] std::optional<genetics::CopyChances> markerless_without(
      std::size_t animal, const std::vector<std::size_t>& observations) const;
  /// The recorded looks that prove two copies, or all that it can have.
  [[nodiscard]] std::vector<std::size_t> signs(std::size_t animal) const;
  /// It shows the trait, by record, and certainly has two copies or all that it can have.
  [[nodiscard]] bool visual(std::size_t animal) const;
  /// It certainly has one copy, and a visual parent or visual offspring show that.
  [[nodiscard]] bool proven(std::size_t animal) const;
  /// Records that prove it: of the looks of visual parents and offspring, and of visual broods.
  [[nodiscard]] std::vector<std::size_t> proofs(std::size_t animal) const;
  /// "visual", "proven het", "het by the seller's description", "66 % het", "tested clear".
  [[nodiscard]] std::string status(std::size_t animal) const;
  /// Some result on the animal itself fits no copy best, and none fits a copy better.
  [[nodiscard]] bool tested_clear(std::size_t animal) const;
  /// The same of two, as "both parents" wants it.
  [[nodiscard]] std::string status_of_both(std::size_t animal) const;
  /// From pedigree and looks to results, as one sentence without a full stop.
  [[nodiscard]] Reason reason(std::size_t animal) const;

  /// The number of the allele.
  [[nodiscard]] std::uint16_t allele() const { return allele_; }

 private:
  friend class ReasonMaker;
  /// What it rests on that it has no copy: a test, its look, its parents, a seller, or nothing.
  [[nodiscard]] std::string none_in_words(std::size_t animal) const;

  const GroundOdds& odds_;
  const Kin& kin_;
  std::size_t locus_;
  std::uint16_t allele_;
  genetics::Looks looks_;
  std::vector<bool> proves_two_;  // by appearance
};

}  // namespace likelihet::publishing
