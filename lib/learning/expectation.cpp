// Expected counts from exact beliefs.
#include <algorithm>
#include <optional>
#include <span>
#include <stdexcept>

#include <likelihet/genetics/founder.hpp>
#include <likelihet/learning/expectation.hpp>
#include <likelihet/learning/shared_levels.hpp>

namespace likelihet::learning {

namespace {

// Of one pass, as doubles.
template <class Number>
std::vector<double> belief_of(const inference::Network& network,
                              const inference::Pass<Number>& pass, inference::Variable v) {
  std::vector<Number> numbers(network.states(v));
  pass.marginal(v, numbers);
  std::vector<double> out(numbers.size());
  std::transform(numbers.begin(), numbers.end(), out.begin(),
                 [](const Number& number) { return inference::as_double(number); });
  return out;
}

// Only animals that were seen are counted, so nothing is asked of silent ones: neither beside the
// tree nor below it. False if in doubt.
template <class Number>
bool believe_seen(inference::Pass<Number>& pass, const std::vector<Number>& values) {
  pass.propagate(values);
  if (pass.in_doubt()) return false;
  pass.late_posteriors();
  return true;
}

// `joint` is what all animals with these readings have together, so it may sum to more than 1.
void count_score(const odds::Term::Score& score, const std::vector<double>& reading,
                 std::span<const double> joint, double weight, const odds::Tables& tables,
                 Counts& counts) {
  const auto& rows = tables.rows[score.marker][score.table];
  std::vector<double> chance(rows.size(), 0.0);
  for (std::size_t cell = 0; cell < joint.size(); ++cell) chance[score.row_of[cell]] += joint[cell];
  std::vector<double> level_chance(reading.size(), 0.0);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    if (!(chance[r] > 0)) continue;
    double whole = 0;
    for (std::size_t k = 0; k < reading.size(); ++k) whole += rows[r][k] * reading[k];
    if (!(whole > 0)) continue;
    for (std::size_t k = 0; k < reading.size(); ++k) {
      const double share = weight * chance[r] * rows[r][k] * reading[k] / whole;
      counts.rows[score.marker][score.table][r][k] += share;
      level_chance[k] += share;
    }
  }
  count_readings(score, level_chance, counts);
}

// Animals with the same readings are counted as one.
void count_scores(const odds::ColonyNetwork& net, const colony::Model& model,
                  const ScoredCells& cells, const std::vector<double>& animals,
                  const odds::Tables& tables, Counts& counts) {
  std::optional<odds::GivenStrength> given;
  for (std::size_t place = 0; place < cells.terms().size(); ++place) {
    const auto joint = cells.of(place, animals);
    const auto& scores = net.term(cells.terms()[place]).scores;
    if (scores.size() > 1) {
      if (!given) given.emplace(model, tables, net.strengths());
      SharedLevels(scores, net, tables, *given).count(joint, counts);
      continue;
    }
    const odds::Term::Score& score = scores.front();
    count_score(score, net.reading_of(score, tables), joint, model.markers()[score.marker].weight,
                tables, counts);
  }
}

void count_founder(const colony::Model& model, const odds::Term::Founder& founder,
                   const std::vector<double>& belief, const odds::Tables& tables, Counts& counts) {
  if (!founder.origin || founder.unplaced) return;
  const genetics::Locus& locus = model.loci()[founder.locus];
  auto& alleles = counts.origins[*founder.origin][founder.locus];
  double of_sex[2] = {0, 0};  // female or either, male
  for (std::size_t g = 0; g < belief.size(); ++g) {
    if (!(belief[g] > 0)) continue;
    const double share = belief[g] * share_of_origin(model, founder, tables, g);
    count_alleles(locus, g, share, alleles);
    of_sex[locus.genotypes()[g].sex == genetics::Sex::male ? 1 : 0] += share;
  }
  for (const auto sex : {genetics::Sex::female, genetics::Sex::male}) {
    const double weight = of_sex[sex == genetics::Sex::male ? 1 : 0];
    if (!(weight > 0)) continue;
    const auto dead = unborn(locus, tables.origins[*founder.origin][founder.locus], sex);
    for (std::size_t g = 0; g < dead.size(); ++g) {
      count_alleles(locus, g, weight * dead[g], alleles);
    }
  }
}

}  // namespace

