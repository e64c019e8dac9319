// Each marker, locus by locus.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include <likelihet/audit/cluster_sample.hpp>
#include <likelihet/audit/marker_audit.hpp>
#include <likelihet/audit/marker_groups.hpp>
#include <likelihet/audit/multiplicity.hpp>
#include <likelihet/audit/strata.hpp>
#include <likelihet/audit/two_by_two.hpp>
#include <likelihet/audit/verdict.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/evidence_score.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::audit {

namespace {

// Naive counts of known animals at a cut, of all or of one clutch.
TwoByTwo known_table(std::span<const Subject> subjects, std::size_t cut,
                     std::optional<std::size_t> cluster = std::nullopt) {
  TwoByTwo out;
  for (const Subject& one : subjects) {
    if (!one.known || (cluster && one.cluster != *cluster)) continue;
    const bool high = one.read.level >= cut;
    double& cell = *one.known ? (high ? out.true_positive : out.false_negative)
                              : (high ? out.false_positive : out.true_negative);
    cell += 1;
  }
  return out;
}

std::optional<Estimate> within_clutches(std::span<const Subject> subjects, std::size_t cut) {
  std::set<std::size_t> clusters;
  for (const Subject& one : subjects) clusters.insert(one.cluster);
  std::vector<TwoByTwo> tables;
  for (std::size_t cluster : clusters) {
    const TwoByTwo table = known_table(subjects, cut, cluster);
    const bool both_classes = table.true_positive + table.false_negative > 0 &&
                              table.false_positive + table.true_negative > 0;
    const bool both_levels = table.true_positive + table.false_positive > 0 &&
                             table.false_negative + table.true_negative > 0;
    if (both_classes && both_levels) tables.push_back(table);
  }
  if (tables.empty()) return std::nullopt;
  const auto found = mantel_haenszel(tables);
  return found ? found->odds_ratio : std::nullopt;
}

CutAudit audit_cut(std::span<const Subject> subjects, std::size_t levels, std::size_t cut) {
  const TwoByTwo naive = known_table(subjects, cut);
  const CutFit fit = fit_cut(at_cut(level_data(subjects, levels), cut));
  CutAudit out;
  out.at_least = cut;
  out.sensitivity = {sensitivity(naive), fit.sensitivity()};
  out.specificity = {specificity(naive), fit.specificity()};
  out.positive_ratio = {positive_ratio(naive), fit.positive_ratio()};
  out.negative_ratio = {negative_ratio(naive), fit.negative_ratio()};
  out.odds_ratio_pooled = fit.odds_ratio();
  out.odds_ratio_within = within_clutches(subjects, cut);
  return out;
}

// Mutual information of level and class, bits (Cover and Thomas 2006, equation 2.28).
double information(const LevelFit& fit, double hets) {
  const double share[2] = {1 - hets, hets};
  double bits = 0;
  for (std::size_t x = 0; x < fit.rows[0].size(); ++x) {
    const double all = share[0] * fit.rows[0][x] + share[1] * fit.rows[1][x];
    for (std::size_t c = 0; c < 2; ++c) {
      const double p = fit.rows[c][x];
      if (p > 0 && share[c] > 0) bits += share[c] * p * std::log2(p / all);
    }
  }
  return std::max(bits, 0.0);
}

double mean_carrier(std::span<const Subject> subjects) {
  double sum = 0;
  for (const Subject& one : subjects) sum += one.carrier;
  return subjects.empty() ? 0 : sum / static_cast<double>(subjects.size());
}

class MarkerAuditor {
 public:
  MarkerAuditor(const colony::Colony& colony, const MarkerBackground& background,
                std::size_t resamples, std::uint64_t seed)
      : colony_(colony), background_(background), resamples_(resamples), seed_(seed) {}

  [[nodiscard]] MarkerAudit audit(const MarkerReadings& of, std::size_t locus,
                                  std::uint16_t allele) const {
    MarkerAudit out;
    out.marker = of.marker;
    out.table = of.table;
    out.locus = locus;
    out.allele = allele;
    out.masked = of.masked;
    out.not_scorable = of.not_scorable;
    out.too_late = of.too_late;
    const std::size_t levels = colony_.model().markers()[of.marker].levels.size();
    const auto subjects = subjects_from(of.by_animal, out);
    out.animals = subjects.size();
    count(subjects, levels, out);
    out.cuts.reserve(levels - 1);
    for (std::size_t cut = 1; cut < levels; ++cut) {
      out.cuts.push_back(audit_cut(subjects, levels, cut));
    }
    set_information(subjects, levels, out);
    test(subjects, levels, out);
    audit_groups(colony_, background_.markerless, subjects, subjects_from(of.all, out), out);
    out.other = other_trait(colony_, background_.markerless, subjects, out, levels);
    return out;
  }

