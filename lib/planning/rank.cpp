// All pairs from as few runs as there are genotypes of dams.
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include <fmt/format.h>

#include <likelihet/planning/kinship.hpp>
#include <likelihet/planning/rank.hpp>

namespace likelihet::planning {

namespace {

// Joint tables of pairs are made for so many of them at a time, bytes.
constexpr std::size_t largest_block = std::size_t{64} << 20U;

// So many are collected before the best of them are kept.
constexpr std::size_t least_kept = 1024;

using Trouble = std::variant<std::monostate, odds::Contradiction, odds::TooLarge>;

// Dams and sires that one scenario serves: their sexes are as it takes them.
struct Round {
  std::vector<std::size_t> dams, sires;
};

struct Candidates {
  std::vector<std::size_t> females, males, unknown;
};

Candidates candidates_of(const colony::Colony& colony) {
  Candidates out;
  for (std::size_t a = 0; a < colony.animals().size(); ++a) {
    const auto sex = colony.animals()[a].sex;
    (!sex ? out.unknown : *sex == genetics::Sex::female ? out.females : out.males).push_back(a);
  }
  return out;
}

// Where no locus is on a sex chromosome, an animal's sex tells nothing of its genotypes.
std::vector<Round> rounds_of(const colony::Colony& colony, const Candidates& of) {
  const auto& loci = colony.model().loci();
  const auto with = [&](std::vector<std::size_t> list) {
    list.insert(list.end(), of.unknown.begin(), of.unknown.end());
    return list;
  };
  if (std::none_of(loci.begin(), loci.end(), [](const auto& l) { return l.sex_linked(); })) {
    return {{with(of.females), with(of.males)}};
  }
  std::vector<Round> out{{of.females, of.males}};
  for (std::size_t a : of.unknown) {
    out.push_back({{a}, of.males});
    out.push_back({of.females, {a}});
    for (std::size_t b : of.unknown) {
      if (a != b) out.push_back({{a}, {b}});
    }
  }
  return out;
}

void sort_best_first(const colony::Colony& colony, std::size_t offspring, Ranking& ranking) {
  // Chances that differ by rounding alone are equal.
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t n = 0; n < ranking.pairs.size(); ++n) {
    order.emplace_back(std::round(1e12 * ranking.pairs[n].wanted.at_least_one(offspring)), n);
  }
  const auto id = [&](std::size_t animal) { return colony.animals()[animal].id; };
  std::sort(order.begin(), order.end(), [&](const auto& a, const auto& b) {
    const RankedPair& one = ranking.pairs[a.second];
    const RankedPair& other = ranking.pairs[b.second];
    if (a.first != b.first) return a.first > b.first;
    if (one.inbreeding != other.inbreeding) return one.inbreeding < other.inbreeding;
    if (one.pair.dam != other.pair.dam) return id(one.pair.dam) < id(other.pair.dam);
    return id(one.pair.sire) < id(other.pair.sire);
  });
  std::vector<RankedPair> sorted;
  sorted.reserve(order.size());
  for (const auto& [value, n] : order) sorted.push_back(std::move(ranking.pairs[n]));
  ranking.pairs = std::move(sorted);
}

std::vector<std::size_t> part_of(const std::vector<std::size_t>& list, std::size_t first,
                                 std::size_t count) {
  const auto begin = list.begin() + static_cast<std::ptrdiff_t>(first);
  return {begin, begin + static_cast<std::ptrdiff_t>(std::min(count, list.size() - first))};
}

class Ranker {
 public:
  Ranker(const colony::Colony& colony, const Goal& goal, std::size_t offspring,
         const odds::Options& options, std::span<const odds::Tables* const> learned,
         std::size_t most)
      : colony_(colony),
        offspring_(offspring),
        options_(options),
        block_bytes_(std::min(options.memory_bytes / 8, largest_block)),
        most_(most),
        learned_(learned),
        locus_(colony.model().loci()[goal.locus]),
        at_locus_(locus_),
        wanted_(colony.model(),
                goal.genotype ? wanted_genotype(colony.model(), goal.locus, *goal.genotype)
                              : wanted_appearance(colony.model(), goal.locus, goal.appearance)),
        counted_(colony.model(), wanted_appearance(colony.model(), goal.locus, goal.appearance)) {}

