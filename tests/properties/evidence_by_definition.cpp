// Likelihoods straight from the definition of each kind of evidence.
#include "properties/evidence_by_definition.hpp"

#include <cmath>
#include <map>
#include <utility>

namespace likelihet::properties {

namespace {

using colony::Colony;
using colony::Marker;
using colony::MarkerRow;
using genetics::Locus;
using genetics::Sex;

// The rows that apply to an animal for a marker; nullptr where a context says that it can't be
// read.
const std::vector<MarkerRow>* rows_for(const Colony& colony,
                                       const std::vector<std::size_t>& counting,
                                       const Marker& marker, std::size_t animal) {
  for (const colony::MarkerContext& context : marker.contexts) {
    bool holds = context.line && colony.animals()[animal].line == *context.line;
    for (std::size_t o : counting) {
      const auto* seen = std::get_if<colony::AppearanceSeen>(&colony.observations()[o].what);
      if (seen != nullptr && context.shows && seen->animal == animal &&
          std::make_pair(seen->locus, seen->appearance) == *context.shows) {
        holds = true;
      }
    }
    if (holds) return context.ignore ? nullptr : &context.rows;
  }
  return &marker.rows;
}

const MarkerRow& row_of(const std::vector<MarkerRow>& rows, const JointState& state) {
  for (const MarkerRow& row : rows) {
    bool matches = true;
    for (const auto& [locus, genotype] : row.at) {
      if (state.genotypes[locus] != genotype) matches = false;
    }
    if (matches) return row;
  }
  return rows.back();
}

// All readings of one marker on one animal: one true level, read several times.
double readings(const Marker& marker, const MarkerRow& row,
                const std::vector<const colony::Score*>& scores) {
  double total = 0;
  for (std::size_t level = 0; level < marker.levels.size(); ++level) {
    double term = row.expect[level];
    for (const colony::Score* score : scores) {
      const double others = static_cast<double>(marker.levels.size()) - 1;
      term *= *score->level == level ? score->sure : (1 - score->sure) / others;
    }
    total += term;
  }
  return std::pow(total, marker.weight);
}

double result(const colony::Assay& assay, std::size_t genotype, std::size_t report) {
  double average = 0;
  for (const auto& row : assay.expect) average += row[report];
  average /= static_cast<double>(assay.expect.size());
  return (1 - assay.mix_up) * assay.expect[genotype][report] + assay.mix_up * average;
}

double one_offspring(const Locus& locus, std::size_t dam, std::size_t sire,
                     std::size_t appearance) {
  double alive = 0;
  double shown = 0;
  for (Sex sex : {Sex::female, Sex::male}) {
    for (std::size_t child = 0; child < locus.size(); ++child) {
      const double p = 0.5 * mendel(locus, dam, sire, child, sex) * locus.viability(child);
      alive += p;
      shown += p * locus.shows(child, appearance);
    }
  }
  return alive > 0 ? shown / alive : 0.0;
}

double brood(const Locus& locus, const colony::Brood& seen, const JointState& state) {
  const auto partner_sex = locus.genotypes()[seen.partner].sex;
  if (partner_sex && *partner_sex == state.sex) return 0;
  const std::size_t own = state.genotypes[seen.locus];
  const std::size_t dam = state.sex == Sex::female ? own : seen.partner;
  const std::size_t sire = state.sex == Sex::female ? seen.partner : own;
  double total = 1;
  for (const auto& [appearance, count] : seen.offspring) {
    total *= std::pow(one_offspring(locus, dam, sire, appearance), static_cast<double>(count));
  }
  return total;
}

}  // namespace

std::vector<std::vector<double>> likelihoods(const Colony& colony,
                                             const std::vector<std::size_t>& counting,
                                             const std::vector<JointState>& states, Layer layer) {
  std::vector<std::vector<double>> out(colony.animals().size(),
                                       std::vector<double>(states.size(), 1.0));
  const auto times = [&](std::size_t animal, const auto& of_state) {
    for (std::size_t s = 0; s < states.size(); ++s) out[animal][s] *= of_state(states[s]);
  };
  for (std::size_t a = 0; a < colony.animals().size(); ++a) {
    const auto sex = colony.animals()[a].sex;
    times(a, [&](const JointState& state) { return !sex || *sex == state.sex ? 1.0 : 0.0; });
  }
  if (layer == Layer::sexes) return out;

  const colony::Model& model = colony.model();
  std::map<std::pair<std::size_t, std::size_t>, std::vector<const colony::Score*>> scores;
  for (std::size_t o : counting) {
    const auto& what = colony.observations()[o].what;
    if (const auto* seen = std::get_if<colony::AppearanceSeen>(&what)) {
      times(seen->animal, [&](const JointState& state) {
        return model.loci()[seen->locus].shows(state.genotypes[seen->locus], seen->appearance);
      });
    } else if (const auto* counted = std::get_if<colony::Brood>(&what)) {
      times(counted->animal, [&](const JointState& state) {
        return brood(model.loci()[counted->locus], *counted, state);
      });
    } else if (const auto* score = std::get_if<colony::Score>(&what)) {
      if (score->level) scores[{score->animal, score->marker}].push_back(score);
    } else if (const auto* report = std::get_if<colony::Result>(&what)) {
      if (layer != Layer::posterior) continue;
      const colony::Assay& assay = model.assays()[report->assay];
      times(report->animal, [&](const JointState& state) {
        return result(assay, state.genotypes[assay.locus], report->report);
      });
    }
  }
  if (layer == Layer::pedigree) return out;
  for (const auto& [key, read] : scores) {
    const Marker& marker = model.markers()[key.second];
    const auto* rows = rows_for(colony, counting, marker, key.first);
    if (rows == nullptr) continue;
    times(key.first, [&, &read = read](const JointState& state) {
      return readings(marker, row_of(*rows, state), read);
    });
  }
  return out;
}

}  // namespace likelihet::properties
