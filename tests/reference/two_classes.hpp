// Carriers and others, told apart by markers: how well a prediction does.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "support/small_model.hpp"

namespace likelihet {

/// P(level) of a marker with three levels.
struct MarkerTruth {
  double other[3];
  double carrier[3];
};

/// An animal that shows nothing; `tested` ones teach, the others are predicted.
struct Marked {
  bool carrier = false;
  bool tested = false;
  std::vector<std::size_t> levels;  ///< by marker
};

/// The generator of Park and Miller (1988, Communications of the ACM 31:1192).
class MinimalStandard {
 public:
  explicit MinimalStandard(std::uint64_t seed) : state_(seed) {}
  double operator()() {
    state_ = 16807 * state_ % 2147483647;
    return static_cast<double>(state_) / 2147483647;
  }

 private:
  std::uint64_t state_;
};

/// How well chances tell untested animals apart.
struct Skill {
  double auc = 0;    ///< P(a carrier is given more than another animal), ties half
  double brier = 0;  ///< mean squared error of the chance
};

/// `chances` are those of the untested animals, in their order.
Skill skill(const std::vector<Marked>& animals, const std::vector<double>& chances);

/// One locus "trait", markers "marker-1", ... of three levels of which nothing is believed: in both
/// rows each level is as likely as the others, worth three animals. Results of "test" are never
/// wrong. Founders are "bought" out of a frequency of which little is believed.
colony::ModelDescription marked_model(std::size_t markers);

/// P(carrier) of each untested animal, averaged over the tables that `colony` teaches. Its animals
/// from `first` on are `animals`. Throws if the chains did not come to agree.
std::vector<double> learned_chances(const colony::Colony& colony,
                                    const std::vector<Marked>& animals, std::size_t first);

/// Markers, "plain" and, for the tested, the result of the hatchling or founder named last.
void record(support::RecordsBuilder& records, const std::string& id, const Marked& animal);

}  // namespace likelihet
