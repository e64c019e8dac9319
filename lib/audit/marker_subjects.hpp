// The animals that a marker is judged on, for one locus.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/audit/level_mixture.hpp>
#include <likelihet/audit/marker_readings.hpp>
#include <likelihet/audit/markerless.hpp>
#include <likelihet/audit/stratified_test.hpp>

namespace likelihet::audit {

/// One animal (or one scorer's look at it): the level, and what everything but markers says.
struct Subject {
  LevelRead read;
  double carrier = 0;         ///< P(one copy | one or none)
  std::optional<bool> known;  ///< where P(one copy) is past a threshold
  std::size_t cluster = 0;    ///< cluster_of()
};

/// P(no, one, two copies) of every event without markers, found by animal.
class MarkerlessTable {
 public:
  MarkerlessTable(const colony::Colony& colony, std::vector<genetics::CopyChances> copies);
  [[nodiscard]] const genetics::CopyChances& of(std::size_t animal, std::size_t locus,
                                                std::uint16_t allele) const;

 private:
  std::vector<std::size_t> first_;  // by locus, of its alleles
  std::size_t each_ = 0;
  std::vector<genetics::CopyChances> copies_;
};

/// Subjects of these readings. Animals that rather have two copies than fewer are left out: they
/// show the trait itself.
std::vector<Subject> subjects_of(const colony::Colony& colony, const MarkerlessTable& markerless,
                                 std::span<const LevelRead> reads, std::size_t locus,
                                 std::uint16_t allele, double yes, double no);

/// Class 1 hets, class 0 others, by their chances.
LevelData level_data(std::span<const Subject> subjects, std::size_t levels);

/// For stratified_test(): each animal's level as a grade, in the stratum given.
std::vector<Compared> compared(std::span<const Subject> subjects,
                               std::span<const std::size_t> stratum);

}  // namespace likelihet::audit
