// Numbers of a colony's network from layers and tables.
#include <algorithm>

#include <likelihet/genetics/founder.hpp>
#include <likelihet/odds/colony_network.hpp>
#include <likelihet/odds/evidence_score.hpp>

namespace likelihet::odds {

namespace {

std::vector<double> all_first(const genetics::Locus& locus) {
  std::vector<double> frequencies(locus.alleles().size(), 0.0);
  frequencies.front() = 1.0;
  return frequencies;
}

// trust x odds + (1 - trust) x prior, within each sex on a sex chromosome.
void mix_in(const genetics::Locus& locus, const colony::BoughtAs& sold, genetics::Sex sex,
            std::vector<double>& prior) {
  const double share = locus.sex_linked() ? 0.5 : 1.0;
  double listed = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.possible(g, sex)) listed += sold.odds[g];
  }
  if (!(listed > 0)) return;  // the claim says nothing of this sex
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (!locus.possible(g, sex)) continue;
    prior[g] = sold.trust * share * sold.odds[g] / listed + (1 - sold.trust) * prior[g];
  }
}

std::vector<double> founder_numbers(const colony::Model& model, const Term::Founder& founder,
                                    const Tables& tables) {
  const genetics::Locus& locus = model.loci()[founder.locus];
  if (founder.unplaced) {
    std::vector<double> flat(locus.size(), 1.0);
    for (std::size_t g = 0; g < flat.size(); ++g) {
      double alike = 0;
      for (std::size_t h = 0; h < flat.size(); ++h) {
        alike += locus.genotypes()[g].sex == locus.genotypes()[h].sex ? 1.0 : 0.0;
      }
      flat[g] = (locus.sex_linked() ? 0.5 : 1.0) / alike;
    }
    return flat;
  }
  auto prior = genetics::founder_prior(
      locus, founder.origin ? tables.origins[*founder.origin][founder.locus] : all_first(locus));
  if (founder.bought_as != nullptr) {
    mix_in(locus, *founder.bought_as, genetics::Sex::female, prior);
    if (locus.sex_linked()) mix_in(locus, *founder.bought_as, genetics::Sex::male, prior);
  }
  return prior;
}

}  // namespace

// Whether the strength of expression plays a part.
bool ColonyNetwork::shared(const Term& term, const Tables& tables) const {
  const auto of = membership(*model_, term.scores.front().marker);
  const auto& loadings = tables.loadings[of->group];
  return std::any_of(loadings.begin(), loadings.end(), [](double b) { return b > 0; });
}

std::vector<double> ColonyNetwork::reading_of(const Term::Score& score,
                                              const Tables& tables) const {
  const std::size_t levels = model_->markers()[score.marker].levels.size();
  const bool fixed = std::none_of(score.readings.begin(), score.readings.end(),
                                  [](const Reading& reading) { return reading.scorer; });
  if (fixed) return reading_likelihood(levels, score.readings);
  std::vector<Reading> readings = score.readings;
  for (Reading& reading : readings) {
    if (reading.scorer) reading.sure = tables.scorers[*reading.scorer];
  }
  return reading_likelihood(levels, readings);
}

std::vector<double> ColonyNetwork::numbers(const Term& term, const Tables& tables) const {
  if (term.founder) return founder_numbers(*model_, *term.founder, tables);
  if (term.scores.empty()) return term.fixed;
  // Independent marks, each given the genotype alone.
  std::vector<double> out(term.scores.front().row_of.size(), 1.0);
  for (const Term::Score& score : term.scores) {
    const auto of_row =
        row_likelihood(tables.rows[score.marker][score.table], reading_of(score, tables),
                       model_->markers()[score.marker].weight);
    for (std::size_t cell = 0; cell < out.size(); ++cell) out[cell] *= of_row[score.row_of[cell]];
  }
  return out;
}