  // Adds the pairs of a round to the ranking.
  Trouble add(const Round& round, const Kinship& kinship, Ranking& out) {
    if (round.dams.empty() || round.sires.empty()) return {};
    odds::Options options = options_;
    options.memory_bytes -= block_bytes_;
    auto made = odds::JointBeliefs::make(scenario_of(round), options);
    if (auto* none = std::get_if<odds::Contradiction>(&made)) return std::move(*none);
    if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
    auto& beliefs = *std::get<std::unique_ptr<odds::JointBeliefs>>(made);
    if (wanted_.loci().size() == 1) {
      add_tables(round, beliefs, kinship, out);
      return {};
    }
    return add_tied(round, beliefs, kinship, out);
  }

 private:
  odds::Scenario scenario_of(const Round& round) {
    odds::Scenario scenario = odds::scenario(colony_, options_.as_of);
    position_.clear();
    const auto hold = [&](std::size_t animal, genetics::Sex sex) {
      if (!position_.try_emplace(animal, scenario.held.size()).second) return;
      for (std::size_t l : wanted_.loci()) scenario.held.push_back({animal, l});
      // In a round of many, sexes tell nothing.
      if (round.dams.size() == 1 || round.sires.size() == 1) scenario.sexes[animal] = sex;
    };
    for (std::size_t a : round.dams) hold(a, genetics::Sex::female);
    for (std::size_t a : round.sires) hold(a, genetics::Sex::male);
    return scenario;
  }

  // One locus: tables of pairs, averaged over sets of tables, a block of pairs at a time.
  void add_tables(const Round& round, odds::JointBeliefs& beliefs, const Kinship& kinship,
                  Ranking& out) {
    const std::size_t pair_bytes = 2 * locus_.size() * locus_.size() * sizeof(double) + 256;
    const std::size_t pairs = std::max<std::size_t>(block_bytes_ / pair_bytes, 1);
    const std::size_t sires = std::min(round.sires.size(), pairs);
    const std::size_t dams = pairs / sires;
    for (std::size_t d = 0; d < round.dams.size(); d += dams) {
      for (std::size_t s = 0; s < round.sires.size(); s += sires) {
        const Round block{part_of(round.dams, d, dams), part_of(round.sires, s, sires)};
        add_block(block, beliefs, kinship, out);
      }
    }
  }

  void add_block(const Round& block, odds::JointBeliefs& beliefs, const Kinship& kinship,
                 Ranking& out) {
    std::vector<std::vector<double>> sums(block.dams.size() * block.sires.size());
    const std::size_t runs = std::max<std::size_t>(learned_.size(), 1);
    for (std::size_t t = 0; t < runs; ++t) {
      if (!learned_.empty()) beliefs.take(*learned_[t]);
      for (std::size_t d = 0; d < block.dams.size(); ++d) {
        std::vector<std::size_t> seconds, which;
        for (std::size_t s = 0; s < block.sires.size(); ++s) {
          if (block.sires[s] == block.dams[d]) continue;
          seconds.push_back(position_.at(block.sires[s]));
          which.push_back(d * block.sires.size() + s);
        }
        const auto tables = beliefs.pairs(position_.at(block.dams[d]), seconds);
        for (std::size_t k = 0; k < tables.size(); ++k) {
          auto& sum = sums[which[k]];
          sum.resize(tables[k].size(), 0.0);
          for (std::size_t i = 0; i < sum.size(); ++i) {
            sum[i] += tables[k][i] / static_cast<double>(runs);
          }
        }
      }
    }
    for (std::size_t n = 0; n < sums.size(); ++n) {
      if (sums[n].empty()) continue;
      const Pair pair{block.dams[n / block.sires.size()], block.sires[n % block.sires.size()]};
      add_pair(pair, wanted_.cells(sums[n]), counted_.cells(sums[n]), kinship, out);
    }
  }

  // Several loci that survival ties together: pair by pair.
  Trouble add_tied(const Round& round, odds::JointBeliefs& beliefs, const Kinship& kinship,
                   Ranking& out) {
    for (std::size_t dam : round.dams) {
      for (std::size_t sire : round.sires) {
        if (dam == sire) continue;
        const auto of_dam = positions(dam), of_sire = positions(sire);
        auto wanted = wanted_.cells(beliefs, of_dam, of_sire, learned_);
        if (auto* large = std::get_if<odds::TooLarge>(&wanted)) return std::move(*large);
        auto counted = counted_.cells(beliefs, of_dam, of_sire, learned_);
        if (auto* large = std::get_if<odds::TooLarge>(&counted)) return std::move(*large);
        add_pair({dam, sire}, std::get<std::vector<PairCell>>(wanted),
                 std::get<std::vector<PairCell>>(counted), kinship, out);
      }
    }
    return {};
  }

