// The offspring of one joint state of both parents, at several loci together; internal to the
// layer.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <likelihet/planning/offspring.hpp>

namespace likelihet::planning {

/// Loci part freely, so given both parents and the offspring's sex they are independent; sex ties
/// together those on the sex chromosome.
class OffspringOfCell {
 public:
  /// `offspring` by locus of the model; `parents` holds dam and sire of each locus of `group` in
  /// turn. All must outlive it.
  OffspringOfCell(const std::vector<LocusOffspring>& offspring,
                  const std::vector<std::size_t>& group, std::span<const std::uint32_t> parents);

  [[nodiscard]] std::size_t dam(std::size_t k) const { return parents_[2 * k]; }
  [[nodiscard]] std::size_t sire(std::size_t k) const { return parents_[2 * k + 1]; }
  /// P(an egg's offspring lives), in the units of viability. Where it is 0, nothing below means
  /// anything.
  [[nodiscard]] double lives() const { return lives_; }
  /// P(genotype and sex | it lives) at the k-th locus of the group; `x` counts both_sexes.
  [[nodiscard]] double genotype(std::size_t k, std::size_t x, std::size_t g) const;
  /// P(appearance and sex | it lives).
  [[nodiscard]] double appearance(std::size_t k, std::size_t x, std::size_t a) const;
  /// P(these appearances together | it lives), one a locus of the group.
  [[nodiscard]] double together(const std::vector<std::size_t>& appearances) const;

 private:
  // Of the chances to live at all loci but one.
  [[nodiscard]] double product(std::size_t x, std::size_t but) const;
  [[nodiscard]] double shows(std::size_t k, std::size_t x, std::size_t a) const;

  const std::vector<LocusOffspring>& offspring_;
  const std::vector<std::size_t>& group_;
  std::span<const std::uint32_t> parents_;
  std::array<std::vector<double>, 2> alive_;
  double lives_ = 0;
};

}  // namespace likelihet::planning
