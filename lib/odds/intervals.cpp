// Draws of the tables through one plan, eight side by side.
#include <algorithm>
#include <cmath>
#include <map>
#include <span>
#include <tuple>

#include <likelihet/odds/intervals.hpp>

namespace likelihet::odds {

namespace {

using inference::Lanes;
constexpr std::size_t width = 8;

// Something whose het probability is followed through the draws: a variable or a run of leaves.
struct Target {
  bool leaf = false;
  std::uint32_t id = 0;
  std::size_t locus = 0;
  friend bool operator<(const Target& a, const Target& b) {
    return std::tie(a.leaf, a.id, a.locus) < std::tie(b.leaf, b.id, b.locus);
  }
};

// Interpolated between order statistics (definition 7 of Hyndman and Fan 1996, The American
// Statistician 50:361); partly sorts `values`.
double quantile(std::span<double> values, double p) {
  const double at = p * static_cast<double>(values.size() - 1);
  const auto low = values.begin() + static_cast<std::ptrdiff_t>(std::floor(at));
  std::nth_element(values.begin(), low, values.end());
  if (low + 1 == values.end()) return *low;
  return *low + (at - std::floor(at)) * (*std::min_element(low + 1, values.end()) - *low);
}

class Draws {
 public:
  Draws(const Prepared& prepared, const colony::Model& model, const Options& options)
      : prepared_(prepared), model_(model), options_(options) {}

  void fill(std::vector<AnimalOdds>& animals) {
    choose_targets(animals.size());
    std::size_t series = 0;
    for (const auto& [target, first] : targets_) series += alleles(target.locus);
    const std::size_t affordable =
        options_.memory_bytes / 4 / sizeof(double) / std::max<std::size_t>(series, 1);
    draws_ = std::min<std::size_t>(options_.draws, std::max<std::size_t>(affordable, 200));
    samples_.assign(series * draws_, 0.0);
    draw();
    std::vector<std::pair<double, double>> ends(series);
    for (std::size_t s = 0; s < series; ++s) {
      const std::span<double> values(&samples_[s * draws_], draws_);
      ends[s] = {quantile(values, 0.025), quantile(values, 0.975)};
    }
    for (std::size_t a = 0; a < animals.size(); ++a) {
      for (std::size_t l = 0; l < animals[a].loci.size(); ++l) {
        const std::size_t first = targets_.at(target(a, l));
        for (std::size_t h = 0; h < animals[a].loci[l].het.size(); ++h) {
          animals[a].loci[l].het[h].low = ends[first + h].first;
          animals[a].loci[l].het[h].high = ends[first + h].second;
        }
      }
    }
  }

 private:
  std::size_t alleles(std::size_t locus) const { return model_.loci()[locus].alleles().size() - 1; }

  Target target(std::size_t animal, std::size_t locus) const {
    const Node& node = prepared_.net.node(animal, locus);
    return {node.leaf, node.leaf ? prepared_.plan->leaves().run_of[node.id] : node.id, locus};
  }

  void choose_targets(std::size_t animals) {
    std::size_t next = 0;
    for (std::size_t a = 0; a < animals; ++a) {
      for (std::size_t l = 0; l < model_.loci().size(); ++l) {
        if (targets_.try_emplace(target(a, l), next).second) next += alleles(l);
      }
    }
  }

  void draw() {
    const Tables centre = believed(model_);
    std::vector<double> values = prepared_.net.values(Layer::posterior, centre);
    const inference::Beliefs central = inference::infer(*prepared_.plan, values);
    std::mt19937_64 random(options_.seed);
    // Eight sets of numbers take eight times the memory of one.
    if (prepared_.plan->arena_size() * sizeof(Lanes<width>) > options_.memory_bytes) {
      for (std::size_t done = 0; done < draws_; ++done) {
        prepared_.net.renew(drawn(model_, random), values);
        keep(inference::infer(*prepared_.plan, values), central, done);
      }
      return;
    }
    std::vector<Lanes<width>> lanes(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) lanes[i] = Lanes<width>(values[i]);
    inference::Runner<Lanes<width>> runner(*prepared_.plan);
    const auto renewed = prepared_.net.renewed();
    for (std::size_t done = 0; done < draws_; done += width) {
      const std::size_t now = std::min(width, draws_ - done);
      for (std::size_t k = 0; k < now; ++k) {
        prepared_.net.renew(drawn(model_, random), values);
        for (const auto& [begin, end] : renewed) {
          for (std::size_t i = begin; i < end; ++i) lanes[i].lane[k] = values[i];
        }
      }
      if (runner.run(lanes)) {
        keep(runner.pass(), done, now);
        continue;
      }
      for (std::size_t k = 0; k < now; ++k) {
        for (std::size_t i = 0; i < values.size(); ++i) values[i] = lanes[i].lane[k];
        keep(inference::infer(*prepared_.plan, values), central, done + k);
      }
    }
  }

  void keep(const inference::Pass<Lanes<width>>& pass, std::size_t done, std::size_t now) {
    std::vector<Lanes<width>> marginal;
    for (const auto& [target, first] : targets_) {
      const genetics::Locus& locus = model_.loci()[target.locus];
      marginal.resize(locus.size());
      if (target.leaf) {
        const auto run = pass.run_posterior(target.id);
        std::copy(run.begin(), run.end(), marginal.begin());
      } else {
        pass.marginal(target.id, marginal);
      }
      for (std::size_t h = 0; h < alleles(target.locus); ++h) {
        double* out = &samples_[(first + h) * draws_ + done];
        for (std::size_t g = 0; g < locus.size(); ++g) {
          if (locus.genotypes()[g].copies(static_cast<std::uint16_t>(h + 1)) != 1) continue;
          for (std::size_t k = 0; k < now; ++k) out[k] += marginal[g].lane[k];
        }
      }
    }
  }

  // Draws so extreme that no genotype is left by rounding count as the central belief.
  void keep(const inference::Beliefs& drawn, const inference::Beliefs& central, std::size_t at) {
    const inference::Beliefs& beliefs = drawn.possible ? drawn : central;
    for (const auto& [target, first] : targets_) {
      const auto belief = target.leaf ? beliefs.run(target.id) : beliefs.variable(target.id);
      const std::vector<double> odds(belief.begin(), belief.end());
      for (std::size_t h = 0; h < alleles(target.locus); ++h) {
        samples_[(first + h) * draws_ + at] =
            het_of(model_.loci()[target.locus], odds, static_cast<std::uint16_t>(h + 1));
      }
    }
  }

  const Prepared& prepared_;
  const colony::Model& model_;
  const Options& options_;
  std::map<Target, std::size_t> targets_;  // to the first of its series, one an allele
  std::size_t draws_ = 0;
  std::vector<double> samples_;
};

}  // namespace

void fill_intervals(const Prepared& prepared, const colony::Model& model, const Options& options,
                    std::vector<AnimalOdds>& animals) {
  if (options.draws == 0 || !prepared.net.uncertain()) return;
  Draws(prepared, model, options).fill(animals);
}

}  // namespace likelihet::odds