 private:
  [[nodiscard]] std::vector<Subject> subjects_from(std::span<const LevelRead> reads,
                                                   const MarkerAudit& of) const {
    return subjects_of(colony_, background_.markerless, reads, of.locus, of.allele, background_.yes,
                       background_.no);
  }

  static void count(std::span<const Subject> subjects, std::size_t levels, MarkerAudit& out) {
    out.known_carriers.assign(levels, 0);
    out.known_others.assign(levels, 0);
    for (const Subject& one : subjects) {
      if (!one.known) continue;
      ++out.known;
      (*one.known ? out.known_carriers : out.known_others)[one.read.level] += 1;
    }
    const LevelFit fit = fit_levels(level_data(subjects, levels));
    out.estimated_others = fit.rows[0];
    out.estimated_carriers = fit.rows[1];
  }

  void set_information(std::span<const Subject> subjects, std::size_t levels,
                       MarkerAudit& out) const {
    out.bits = information(fit_levels(level_data(subjects, levels)), mean_carrier(subjects));
    std::vector<std::size_t> cluster;
    cluster.reserve(subjects.size());
    for (const Subject& one : subjects) cluster.push_back(one.cluster);
    const ClusterSampler sampler(cluster);
    out.clutches = sampler.clusters();
    if (sampler.clusters() < 2 || resamples_ < 40) return;
    inference::RandomBits random(seed_);
    std::vector<double> drawn;
    drawn.reserve(resamples_);
    for (std::size_t k = 0; k < resamples_; ++k) {
      std::vector<Subject> sample;
      sample.reserve(subjects.size());
      for (const ClusterMember& one : sampler.draw(random)) {
        sample.push_back(subjects[one.position]);
      }
      drawn.push_back(information(fit_levels(level_data(sample, levels)), mean_carrier(sample)));
    }
    std::sort(drawn.begin(), drawn.end());
    out.bits_interval =
        Interval{odds::quantile_of_sorted(drawn, 0.025), odds::quantile_of_sorted(drawn, 0.975)};
  }

  void test(std::span<const Subject> subjects, std::size_t levels, MarkerAudit& out) const {
    const LevelData data = level_data(subjects, levels);
    const double apart = fit_levels(data).log_likelihood;
    const double alike = fit_levels(joined(data, std::vector<std::size_t>{0, 0})).log_likelihood;
    out.pooled.p = likelihood_ratio_p(apart, alike, degrees_between(data, 2, 1));
    std::vector<std::size_t> clutch;
    clutch.reserve(subjects.size());
    for (const Subject& one : subjects) clutch.push_back(one.cluster);
    const auto within = stratified_test(compared(subjects, clutch));
    out.within_clutch.p = within.p;
    out.within_clutch_z = within.z;
    out.informative_clutches = within.informative_strata;
    set_what_it_adds(subjects, out);
  }

  // Against each other marker in turn: whether hets show it more among animals alike in that
  // one.
  void set_what_it_adds(std::span<const Subject> subjects, MarkerAudit& out) const {
    for (const MarkerReadings& other : background_.readings) {
      if (other.marker == out.marker) continue;
      std::map<std::size_t, std::size_t> level_of;
      for (const LevelRead& read : other.by_animal) level_of[read.animal] = read.level;
      std::vector<Subject> both;
      std::vector<std::size_t> stratum;
      for (const Subject& one : subjects) {
        const auto found = level_of.find(one.read.animal);
        if (found == level_of.end()) continue;
        both.push_back(one);
        stratum.push_back(found->second);
      }
      const auto tested = stratified_test(compared(both, stratum));
      if (tested.informative_strata == 0) continue;
      const double p = tested.z > 0 ? tested.p : 1.0;
      if (out.adds_to_others && p <= out.adds_to_others->p) continue;
      out.adds_to_others = Tested{p, p};
      out.nearest_other = other.marker;
    }
  }

