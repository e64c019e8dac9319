// Truth first, then what would have been recorded of it.
#include <algorithm>
#include <map>
#include <random>
#include <stdexcept>

#include <likelihet/colony/counting.hpp>
#include <likelihet/genetics/mendel.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/inference/sampling.hpp>
#include <likelihet/learning/counts.hpp>
#include <likelihet/learning/random_stream.hpp>
#include <likelihet/learning/simulate.hpp>
#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/evidence_score.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::learning {

namespace {

std::size_t pick(const std::vector<double>& weights, inference::RandomBits& random) {
  return std::discrete_distribution<std::size_t>(weights.begin(), weights.end())(random);
}

class Simulation {
 public:
  Simulation(const colony::Colony& colony, const colony::Records& records, std::uint64_t seed)
      : colony_(colony), model_(colony.model()), random_(random_stream(seed, Purpose::simulation)) {
    out_.records = records;
    out_.tables = drawn_belief(model_, random_);
  }

  SimulateOutcome run(std::size_t memory_bytes) {
    if (auto trouble = draw_genotypes(memory_bytes)) return std::move(*trouble);
    const auto& all = colony_.observations();
    // Appearances first: contexts of markers follow them.
    shows_.assign(colony_.animals().size(),
                  std::vector<std::vector<std::size_t>>(model_.loci().size()));
    std::vector<bool> counts(all.size(), false);
    for (std::size_t o : colony::counting(colony_, std::nullopt)) counts[o] = true;
    for (std::size_t o = 0; o < all.size(); ++o) {
      const auto* seen = std::get_if<colony::AppearanceSeen>(&all[o].what);
      if (seen != nullptr) see(*seen, o, counts[o]);
    }
    for (std::size_t o = 0; o < all.size(); ++o) {
      if (const auto* score = std::get_if<colony::Score>(&all[o].what)) read(*score, o);
      if (const auto* result = std::get_if<colony::Result>(&all[o].what)) report(*result, o);
      if (const auto* brood = std::get_if<colony::Brood>(&all[o].what)) hatch(*brood, o);
    }
    return std::move(out_);
  }

 private:
  // Nothing where they are drawn, else what stands in the way.
  std::optional<SimulateOutcome> draw_genotypes(std::size_t memory_bytes) {
    odds::Scenario bare = odds::scenario(colony_, std::nullopt);
    bare.observations.clear();
    settle_sexes(bare);
    auto made = odds::prepare(bare, out_.tables, memory_bytes);
    if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
    const auto& prepared = *std::get<std::unique_ptr<odds::Prepared>>(made);
    const auto values = prepared.net.values(odds::Layer::sexes, out_.tables);
    if (prepared.plan->impossible()) return odds::explain(bare, {});
    inference::Pass<double> pass(*prepared.plan);
    pass.collect(values);
    if (!(pass.total() > 0)) return odds::explain(bare, {});
    inference::Draw draw;
    inference::Sampler(*prepared.plan).draw(pass, values, random_, draw);
    for (std::size_t a = 0; a < colony_.animals().size(); ++a) {
      for (std::size_t l = 0; l < model_.loci().size(); ++l) {
        const odds::Node& node = prepared.net.node(a, l);
        out_.genotypes.push_back(node.leaf ? draw.leaves[node.id] : draw.variables[node.id]);
      }
    }
    return std::nullopt;
  }

  // Loci on the sex chromosome agree on a sex that nobody recorded. Where viability tells of it
  // the network ties them itself.
  void settle_sexes(odds::Scenario& scenario) {
    const auto& loci = model_.loci();
    const auto linked = std::count_if(loci.begin(), loci.end(),
                                      [](const auto& locus) { return locus.sex_linked(); });
    const bool tied = std::any_of(loci.begin(), loci.end(), [](const auto& locus) {
      return locus.sex_linked() && locus.viability_matters();
    });
    if (linked < 2 || tied) return;
    for (auto& sex : scenario.sexes) {
      if (!sex) sex = coin() ? genetics::Sex::female : genetics::Sex::male;
    }
  }

  bool coin() { return std::bernoulli_distribution()(random_); }
  [[nodiscard]] std::size_t genotype(std::size_t animal, std::size_t locus) const {
    return out_.genotypes[animal * model_.loci().size() + locus];
  }

  std::size_t shown_by(const genetics::Locus& locus, std::size_t genotype) {
    std::vector<double> weights;
    for (std::size_t a = 0; a < locus.appearances().size(); ++a) {
      weights.push_back(locus.shows(genotype, a));
    }
    return pick(weights, random_);
  }

  // What was withdrawn is drawn again too, but no context follows it.
  void see(const colony::AppearanceSeen& seen, std::size_t o, bool counts) {
    const genetics::Locus& locus = model_.loci()[seen.locus];
    const std::size_t shown = shown_by(locus, genotype(seen.animal, seen.locus));
    if (counts) shows_[seen.animal][seen.locus].push_back(shown);
    std::get<colony::AppearanceRecord>(out_.records.observations[o].what).shows =
        locus.appearances()[shown];
  }