void count_alleles(const genetics::Locus& locus, std::size_t genotype, double weight,
                   std::vector<double>& counts) {
  const genetics::Genotype& of = locus.genotypes()[genotype];
  counts[of.first] += weight;
  if (of.second) counts[*of.second] += weight;
}

double share_of_origin(const colony::Model& model, const odds::Term::Founder& founder,
                       const odds::Tables& tables, std::size_t genotype) {
  if (founder.bought_as == nullptr) return 1;
  const genetics::Locus& locus = model.loci()[founder.locus];
  const auto prior = genetics::founder_prior(locus, tables.origins[*founder.origin][founder.locus]);
  const auto sex = locus.genotypes()[genotype].sex;
  double listed = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (locus.genotypes()[g].sex == sex) listed += founder.bought_as->odds[g];
  }
  if (!(listed > 0)) return 1;  // the claim says nothing of this sex
  const double trust = founder.bought_as->trust;
  const double of_sex = locus.sex_linked() ? 0.5 : 1.0;
  const double claim = trust * of_sex * founder.bought_as->odds[genotype] / listed;
  const double origin = (1 - trust) * prior[genotype];
  return origin + claim > 0 ? origin / (origin + claim) : 0.0;
}

std::vector<double> unborn(const genetics::Locus& locus, const std::vector<double>& frequencies,
                           genetics::Sex sex) {
  if (!locus.viability_matters()) return {};
  double best = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) best = std::max(best, locus.viability(g));
  std::vector<double> out(locus.size(), 0.0);
  double alive = 0;
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (!locus.possible(g, sex)) continue;
    const double before = genetics::hardy_weinberg(locus.genotypes()[g], frequencies);
    alive += before * locus.viability(g) / best;
    out[g] = before * (1 - locus.viability(g) / best);
  }
  for (double& p : out) p /= alive;
  return out;
}

Expecting::Expecting(const odds::Prepared& prepared, const colony::Model& model)
    : prepared_(&prepared),
      model_(&model),
      values_(prepared.net.values(odds::Layer::posterior, odds::believed(model))),
      renewal_(prepared.net, odds::Layer::posterior),
      pass_(*prepared.plan),
      cells_(prepared) {
  if (prepared.plan->impossible()) throw std::invalid_argument("the evidence contradicts itself");
}

template <class Number>
Expectation Expecting::counted(const inference::Pass<Number>& pass,
                               const odds::Tables& tables) const {
  Expectation out{Counts(*model_),
                  log_of(pass.total(), pass.scale()) + prepared_->plan->silent_log()};
  out.counts.make_room(*model_, prepared_->net.strengths());
  std::vector<double> animals;
  cells_.believe(pass, animals);
  const odds::ColonyNetwork& net = prepared_->net;
  count_scores(net, *model_, cells_, animals, tables, out.counts);
  for (const auto& founder : net.founders()) {
    const odds::Term::Founder& term = *net.term(founder.term).founder;
    if (term.origin) {
      count_founder(*model_, term, belief_of(net.network(), pass, founder.variable), tables,
                    out.counts);
    }
  }
  return out;
}

std::optional<Expectation> Expecting::at(const odds::Tables& tables) {
  renewal_.take(tables);
  renewal_.write(odds::Layer::posterior, values_);
  if (believe_seen<double>(pass_, values_)) return counted(pass_, tables);
  std::vector<inference::Extended> wide(values_.begin(), values_.end());
  inference::Pass<inference::Extended> slow(*prepared_->plan);
  believe_seen<inference::Extended>(slow, wide);
  if (!(slow.total().mantissa > 0)) return std::nullopt;
  return counted(slow, tables);
}

}  // namespace likelihet::learning