  const colony::Colony& colony_;
  const MarkerBackground& background_;
  std::size_t resamples_;
  std::uint64_t seed_;
};

// (locus, allele) that a marker's rows read; all of the model where they read none.
std::vector<std::pair<std::size_t, std::uint16_t>> targets(const colony::Model& model,
                                                           const colony::Marker& marker,
                                                           std::size_t table) {
  std::set<std::pair<std::size_t, std::uint16_t>> named;
  std::set<std::pair<std::size_t, std::uint16_t>> all;
  for (std::size_t l = 0; l < model.loci().size(); ++l) {
    const auto alleles = static_cast<std::uint16_t>(model.loci()[l].alleles().size());
    for (std::uint16_t a = 1; a < alleles; ++a) all.emplace(l, a);
  }
  for (const auto& row : odds::rows_of(marker, table)) {
    for (const auto& [locus, genotype] : row.at) {
      for (const auto& [l, a] : all) {
        if (l == locus && model.loci()[l].genotypes()[genotype].copies(a) > 0) named.emplace(l, a);
      }
    }
  }
  const auto& chosen = named.empty() ? all : named;
  return {chosen.begin(), chosen.end()};
}

// Over all markers of the audit, each kind of test by itself.
void adjust(std::vector<MarkerAudit>& markers) {
  const auto each = [&](auto member) {
    std::vector<double> p;
    for (MarkerAudit& audited : markers) {
      if (Tested* tested = member(audited)) p.push_back(tested->p);
    }
    const auto adjusted = benjamini_hochberg(p);
    std::size_t next = 0;
    for (MarkerAudit& audited : markers) {
      if (Tested* tested = member(audited)) tested->adjusted = adjusted[next++];
    }
  };
  each([](MarkerAudit& audited) { return &audited.pooled; });
  each([](MarkerAudit& audited) { return &audited.within_clutch; });
  each([](MarkerAudit& audited) {
    return audited.adds_to_others ? &*audited.adds_to_others : nullptr;
  });
}

// Lines with a table of their own in which a marker that predicts elsewhere has shown nothing.
void warn_of_lines(const colony::Model& model, std::vector<MarkerAudit>& markers) {
  for (MarkerAudit& audited : markers) {
    if (audited.table != 0 || audited.verdict != Verdict::predicts) continue;
    for (const MarkerAudit& other : markers) {
      if (other.marker != audited.marker || other.locus != audited.locus ||
          other.allele != audited.allele || other.table == 0 ||
          other.verdict == Verdict::predicts) {
        continue;
      }
      const auto& line = model.markers()[other.marker].contexts[other.table - 1].line;
      if (!line) continue;
      audited.why += fmt::format("; outside line {}, where there is {} ({} animals)", *line,
                                 words_of(other.verdict), other.animals);
    }
  }
}

}  // namespace

std::variant<MarkerBackground, odds::TooLarge> marker_background(const colony::Colony& colony,
                                                                 const std::vector<Truth>& truths,
                                                                 const TruthSettings& settings) {
  auto copies = markerless_copies(odds::scenario(colony, settings.as_of), events_of(colony),
                                  settings.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&copies)) return std::move(*large);
  std::vector<std::optional<colony::Date>> known(colony.animals().size());
  for (const Truth& truth : truths) {
    auto& day = known[truth.event.animal];
    if (truth.kind == Kind::relatives || !truth.known_on) continue;
    if (!day || *truth.known_on < *day) day = truth.known_on;
  }
  return MarkerBackground{
      marker_readings(colony, settings.as_of, known),
      MarkerlessTable(colony, std::move(std::get<std::vector<genetics::CopyChances>>(copies))),
      settings.yes, settings.no};
}

std::vector<MarkerAudit> audit_markers(const colony::Colony& colony,
                                       const MarkerBackground& background, std::size_t resamples,
                                       std::uint64_t seed) {
  const MarkerAuditor auditor(colony, background, resamples, seed);
  std::vector<MarkerAudit> out;
  for (const MarkerReadings& of : background.readings) {
    const auto& marker = colony.model().markers()[of.marker];
    for (const auto& [locus, allele] : targets(colony.model(), marker, of.table)) {
      out.push_back(auditor.audit(of, locus, allele));
    }
  }
  adjust(out);
  for (MarkerAudit& audited : out) judge(colony, audited);
  warn_of_lines(colony.model(), out);
  return out;
}

}  // namespace likelihet::audit
