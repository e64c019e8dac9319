// Leave-one-out probabilities of results and appearances.
#include <algorithm>
#include <span>

#include <fmt/format.h>

#include <likelihet/genetics/mendel.hpp>
#include <likelihet/odds/evidence_appearance.hpp>
#include <likelihet/odds/evidence_result.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/percent.hpp>
#include <likelihet/odds/surprises.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::odds {

namespace {

// Softened plans of at most so many bytes, or so many times the plain one's, are made for many
// candidates at once.
constexpr std::size_t easy_bytes = std::size_t{4} << 20U;
constexpr std::size_t easy_factor = 64;
constexpr std::size_t reasons_for = 8;

struct Candidate {
  const colony::Observation* observation;
  std::size_t animal, locus;
  std::vector<double> likelihood;
};

bool has_zero(const std::vector<double>& likelihood) {
  return std::any_of(likelihood.begin(), likelihood.end(), [](double p) { return p <= 0; });
}

// P(o | rest) from the posterior with o in it. 1 / Σ_g p(g)/L(g), the harmonic mean of Gelfand and
// Dey 1994, exact here as the sum is finite.
double left_out(const std::vector<double>& posterior, const std::vector<double>& likelihood) {
  double sum = 0;
  for (std::size_t g = 0; g < posterior.size(); ++g) {
    if (posterior[g] > 0) sum += posterior[g] / std::max(likelihood[g], soft_zero);
  }
  return sum > 0 ? 1 / sum : 0.0;
}

class Finder {
 public:
  Finder(const Scenario& all, const ColonyOdds& odds, std::size_t plain_bytes,
         const Options& options)
      : all_(all),
        odds_(odds),
        easy_bytes_(
            std::min(options.memory_bytes, std::max(easy_bytes, easy_factor * plain_bytes))),
        options_(options),
        colony_(*all.colony),
        tables_(believed(all.colony->model())) {}

  std::vector<Surprise> run() {
    std::vector<Candidate> hard;
    for (const auto* observation : all_.observations) {
      auto candidate = make(observation);
      if (!candidate) continue;
      if (has_zero(candidate->likelihood)) {
        hard.push_back(std::move(*candidate));
        continue;
      }
      const auto& of = odds_.animals[candidate->animal].loci[candidate->locus];
      report(*candidate, left_out(of.posterior, candidate->likelihood));
    }
    drop_expected(hard);
    soften(hard);
    std::sort(found_.begin(), found_.end(),
              [](const Surprise& a, const Surprise& b) { return a.observation < b.observation; });
    explain();
    return std::move(found_);
  }

 private:
  std::optional<Candidate> make(const colony::Observation* observation) const {
    if (const auto* seen = std::get_if<colony::AppearanceSeen>(&observation->what)) {
      return Candidate{
          observation, seen->animal, seen->locus,
          appearance_likelihood(colony_.model().loci()[seen->locus], seen->appearance)};
    }
    if (const auto* result = std::get_if<colony::Result>(&observation->what)) {
      const colony::Assay& assay = colony_.model().assays()[result->assay];
      return Candidate{observation, result->animal, assay.locus,
                       result_likelihood(assay, result->report)};
    }
    return std::nullopt;
  }

  // What each animal's own appearances allow, for the bound below.
  void note_shown() {
    const std::size_t loci = colony_.model().loci().size();
    allowed_.resize(colony_.animals().size() * loci);
    for (const auto* observation : all_.observations) {
      const auto* seen = std::get_if<colony::AppearanceSeen>(&observation->what);
      if (seen == nullptr) continue;
      const genetics::Locus& locus = colony_.model().loci()[seen->locus];
      auto& allowed = allowed_[seen->animal * loci + seen->locus];
      if (allowed.empty()) allowed.assign(locus.size(), 1);
      for (std::size_t g = 0; g < allowed.size(); ++g) {
        if (!(locus.shows(g, seen->appearance) > 0)) allowed[g] = 0;
      }
    }
  }

  // Leaves those whose probability is not at the limit or above for sure.
  void drop_expected(std::vector<Candidate>& candidates) {
    if (candidates.empty()) return;
    note_shown();
    Scenario soft = all_;
    for (const Candidate& candidate : candidates) soft.softened.insert(candidate.observation);
    const ColonyNetwork net = colony_network(soft, tables_);
    const auto values = net.values(Layer::posterior, tables_);
    std::erase_if(candidates, [&](const Candidate& candidate) {
      const Node& node = net.node(candidate.animal, candidate.locus);
      if (!node.leaf) return false;
      const auto& leaf = net.network().leaf(node.id);
      std::vector<double> others(
          values.begin() + static_cast<std::ptrdiff_t>(net.network().offset(leaf.evidence)),
          values.begin() + static_cast<std::ptrdiff_t>(net.network().offset(leaf.evidence)) +
              leaf.states);
      for (std::size_t g = 0; g < others.size(); ++g) {
        others[g] /= std::max(candidate.likelihood[g], soft_zero);
      }
      return expected(candidate, others);
    });
  }