// Σ_q w_q Π_marks Σ_level P(level | row, strength q) r(level).
std::vector<double> ColonyNetwork::numbers(const std::vector<Term::Score>& scores,
                                           const Tables& tables, const GivenStrength& given) const {
  const std::size_t points = strengths_.weight.size();
  std::vector<std::vector<double>> of_score;  // row by row, the strength fastest
  for (const Term::Score& score : scores) {
    const auto reading = reading_of(score, tables);
    const std::size_t rows = tables.rows[score.marker][score.table].size();
    auto& sums = of_score.emplace_back(rows * points, 0.0);
    for (std::size_t r = 0; r < rows; ++r) {
      for (std::size_t level = 0; level < reading.size(); ++level) {
        const auto chance = given.at(score.marker, score.table, r, level);
        for (std::size_t q = 0; q < points; ++q) {
          sums[r * points + q] += chance[q] * reading[level];
        }
      }
    }
  }
  std::vector<double> out(scores.front().row_of.size());
  std::vector<double> product(points);
  for (std::size_t cell = 0; cell < out.size(); ++cell) {
    product = strengths_.weight;
    for (std::size_t s = 0; s < scores.size(); ++s) {
      const double* sums = of_score[s].data() + scores[s].row_of[cell] * points;
      for (std::size_t q = 0; q < points; ++q) product[q] *= sums[q];
    }
    for (double p : product) out[cell] += p;
  }
  return out;
}

// Those of fixed terms stand in the terms themselves, and those of later layers are not wanted.
ColonyNetwork::TermNumbers ColonyNetwork::all_numbers(Layer layer, const Tables& tables) const {
  TermNumbers out(terms_.size());
  std::optional<GivenStrength> given;
  for (std::size_t t = 0; t < terms_.size(); ++t) {
    const Term& term = terms_[t];
    if (!term.fixed.empty() || term.layer > layer) continue;
    if (term.scores.size() > 1 && shared(term, tables)) {
      if (!given) given.emplace(*model_, tables, strengths_);
      out[t] = numbers(term.scores, tables, *given);
    } else {
      out[t] = numbers(term, tables);
    }
  }
  return out;
}

void ColonyNetwork::write(const Slot& slot, Layer layer, const TermNumbers& numbers,
                          double* out) const {
  const std::size_t size = network_.size(slot.table);
  std::fill_n(out, size, 1.0);
  for (std::uint32_t t : slot.terms) {
    if (terms_[t].layer > layer) continue;
    const std::vector<double>& of = terms_[t].fixed.empty() ? numbers[t] : terms_[t].fixed;
    for (std::size_t i = 0; i < size; ++i) out[i] *= of[i];
  }
}

std::vector<double> ColonyNetwork::values(Layer layer, const Tables& tables) const {
  std::vector<double> out = network_.values();
  const TermNumbers numbers = all_numbers(layer, tables);
  for (const Slot& slot : slots_) write(slot, layer, numbers, &out[network_.offset(slot.table)]);
  return out;
}

void ColonyNetwork::renew(Layer layer, const Tables& tables, std::vector<double>& values) const {
  const TermNumbers numbers = all_numbers(layer, tables);
  for (const Slot& slot : slots_) {
    if (slot.depends) {
      write(slot, layer, numbers, &values[network_.offset(slot.table)]);
    }
  }
}

void ColonyNetwork::suppose(const GenotypePlace& place, std::span<const double> likelihood,
                            std::vector<double>& values) const {
  const auto [begin, end] = supposed(place);
  for (std::size_t i = begin; i < end; ++i) values[i] *= likelihood[i - begin];
}

std::vector<std::pair<std::size_t, std::size_t>> ColonyNetwork::renewed() const {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (const Slot& slot : slots_) {
    const std::size_t begin = network_.offset(slot.table);
    if (slot.depends) out.emplace_back(begin, begin + network_.size(slot.table));
  }
  return out;
}

bool ColonyNetwork::uncertain() const {
  return std::any_of(slots_.begin(), slots_.end(), [](const Slot& s) { return s.depends; });
}

}  // namespace likelihet::odds