  [[nodiscard]] std::vector<std::size_t> positions(std::size_t animal) const {
    std::vector<std::size_t> out;
    for (std::size_t k = 0; k < wanted_.loci().size(); ++k) {
      out.push_back(position_.at(animal) + k);
    }
    return out;
  }

  void add_pair(Pair pair, const std::vector<PairCell>& wanted,
                const std::vector<PairCell>& counted, const Kinship& kinship, Ranking& out) const {
    ++out.considered;
    if (wanted.empty()) return;
    RankedPair ranked;
    ranked.pair = pair;
    ranked.wanted = mixture_of(wanted);
    ranked.teaches = mixture_of(counted).information(offspring_);
    ranked.inbreeding = kinship.between(pair.dam, pair.sire);
    ranked.dam_of_unknown_sex = !colony_.animals()[pair.dam].sex;
    ranked.sire_of_unknown_sex = !colony_.animals()[pair.sire].sex;
    for (const PairCell& cell : wanted) {
      for (std::size_t g = 0; g < locus_.size(); ++g) {
        if (locus_.viability(g) > 0) continue;
        ranked.lethal += cell.weight * at_locus_.laid(cell.dam, cell.sire, g);
      }
    }
    out.pairs.push_back(std::move(ranked));
    if (out.pairs.size() / 2 < std::max(most_, least_kept)) return;
    sort_best_first(colony_, offspring_, out);
    out.pairs.resize(most_);
  }

  const colony::Colony& colony_;
  std::size_t offspring_;
  const odds::Options& options_;
  std::size_t block_bytes_, most_;
  std::span<const odds::Tables* const> learned_;
  const genetics::Locus& locus_;
  LocusOffspring at_locus_;
  PairChances wanted_, counted_;
  std::map<std::size_t, std::size_t> position_;  // of an animal's first held genotype
};

odds::TooLarge too_much_kin(double numbers, std::size_t animals) {
  odds::TooLarge out;
  out.bytes = numbers * sizeof(double);
  out.part_animals = animals;
  out.what = fmt::format(
      "the kinship of {} animals and their ancestors would take {:.3g} bytes. Allow more with "
      "--memory.",
      animals, out.bytes);
  return out;
}

}  // namespace

std::variant<Ranking, odds::Contradiction, odds::TooLarge> rank(
    const colony::Colony& colony, const Goal& goal, std::size_t offspring,
    const odds::Options& options, std::span<const odds::Tables* const> learned, std::size_t most) {
  const Candidates candidates = candidates_of(colony);
  std::vector<std::size_t> all(colony.animals().size());
  for (std::size_t a = 0; a < all.size(); ++a) all[a] = a;
  const double numbers = Kinship::numbers(colony, all);
  if (numbers * sizeof(double) > static_cast<double>(options.memory_bytes)) {
    return too_much_kin(numbers, all.size());
  }
  const Kinship kinship(colony, all);
  Ranking out;
  out.tables = learned.size();
  odds::Options rest = options;
  rest.memory_bytes -= static_cast<std::size_t>(numbers * sizeof(double));
  Ranker ranker(colony, goal, offspring, rest, learned, most);
  for (const Round& round : rounds_of(colony, candidates)) {
    auto trouble = ranker.add(round, kinship, out);
    if (auto* none = std::get_if<odds::Contradiction>(&trouble)) {
      // The book, or only that an animal of unknown sex is of the one this round takes it for.
      auto recorded = odds::JointBeliefs::make(odds::scenario(colony, options.as_of), options);
      if (std::holds_alternative<odds::Contradiction>(recorded)) return std::move(*none);
      continue;
    }
    if (auto* large = std::get_if<odds::TooLarge>(&trouble)) return std::move(*large);
  }
  sort_best_first(colony, offspring, out);
  if (out.pairs.size() > most) out.pairs.resize(most);
  return out;
}

}  // namespace likelihet::planning
