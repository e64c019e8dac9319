// Intervals over what is not known of the tables, and averages over what was learned of them.
#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include <likelihet/genetics/copies.hpp>
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/odds/intervals.hpp>
#include <likelihet/odds/quantiles.hpp>
#include <likelihet/odds/table_draws.hpp>

namespace likelihet::odds {

namespace {

// P(exactly one copy) of each allele but the first, draw by draw, for every target.
class HetSeries {
 public:
  HetSeries(const colony::Model& model, const DrawTargets& targets, std::size_t draws,
            std::size_t memory_bytes)
      : model_(model), targets_(targets) {
    for (const DrawTarget& target : targets.list) {
      first_.push_back(series_);
      series_ += alleles(target.locus);
    }
    const std::size_t affordable =
        memory_bytes / 4 / sizeof(double) / std::max<std::size_t>(series_, 1);
    draws_ = std::min(draws, std::max<std::size_t>(affordable, 200));
    samples_.assign(series_ * draws_, 0.0);
  }

  [[nodiscard]] std::size_t draws() const { return draws_; }

  void keep(std::size_t target, const DrawStep& step, std::span<const DrawLanes> posterior) {
    const genetics::Locus& locus = model_.loci()[targets_.list[target].locus];
    for (std::size_t h = 0; h < alleles(targets_.list[target].locus); ++h) {
      double* out = &samples_[(first_[target] + h) * draws_ + step.first];
      for (std::size_t g = 0; g < locus.size(); ++g) {
        if (locus.genotypes()[g].copies(static_cast<std::uint16_t>(h + 1)) != 1) continue;
        for (std::size_t k = 0; k < step.count; ++k) out[k] += posterior[g].lane[k];
      }
    }
  }

  void write_intervals(std::vector<AnimalOdds>& animals) {
    std::vector<std::pair<double, double>> ends(series_);
    for (std::size_t s = 0; s < series_; ++s) {
      const std::span<double> values(&samples_[s * draws_], draws_);
      ends[s] = {quantile(values, 0.025), quantile(values, 0.975)};
    }
    std::size_t node = 0;
    for (AnimalOdds& animal : animals) {
      for (LocusOdds& locus : animal.loci) {
        const std::size_t first = first_[targets_.of[node++]];
        for (std::size_t h = 0; h < locus.het.size(); ++h) {
          locus.het[h].low = ends[first + h].first;
          locus.het[h].high = ends[first + h].second;
        }
      }
    }
  }

 private:
  [[nodiscard]] std::size_t alleles(std::size_t locus) const {
    return model_.loci()[locus].alleles().size() - 1;
  }

  const colony::Model& model_;
  const DrawTargets& targets_;
  std::vector<std::size_t> first_;  // by target: its first series, one an allele
  std::size_t series_ = 0;
  std::size_t draws_ = 0;
  std::vector<double> samples_;
};

std::vector<double>& layer_of(LocusOdds& odds, Layer layer) {
  if (layer == Layer::pedigree) return odds.pedigree;
  return layer == Layer::scored ? odds.scored : odds.posterior;
}

// Sums of posteriors over draws, target by target.
class Averages {
 public:
  Averages(const colony::Model& model, const DrawTargets& targets) : targets_(targets) {
    for (const DrawTarget& target : targets.list) {
      sums_.emplace_back(model.loci()[target.locus].size(), 0.0);
    }
  }

  void add(std::size_t target, const DrawStep& step, std::span<const DrawLanes> posterior) {
    for (std::size_t g = 0; g < posterior.size(); ++g) {
      for (std::size_t k = 0; k < step.count; ++k) sums_[target][g] += posterior[g].lane[k];
    }
  }

  void write(Layer layer, std::size_t draws, std::vector<AnimalOdds>& animals) const {
    std::size_t node = 0;
    for (AnimalOdds& animal : animals) {
      for (LocusOdds& locus : animal.loci) {
        auto& out = layer_of(locus, layer) = sums_[targets_.of[node++]];
        for (double& p : out) p /= static_cast<double>(draws);
      }
    }
  }

 private:
  const DrawTargets& targets_;
  std::vector<std::vector<double>> sums_;
};

}  // namespace

void set_means(const colony::Model& model, std::vector<AnimalOdds>& animals) {
  for (AnimalOdds& animal : animals) {
    for (std::size_t l = 0; l < animal.loci.size(); ++l) {
      const genetics::Locus& locus = model.loci()[l];
      animal.loci[l].het.clear();
      const auto alleles = static_cast<std::uint16_t>(locus.alleles().size());
      for (std::uint16_t allele = 1; allele < alleles; ++allele) {
        const double mean = genetics::copy_chances(locus, animal.loci[l].posterior, allele).one;
        animal.loci[l].het.push_back({mean, mean, mean});
      }
    }
  }
}

void fill_intervals(const Prepared& prepared, const colony::Model& model, const Options& options,
                    std::vector<AnimalOdds>& animals) {
  if (options.draws == 0 || !prepared.net.uncertain()) return;
  const DrawTargets targets(prepared, animals.size(), model.loci().size());
  HetSeries series(model, targets, options.draws, options.memory_bytes);
  inference::RandomBits random(options.seed);
  Tables draw;
  run_draws(
      prepared, model, Layer::posterior, targets, series.draws(), options.memory_bytes,
      [&]() -> const Tables& { return draw = drawn(model, random); }, [](const DrawStep&) {},
      [&](std::size_t target, const DrawStep& step, std::span<const DrawLanes> posterior) {
        series.keep(target, step, posterior);
      });
  series.write_intervals(animals);
}

double average_over(const Prepared& prepared, const colony::Model& model, const Options& options,
                    std::vector<AnimalOdds>& animals) {
  const std::vector<Tables>& draws = *options.learned;
  const DrawTargets targets(prepared, animals.size(), model.loci().size());
  HetSeries series(model, targets, draws.size(), options.memory_bytes);
  std::vector<double> logs;
  for (Layer layer : {Layer::pedigree, Layer::scored, Layer::posterior}) {
    Averages averages(model, targets);
    std::size_t next = 0;
    logs.clear();
    run_draws(
        prepared, model, layer, targets, series.draws(), options.memory_bytes,
        // Evenly out of all, where there are more than are kept.
        [&]() -> const Tables& { return draws[next++ * draws.size() / series.draws()]; },
        [&](const DrawStep& step) {
          logs.insert(logs.end(), step.log_evidence.begin(),
                      step.log_evidence.begin() + static_cast<std::ptrdiff_t>(step.count));
        },
        [&](std::size_t target, const DrawStep& step, std::span<const DrawLanes> posterior) {
          averages.add(target, step, posterior);
          if (layer == Layer::posterior) series.keep(target, step, posterior);
        });
    averages.write(layer, series.draws(), animals);
  }
  set_means(model, animals);
  series.write_intervals(animals);
  // ln of the average, the largest taken out first.
  const double largest = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (double log : logs) sum += std::exp(log - largest);
  return largest + std::log(sum / static_cast<double>(logs.size()));
}

}  // namespace likelihet::odds
