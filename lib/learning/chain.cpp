// A sweep: genotypes, levels, tables.
#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <span>
#include <tuple>

#include <likelihet/inference/multinomial.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/learning/expectation.hpp>
#include <likelihet/learning/random_stream.hpp>

namespace likelihet::learning {

namespace {

bool chance(double p, inference::RandomBits& random) {
  return p >= 1 || random.uniform() < p;
}

// Dirichlet(prior + seen), or what is believed where that leaves nothing open.
std::vector<double> dirichlet(const std::vector<double>& prior, const std::vector<double>& seen,
                              const std::vector<double>& believed, inference::RandomBits& random) {
  if (!open(prior)) return believed;
  std::vector<double> shapes(prior.size(), 0.0);
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    if (prior[i] > 0) shapes[i] = prior[i] + seen[i];
  }
  return odds::dirichlet(shapes, random);
}

// A reliability that leaves some room for error, so that two readings never clash for good.
double below_one(double sure) {
  return std::min(sure, 1 - 0x1p-53);
}

}  // namespace

std::vector<double> drawn_unborn(const genetics::Locus& locus,
                                 const std::vector<double>& frequencies, genetics::Sex sex,
                                 double alive, inference::RandomBits& random) {
  auto out = unborn(locus, frequencies, sex);
  double odds_of_death = 0;
  for (double w : out) odds_of_death += w;
  if (!(odds_of_death > 0) || !(alive > 0)) return std::vector<double>(out.size(), 0.0);
  // A gamma mixture of Poisson numbers, which part into one for each genotype.
  const double rate = std::gamma_distribution<double>(alive)(random);
  for (double& w : out) {
    const double mean = rate * w;
    // Beyond this a number and its mean are as good as the same.
    constexpr double many = 1e12;
    w = mean > many ? mean
        : mean > 0  ? static_cast<double>(std::poisson_distribution<std::int64_t>(mean)(random))
                    : 0.0;
  }
  return out;
}

Chain::Chain(const odds::Prepared& prepared, const colony::Model& model, odds::Tables start,
             std::uint64_t seed, std::uint64_t number)
    : prepared_(&prepared),
      model_(&model),
      believed_(odds::believed(model)),
      prior_(prior_counts(model)),
      tables_(std::move(start)),
      random_(random_stream(seed, Purpose::chains, number)),
      values_(prepared.net.values(odds::Layer::posterior, believed_)),
      renewal_(prepared.net, odds::Layer::posterior),
      pass_(*prepared.plan),
      sampler_(*prepared.plan),
      counts_(model),
      cells_(prepared),
      levels_(prepared.net, model),
      readings_(prepared.net.terms().size()),
      scorer_moves_(prepared.net, model, prior_) {
  for (std::uint32_t s = 0; s < prepared.net.scored().size(); ++s) {
    const auto& term = prepared.net.term(prepared.net.scored()[s].term);
    if (term.scores.size() > 1) scored_together_.push_back(s);
  }
}

bool Chain::step() {
  if (!draw_genotypes()) {
    // No part of the posterior: back to where the evidence was possible.
    if (!before_.rows.empty() || !before_.scorers.empty()) tables_ = before_;
    return false;
  }
  counts_ = Counts(*model_);
  count_scores();
  count_founders();
  draw_tables();
  return true;
}

bool Chain::draw_genotypes() {
  renewal_.take(tables_);
  renewal_.write(odds::Layer::posterior, values_);
  pass_.collect(values_);
  if (!pass_.in_doubt()) {
    log_evidence_ = log_of(pass_.total(), pass_.scale()) + prepared_->plan->silent_log();
    sampler_.draw(pass_, values_, random_, draw_);
    return true;
  }
  const std::vector<inference::Extended> wide(values_.begin(), values_.end());
  inference::Pass<inference::Extended> slow(*prepared_->plan);
  slow.collect(wide);
  if (!(slow.total().mantissa > 0)) return false;
  log_evidence_ = log_of(slow.total(), slow.scale()) + prepared_->plan->silent_log();
  sampler_.draw(slow, values_, random_, draw_);
  return true;
}

void Chain::count_scores() {
  levels_.at(tables_);
  tempered_.clear();
  together_.clear();
  cells_.count(draw_, animals_);
  for (std::size_t place = 0; place < cells_.terms().size(); ++place) {
    if (prepared_->net.term(cells_.terms()[place]).scores.size() == 1) count_term(place);
  }
  for (std::uint32_t s : scored_together_) count_together(prepared_->net.scored()[s]);
}

// All animals of a term whose genotypes give one row at once: their levels are drawn as numbers.
void Chain::count_term(std::size_t place) {
  const std::uint32_t term = cells_.terms()[place];
  const odds::Term::Score& score = prepared_->net.term(term).scores.front();
  auto& animals = readings_[term];
  animals.assign(tables_.rows[score.marker][score.table].size(), 0.0);
  const auto cells = cells_.of(place, animals_);
  for (std::size_t c = 0; c < cells.size(); ++c) animals[score.row_of[c]] += cells[c];
  const colony::Marker& marker = model_->markers()[score.marker];
  const std::size_t levels = marker.levels.size();
  const std::span weights(levels_.weights(term));
  for (std::size_t row = 0; row < animals.size(); ++row) {
    if (animals[row] == 0) continue;
    inference::multinomial(static_cast<std::size_t>(animals[row]),
                           weights.subspan(row * levels, levels), random_, drawn_);
    for (std::size_t level = 0; level < levels; ++level) {
      const auto number = static_cast<double>(drawn_[level]);
      if (number == 0) continue;
      count_level(score, row, level, marker.weight * number);
      if (marker.weight < 1) tempered_.push_back({term, row, level, number});
    }
  }
}