  // Whether P(o | rest) is at least the limit under every pair of genotypes that the parents' own
  // appearances allow; `others` is what the animal's other evidence says of its genotype.
  bool expected(const Candidate& candidate, const std::vector<double>& others) {
    const std::size_t clutch = *all_.clutches[candidate.animal];
    const genetics::Locus& locus = colony_.model().loci()[candidate.locus];
    const genetics::Mendel& mendel = mendel_of(candidate.locus);
    std::vector<std::optional<std::size_t>> fathers;
    for (const auto& sire : all_.sires_of(clutch)) fathers.emplace_back(sire.animal);
    if (fathers.empty()) fathers.emplace_back();
    for (const auto& father : fathers) {
      for (std::size_t d = 0; d < locus.size(); ++d) {
        if (!may(colony_.clutches()[clutch].dam, candidate.locus, d)) continue;
        for (std::size_t s = 0; s < locus.size(); ++s) {
          if (!may(father, candidate.locus, s)) continue;
          double shown = 0;
          double any = 0;
          for (const auto& [g, passes] : genetics::living_children(locus, mendel, d, s)) {
            any += passes * others[g];
            shown += passes * others[g] * candidate.likelihood[g];
          }
          if (shown < surprise_limit * any) return false;
        }
      }
    }
    return true;
  }

  bool may(std::optional<std::size_t> parent, std::size_t locus, std::size_t genotype) const {
    if (!parent) return true;
    const auto& allowed = allowed_[*parent * colony_.model().loci().size() + locus];
    return allowed.empty() || allowed[genotype] != 0;
  }

  const genetics::Mendel& mendel_of(std::size_t l) {
    return mendel_.try_emplace(l, colony_.model().loci()[l]).first->second;
  }

  // All candidates in one softened plan where that is easy, else in halves, down to one at a time.
  void soften(std::span<const Candidate> candidates) {
    if (candidates.empty()) return;
    Scenario soft = all_;
    for (const Candidate& candidate : candidates) soft.softened.insert(candidate.observation);
    const bool single = candidates.size() == 1;
    auto made = prepare(soft, tables_, single ? options_.memory_bytes : easy_bytes_);
    if (std::holds_alternative<TooLarge>(made)) {
      if (single) return;  // too large to ask without it: not called a surprise
      const std::size_t half = candidates.size() / 2;
      soften(candidates.first(half));
      soften(candidates.subspan(half));
      return;
    }
    const auto& prepared = *std::get<std::unique_ptr<Prepared>>(made);
    const auto beliefs =
        inference::infer(*prepared.plan, prepared.net.values(Layer::posterior, tables_));
    if (!beliefs.possible) return;
    for (const Candidate& candidate : candidates) {
      const auto posterior = genotype_odds(prepared, beliefs, candidate.animal, candidate.locus);
      report(candidate, left_out(posterior, candidate.likelihood));
    }
  }

  void report(const Candidate& candidate, double probability) {
    if (!(probability < surprise_limit)) return;
    Surprise surprise;
    surprise.observation =
        static_cast<std::size_t>(candidate.observation - colony_.observations().data());
    surprise.probability = std::max(probability, 0.0);
    found_.push_back(std::move(surprise));
  }

  void explain() {
    std::size_t weighed = 0;
    for (Surprise& surprise : found_) {
      const colony::Observation& observation = colony_.observations()[surprise.observation];
      surprise.why = fmt::format("{}: everything else gave it a chance of {}.",
                                 describe(colony_, observation), percent(surprise.probability));
      if (++weighed > reasons_for) continue;
      surprise.reasons = weigh_reasons(all_, observation, options_);
      if (surprise.reasons.empty()) continue;
      surprise.why += " Of what may lie behind it:";
      std::size_t told = 0;
      for (const Reason& reason : surprise.reasons) {
        if (told++ == 4) break;
        surprise.why +=
            fmt::format("{} {} ({})", told == 1 ? "" : ";", reason.text, percent(reason.share));
      }
      surprise.why += ".";
    }
  }

  const Scenario& all_;
  const ColonyOdds& odds_;
  std::size_t easy_bytes_;
  const Options& options_;
  const colony::Colony& colony_;
  Tables tables_;
  std::vector<std::vector<std::uint8_t>> allowed_;  // by animal x locus; empty: everything
  std::map<std::size_t, genetics::Mendel> mendel_;  // by locus
  std::vector<Surprise> found_;
};

}  // namespace

std::vector<Surprise> find_surprises(const Scenario& all, const ColonyOdds& odds,
                                     std::size_t plain_bytes, const Options& options) {
  return Finder(all, odds, plain_bytes, options).run();
}

}  // namespace likelihet::odds
