// Sentences about records.
#include <cmath>

#include <fmt/format.h>

#include <likelihet/odds/words.hpp>

namespace likelihet::odds {

namespace {

std::string dated(const colony::Observation& observation) {
  if (observation.on) return fmt::format(" ({})", observation.on->text());
  if (observation.known) return fmt::format(" (recorded {})", observation.known->text());
  return "";
}

class Describer {
 public:
  explicit Describer(const colony::Colony& colony) : colony_(colony), model_(colony.model()) {}

  std::string operator()(const colony::AppearanceSeen& seen) const {
    const auto& locus = model_.loci()[seen.locus];
    return fmt::format("{} shows {} at {}", animal(seen.animal),
                       locus.appearances()[seen.appearance], locus.id());
  }
  std::string operator()(const colony::Score& score) const {
    const auto& marker = model_.markers()[score.marker];
    const std::string who =
        score.scorer ? model_.scorers()[*score.scorer].id + " read " : std::string("read ");
    if (!score.level) {
      return fmt::format("{}{} on {}: could not be scored", who, marker.id, animal(score.animal));
    }
    return fmt::format("{}{} as {} on {}", who, marker.id, marker.levels[*score.level],
                       animal(score.animal));
  }
  std::string operator()(const colony::Result& result) const {
    const auto& assay = model_.assays()[result.assay];
    const std::string sample =
        result.sample.empty() ? std::string() : fmt::format(" (sample {})", result.sample);
    return fmt::format("{} reported {} for {}{}", assay.id, assay.reports[result.report],
                       animal(result.animal), sample);
  }
  std::string operator()(const colony::Brood& brood) const {
    const auto& locus = model_.loci()[brood.locus];
    std::string counts;
    for (const auto& [appearance, count] : brood.offspring) {
      counts += fmt::format("{}{} {}", counts.empty() ? "" : ", ", count,
                            locus.appearances()[appearance]);
    }
    return fmt::format("{} bred to a {} partner had {}", animal(brood.animal),
                       locus.key(brood.partner), counts.empty() ? "no offspring" : counts);
  }
  std::string operator()(const colony::Withdrawal& withdrawal) const {
    return fmt::format("withdrew {}", colony_.observations()[withdrawal.of].id);
  }

 private:
  const std::string& animal(std::size_t a) const { return colony_.animals()[a].id; }
  const colony::Colony& colony_;
  const colony::Model& model_;
};

}  // namespace

std::string describe(const colony::Colony& colony, const colony::Observation& observation) {
  return std::visit(Describer(colony), observation.what) + dated(observation);
}

std::string name_of(const colony::Colony& colony, const Owner& owner) {
  switch (owner.kind) {
    case Owner::Kind::animal:
      return fmt::format("{} at {}", colony.animals()[owner.index].id,
                         colony.model().loci()[owner.locus].id());
    case Owner::Kind::anonymous_dam:
      return fmt::format("the unnamed dam of clutch {} at {}", colony.clutches()[owner.index].id,
                         colony.model().loci()[owner.locus].id());
    case Owner::Kind::anonymous_sire:
      return fmt::format("the unnamed sire of clutch {} at {}", colony.clutches()[owner.index].id,
                         colony.model().loci()[owner.locus].id());
    case Owner::Kind::clutch_sire:
      return fmt::format("who fathered clutch {}", colony.clutches()[owner.index].id);
    case Owner::Kind::own_sire:
      return fmt::format("who fathered {}", colony.animals()[owner.index].id);
  }
  return {};
}

std::string percent(double probability) {
  const double p = 100 * probability;
  if (p <= 0) return "0 %";
  if (p >= 100) return "100 %";
  for (int digits = 1; digits <= 6; ++digits) {
    const double unit = std::pow(10.0, -digits);
    // Down, away from the seller's side, and never onto either end.
    const double shown = std::floor(p / unit + 1e-9) * unit;
    if (shown > 0 && p < 100 - unit) return fmt::format("{:.{}f} %", shown, digits);
  }
  return p < 50 ? fmt::format("{:.1e} %", p) : "over 99.999999 %";
}

}  // namespace likelihet::odds
