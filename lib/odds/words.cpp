// Sentences about records.
#include <variant>

#include <fmt/format.h>

#include <likelihet/odds/words.hpp>

namespace likelihet::odds {

namespace {

std::string dated(const colony::Observation& observation) {
  if (observation.on) return fmt::format(" ({})", observation.on->text());
  if (observation.known) return fmt::format(" (recorded {})", observation.known->text());
  return "";
}

// One overload a kind of observation.
class Words {
 public:
  explicit Words(const colony::Colony& colony) : colony_(colony), model_(colony.model()) {}

  std::string operator()(const colony::AppearanceSeen& seen) const {
    const auto& locus = model_.loci()[seen.locus];
    return fmt::format("looks {} ({})", locus.appearances()[seen.appearance], locus.id());
  }

  std::string operator()(const colony::Score& score) const {
    const auto& marker = model_.markers()[score.marker];
    const std::string who = score.scorer ? model_.scorers()[*score.scorer].id + " scored " : "";
    if (!score.level) return fmt::format("{}{}: could not be scored", who, marker.id);
    const std::string sure =
        score.sure < 1 ? fmt::format(" ({:.3g} % sure)", 100 * score.sure) : std::string{};
    return fmt::format("{}{}: {}{}", who, marker.id, marker.levels[*score.level], sure);
  }

  std::string operator()(const colony::Result& result) const {
    const auto& assay = model_.assays()[result.assay];
    const std::string sample =
        result.sample.empty() ? std::string{} : fmt::format(" (sample {})", result.sample);
    return fmt::format("{}: {}{}", assay.id, assay.reports[result.report], sample);
  }

  std::string operator()(const colony::Brood& brood) const {
    const auto& locus = model_.loci()[brood.locus];
    std::string counts;
    for (const auto& [appearance, count] : brood.offspring) {
      counts += fmt::format("{}{} {}", counts.empty() ? "" : ", ", count,
                            locus.appearances()[appearance]);
    }
    return fmt::format("brood with {}: {}", locus.key(brood.partner),
                       counts.empty() ? "none alive" : counts);
  }

  std::string operator()(const colony::Withdrawal& withdrawal) const {
    return fmt::format("{} withdrawn", colony_.observations()[withdrawal.of].id);
  }

 private:
  const colony::Colony& colony_;
  const colony::Model& model_;
};

}  // namespace

std::string words_of(const colony::Colony& colony, const colony::Observation& observation) {
  return std::visit(Words(colony), observation.what);
}

std::string describe(const colony::Colony& colony, const colony::Observation& observation) {
  const auto animal = colony::animal_of(observation);
  const std::string name = animal ? colony.animals()[*animal].id + ": " : std::string{};
  return name + words_of(colony, observation) + dated(observation);
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

}  // namespace likelihet::odds
