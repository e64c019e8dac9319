// What deciding between keeping and selling is worth, by the policy.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <likelihet/colony/policy.hpp>

namespace likelihet::planning {

/// The policy's worths by locus. The decision of each animal at each locus with a worth is kept or
/// sold, whichever is expected to bring more; tests change it for the better on average (expected
/// value of sample information: Raiffa and Schlaifer 1961, Applied Statistical Decision Theory,
/// from memory). In the policy's currency.
class Worth {
 public:
  /// The policy must fit the model (colony::policy_faults() finds nothing).
  Worth(const colony::Policy& policy, const colony::Model& model);

  /// Whether the policy gives any worth.
  [[nodiscard]] bool given() const { return given_; }
  [[nodiscard]] bool given(std::size_t locus) const { return loci_[locus].has_value(); }
  /// max(Σ_g p(g) kept(g), sold); 0 where the policy gives no worth for the locus.
  [[nodiscard]] double of(std::size_t locus, std::span<const double> genotypes) const;

 private:
  struct AtLocus {
    std::vector<double> kept;  // by genotype
    double sold = 0;
  };
  std::vector<std::optional<AtLocus>> loci_;
  bool given_ = false;
};

}  // namespace likelihet::planning