  // The level that is there, one for each marker of an animal.
  std::optional<std::size_t> level_of(std::size_t animal, std::size_t m) {
    const auto known = levels_.find({animal, m});
    if (known != levels_.end()) return known->second;
    const colony::Marker& marker = model_.markers()[m];
    const auto table = odds::table_in_force(marker, shows_[animal], colony_.animals()[animal].line);
    std::optional<std::size_t> level;
    if (table) {
      const auto& rows = odds::rows_of(marker, *table);
      const auto row = std::find_if(rows.begin(), rows.end(), [&](const colony::MarkerRow& of) {
        return std::all_of(of.at.begin(), of.at.end(),
                           [&](const auto& at) { return genotype(animal, at.first) == at.second; });
      });
      level = pick(
          level_chances(animal, m,
                        out_.tables.rows[m][*table][static_cast<std::size_t>(row - rows.begin())]),
          random_);
    }
    return levels_[{animal, m}] = level;
  }

  // P(level | row), given the animal's strength of expression where the marker follows one.
  std::vector<double> level_chances(std::size_t animal, std::size_t m,
                                    const std::vector<double>& row) {
    const auto of = odds::membership(model_, m);
    if (!of) return row;
    if (points_.strength.empty()) points_ = odds::strength_points();
    const auto [known, fresh] = strengths_.try_emplace({animal, of->group}, 0.0);
    if (fresh) known->second = points_.strength[pick(points_.weight, random_)];
    return odds::given_strength(row, out_.tables.loadings[of->group][of->member], {known->second});
  }

  void read(const colony::Score& score, std::size_t o) {
    if (!score.level) return;
    const auto& names = model_.markers()[score.marker].levels;
    auto level = level_of(score.animal, score.marker);
    // What a context hides is read at random: it is no evidence either way.
    std::vector<double> weights(names.size(), 1.0);
    if (level) {
      const double sure =
          score.scorer && !score.own_sure ? out_.tables.scorers[*score.scorer] : score.sure;
      weights = odds::reading_likelihood(names.size(), {{*level, sure, std::nullopt}});
    }
    std::get<colony::ScoreRecord>(out_.records.observations[o].what).level =
        names[pick(weights, random_)];
  }

  void report(const colony::Result& result, std::size_t o) {
    const colony::Assay& assay = model_.assays()[result.assay];
    std::size_t row = genotype(result.animal, assay.locus);
    if (std::bernoulli_distribution(assay.mix_up)(random_)) {
      row = std::uniform_int_distribution<std::size_t>(0, assay.expect.size() - 1)(random_);
    }
    std::get<colony::ResultRecord>(out_.records.observations[o].what).report =
        assay.reports[pick(assay.expect[row], random_)];
  }

  void hatch(const colony::Brood& brood, std::size_t o) {
    const genetics::Locus& locus = model_.loci()[brood.locus];
    const std::size_t own = genotype(brood.animal, brood.locus);
    const bool partner_is_dam = locus.genotypes()[brood.partner].sex == genetics::Sex::female;
    std::vector<double> offspring(locus.size(), 0.0);
    for (const auto& [g, passes] : genetics::living_children(
             locus, genetics::Mendel(locus), partner_is_dam ? brood.partner : own,
             partner_is_dam ? own : brood.partner)) {
      offspring[g] = passes;
    }
    std::int64_t size = 0;
    for (const auto& [appearance, count] : brood.offspring) size += count;
    std::vector<std::int64_t> counts(locus.appearances().size(), 0);
    const bool none =
        std::all_of(offspring.begin(), offspring.end(), [](double p) { return p == 0; });
    for (std::int64_t i = 0; i < size && !none; ++i) {
      ++counts[shown_by(locus, pick(offspring, random_))];
    }
    auto& counted = std::get<colony::BroodRecord>(out_.records.observations[o].what).offspring;
    counted.clear();
    for (std::size_t a = 0; a < counts.size(); ++a) {
      if (counts[a] > 0) counted.emplace_back(locus.appearances()[a], counts[a]);
    }
  }

  const colony::Colony& colony_;
  const colony::Model& model_;
  inference::RandomBits random_;
  std::vector<std::vector<std::vector<std::size_t>>> shows_;  // by animal, by locus
  std::map<std::pair<std::size_t, std::size_t>, std::optional<std::size_t>> levels_;
  odds::StrengthPoints points_;
  std::map<std::pair<std::size_t, std::size_t>, double> strengths_;  // by animal and group
  Simulated out_;
};

}  // namespace

SimulateOutcome simulate(const colony::Colony& colony, const colony::Records& records,
                         std::uint64_t seed, std::size_t memory_bytes) {
  if (records.observations.size() != colony.observations().size()) {
    throw std::invalid_argument("the records are not those of the colony");
  }
  return Simulation(colony, records, seed).run(memory_bytes);
}

}  // namespace likelihet::learning