void Chain::count_level(const odds::Term::Score& score, std::size_t row, std::size_t level,
                        double animals) {
  counts_.rows[score.marker][score.table][row][level] += animals;
  for (const odds::Reading& one : score.readings) {
    if (!one.scorer) continue;
    auto& of = counts_.scorers[*one.scorer];
    (one.level == level ? of.right : of.wrong) += animals;
  }
}

void Chain::count_together(const odds::ColonyNetwork::Scored& scored) {
  const auto& scores = prepared_->net.term(scored.term).scores;
  std::vector<DrawnLevel> levels;
  levels_.draw(scored.term, cell_of(prepared_->net, scored, draw_), random_, levels);
  std::vector<LevelsTogether::Part> parts;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    count_level(scores[i], levels[i].row, levels[i].level, 1);
    parts.push_back(
        {static_cast<std::uint32_t>(scores[i].marker), static_cast<std::uint32_t>(scores[i].table),
         static_cast<std::uint32_t>(levels[i].row), static_cast<std::uint32_t>(levels[i].level)});
  }
  together_.add(parts);
}

void Chain::count_founders() {
  // Alive, by origin, locus and sex (an autosome's all under the first).
  std::map<std::tuple<std::size_t, std::size_t, genetics::Sex>, double> alive;
  for (const auto& founder : prepared_->net.founders()) {
    const odds::Term::Founder& term = *prepared_->net.term(founder.term).founder;
    if (!term.origin || term.unplaced) continue;
    const std::size_t genotype = draw_.variables[founder.variable];
    if (!chance(share_of_origin(*model_, term, tables_, genotype), random_)) continue;
    const genetics::Locus& locus = model_->loci()[term.locus];
    count_alleles(locus, genotype, 1, counts_.origins[*term.origin][term.locus]);
    const auto sex = locus.genotypes()[genotype].sex.value_or(genetics::Sex::female);
    if (locus.viability_matters()) alive[{*term.origin, term.locus, sex}] += 1;
  }
  for (const auto& [key, number] : alive) {
    const auto& [origin, l, sex] = key;
    const genetics::Locus& locus = model_->loci()[l];
    const auto dead = drawn_unborn(locus, tables_.origins[origin][l], sex, number, random_);
    for (std::size_t g = 0; g < dead.size(); ++g) {
      count_alleles(locus, g, dead[g], counts_.origins[origin][l]);
    }
  }
}

void Chain::draw_tables() {
  odds::Tables next = believed_;
  for (std::size_t m = 0; m < next.rows.size(); ++m) {
    for (std::size_t t = 0; t < next.rows[m].size(); ++t) {
      for (std::size_t r = 0; r < next.rows[m][t].size(); ++r) {
        next.rows[m][t][r] = dirichlet(prior_.rows[m][t][r], counts_.rows[m][t][r],
                                       believed_.rows[m][t][r], random_);
      }
    }
  }
  for (std::size_t o = 0; o < next.origins.size(); ++o) {
    for (std::size_t l = 0; l < next.origins[o].size(); ++l) {
      next.origins[o][l] =
          dirichlet(prior_.origins[o][l], counts_.origins[o][l], believed_.origins[o][l], random_);
    }
  }
  for (std::size_t s = 0; s < next.scorers.size(); ++s) {
    const Readings& belief = prior_.scorers[s];
    if (!open({belief.right, belief.wrong})) continue;
    next.scorers[s] =
        below_one(dirichlet({belief.right, belief.wrong},
                            {counts_.scorers[s].right, counts_.scorers[s].wrong}, {}, random_)
                      .front());
  }
  // Rows and scorers of tempered markers were proposed as if each level counted its weight: exact
  // where readings are sure, and put right here where they are not.
  if (!tempered_.empty() &&
      !(std::log(random_.uniform()) <= log_excess(next) - log_excess(tables_))) {
    next.rows = tables_.rows;
    next.scorers = tables_.scorers;
  }
  if (!next.loadings.empty()) {
    together_.move(*model_, prepared_->net.strengths(), prior_, counts_, tables_, next, random_);
  }
  scorer_moves_.move(readings_, next, random_);
  before_ = std::move(tables_);
  tables_ = std::move(next);
}

// ln of the true conditional density of the tables given genotypes and levels, over the one that
// they are drawn from: with S the chance of the readings in the row and p that of the level and the
// readings, the first has S^weight p/S for each score, the second p^weight.
double Chain::log_excess(const odds::Tables& tables) const {
  double sum = 0;
  for (const Tempered& one : tempered_) {
    const odds::Term::Score& score = prepared_->net.term(one.term).scores.front();
    const double weight = model_->markers()[score.marker].weight;
    const auto reading = prepared_->net.reading_of(score, tables);
    const auto& row = tables.rows[score.marker][score.table][one.row];
    double whole = 0;
    for (std::size_t k = 0; k < reading.size(); ++k) whole += row[k] * reading[k];
    sum += one.animals * (1 - weight) * std::log(row[one.level] * reading[one.level] / whole);
  }
  return sum;
}

}  // namespace likelihet::learning
