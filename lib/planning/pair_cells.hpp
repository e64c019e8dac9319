// A pair's joint genotypes, each with the chance that an offspring of it has what is wanted.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <variant>
#include <vector>

#include <likelihet/colony/model.hpp>
#include <likelihet/odds/joint.hpp>
#include <likelihet/planning/chance_mixture.hpp>
#include <likelihet/planning/offspring.hpp>

namespace likelihet::planning {

/// What an offspring may have at one locus.
struct Wanted {
  std::size_t locus = 0;
  std::vector<double> of_genotype;  ///< P(it has it | its genotype), in state order
};
Wanted wanted_genotype(const colony::Model& model, std::size_t locus, std::size_t genotype);
Wanted wanted_appearance(const colony::Model& model, std::size_t locus, std::size_t appearance);

/// Genotypes of both parents at the locus of what is wanted, and what follows for their offspring.
struct PairCell {
  std::size_t dam = 0, sire = 0;
  double weight = 0;  ///< posterior probability; over all cells they sum to 1
  double chance = 0;  ///< P(an offspring that lives has what is wanted | these parents)
};

/// Works out cells for one thing wanted; made once for many pairs. The model must outlive it. Cells
/// of parents none of whose offspring could live are left out, the rest renormalised: what is told
/// is told of offspring that live.
class PairChances {
 public:
  PairChances(const colony::Model& model, Wanted wanted);

  /// The loci whose genotypes take part, that of what is wanted first: more than one only where
  /// survival on the sex chromosome ties them (offspring.hpp).
  [[nodiscard]] const std::vector<std::size_t>& loci() const { return loci_; }
  /// P(a living offspring has it | parents); `parents` holds dam and sire of each of loci() in
  /// turn. Nothing where no offspring can live.
  [[nodiscard]] std::optional<double> chance(std::span<const std::uint32_t> parents) const;

  /// Of a pair whose genotypes at loci() have these positions in the scenario's `held`, averaged
  /// over `tables` (the model's beliefs where there are none).
  std::variant<std::vector<PairCell>, odds::TooLarge> cells(
      odds::JointBeliefs& beliefs, std::span<const std::size_t> dam,
      std::span<const std::size_t> sire, std::span<const odds::Tables* const> tables) const;
  /// From a table over (dam, sire) of the one locus, sire fastest. For a single locus only.
  [[nodiscard]] std::vector<PairCell> cells(const std::vector<double>& pair) const;

 private:
  Wanted wanted_;
  std::vector<std::size_t> loci_;
  std::vector<LocusOffspring> offspring_;  // as loci_
};

/// What the cells say of the offspring's chance.
ChanceMixture mixture_of(const std::vector<PairCell>& cells);

}  // namespace likelihet::planning
