// Priors of founders and likelihoods of markers.
#include <algorithm>
#include <cmath>

#include <likelihet/genetics/founder.hpp>
#include <likelihet/odds/term_numbers.hpp>

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

// As Term::Founder says.
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

double read_score(const colony::Model& model, const Term::Score& score, const Tables& tables,
                  std::vector<double>& out) {
  const std::size_t levels = model.markers()[score.marker].levels.size();
  if (many(score.readings)) {
    std::vector<Reading> readings = score.readings;
    for (Reading& reading : readings) {
      if (reading.scorer) reading.sure = tables.scorers[*reading.scorer];
    }
    return scaled_reading_likelihood(levels, readings, out);
  }
  out.assign(levels, 1.0);
  for (const Reading& reading : score.readings) {
    multiply_reading(reading.level, reading.scorer ? tables.scorers[*reading.scorer] : reading.sure,
                     out);
  }
  return 0;
}

void TermNumbers::at(const Tables& tables) {
  tables_ = &tables;
  given_.reset();
}

std::span<const double> TermNumbers::of(const Term& term) {
  if (!term.fixed.empty()) return term.fixed;
  if (term.scale_parts > 0) {
    // Never 0: that would say that nothing is possible.
    const double part = log_scale(term.scores) / static_cast<double>(term.scale_parts);
    numbers_.assign(1, std::exp(std::max(part, -600.0)));
  } else if (term.founder) {
    numbers_ = founder_numbers(*model_, *term.founder, *tables_);
  } else if (term.scores.size() > 1 && shared(term.scores)) {
    average_over_strengths(term.scores);
  } else {
    multiply_independent(term.scores);
  }
  return numbers_;
}

// Whether the strength of expression plays a part.
bool TermNumbers::shared(const std::vector<Term::Score>& scores) const {
  const auto of = membership(*model_, scores.front().marker);
  const auto& loadings = tables_->loadings[of->group];
  return std::any_of(loadings.begin(), loadings.end(), [](double b) { return b > 0; });
}

double TermNumbers::log_scale(const std::vector<Term::Score>& scores) {
  double sum = 0;
  for (const Term::Score& score : scores) {
    sum += model_->markers()[score.marker].weight * read_score(*model_, score, *tables_, reading_);
  }
  return sum;
}

// Each marker given the genotype alone.
void TermNumbers::multiply_independent(const std::vector<Term::Score>& scores) {
  numbers_.assign(scores.front().row_of.size(), 1.0);
  for (const Term::Score& score : scores) {
    read_score(*model_, score, *tables_, reading_);
    row_likelihood(tables_->rows[score.marker][score.table], reading_,
                   model_->markers()[score.marker].weight, of_row_);
    for (std::size_t cell = 0; cell < numbers_.size(); ++cell) {
      numbers_[cell] *= of_row_[score.row_of[cell]];
    }
  }
}

void TermNumbers::average_over_strengths(const std::vector<Term::Score>& scores) {
  if (!given_) given_.emplace(*model_, *tables_, *strengths_);
  const std::size_t points = strengths_->weight.size();
  of_score_.resize(std::max(of_score_.size(), scores.size()));
  for (std::size_t s = 0; s < scores.size(); ++s) {
    const Term::Score& score = scores[s];
    read_score(*model_, score, *tables_, reading_);
    const std::size_t rows = tables_->rows[score.marker][score.table].size();
    of_score_[s].assign(rows * points, 0.0);
    for (std::size_t r = 0; r < rows; ++r) {
      for (std::size_t level = 0; level < reading_.size(); ++level) {
        const auto chance = given_->at(score.marker, score.table, r, level);
        for (std::size_t q = 0; q < points; ++q) {
          of_score_[s][r * points + q] += chance[q] * reading_[level];
        }
      }
    }
  }
  numbers_.assign(scores.front().row_of.size(), 0.0);
  for (std::size_t cell = 0; cell < numbers_.size(); ++cell) {
    product_ = strengths_->weight;
    for (std::size_t s = 0; s < scores.size(); ++s) {
      const double* sums = of_score_[s].data() + scores[s].row_of[cell] * points;
      for (std::size_t q = 0; q < points; ++q) product_[q] *= sums[q];
    }
    for (double p : product_) numbers_[cell] += p;
  }
}

}  // namespace likelihet::odds
