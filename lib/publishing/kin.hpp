// Who an animal's relatives are, and what was recorded of them. Private to the layer.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <likelihet/colony/family.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::publishing {

/// Records that count, by animal. Positions of observations ascend by id, so that the order of the
/// records plays no part.
class Kin {
 public:
  explicit Kin(const odds::Scenario& scenario);

  [[nodiscard]] const colony::Colony& colony() const { return *scenario_.colony; }
  /// As recorded, or as its part in a clutch says.
  [[nodiscard]] const std::optional<genetics::Sex>& sex(std::size_t animal) const {
    return scenario_.sexes[animal];
  }
  [[nodiscard]] std::vector<std::size_t> looks(std::size_t animal, std::size_t locus) const;
  [[nodiscard]] std::vector<std::size_t> results(std::size_t animal, std::size_t locus) const;
  [[nodiscard]] std::vector<std::size_t> broods(std::size_t animal, std::size_t locus) const;
  /// Readings with a level, of markers whose table in force reads the locus.
  [[nodiscard]] std::vector<std::size_t> readings(std::size_t animal, std::size_t locus) const;
  /// By the id of the offspring.
  [[nodiscard]] const std::vector<colony::Offspring>& offspring(std::size_t parent) const {
    return offspring_[parent];
  }
  /// The appearance that an observation of looks() recorded.
  [[nodiscard]] std::size_t appearance(std::size_t look) const;

 private:
  const odds::Scenario& scenario_;
  std::vector<std::vector<std::size_t>> by_animal_;
  std::vector<std::vector<colony::Offspring>> offspring_;
};

}  // namespace likelihet::publishing
