// Everyone's odds given each genotype of the tested animal, mixed by what a report tells of it.
#include <algorithm>
#include <cmath>
#include <map>

#include <likelihet/genetics/copies.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/planning/report_effects.hpp>

namespace likelihet::planning {

namespace {

using odds::GenotypePlace;

// The genotypes that an animal may have, each held in turn.
struct Held {
  std::vector<std::size_t> genotypes;
  std::vector<EveryonesOdds> odds;  // given each
};

std::vector<std::size_t> possible(std::span<const double> chances) {
  std::vector<std::size_t> out;
  for (std::size_t g = 0; g < chances.size(); ++g) {
    if (chances[g] > 0) out.push_back(g);
  }
  return out;
}

std::vector<double> only(std::size_t genotype, std::size_t size) {
  std::vector<double> out(size, 0.0);
  out[genotype] = 1;
  return out;
}

// P(genotype | report) of the held ones, and P(report).
struct Weights {
  std::vector<double> of;
  double report = 0;
};

Weights weights(std::span<const double> chances, const Held& held, const ReportClass& report) {
  Weights out;
  for (std::size_t i = 0; i < held.genotypes.size(); ++i) {
    const std::size_t g = held.genotypes[i];
    const bool reached = !std::isinf(held.odds[i].log_evidence);
    out.of.push_back(reached ? chances[g] * report.likelihood[g] : 0.0);
    out.report += out.of.back();
  }
  if (out.report > 0) {
    for (double& weight : out.of) weight /= out.report;
  }
  return out;
}

void mix(const Held& held, const Weights& weights, std::size_t group, std::vector<double>& out) {
  const std::size_t size = held.odds.front().of(group).size();
  out.assign(size, 0.0);
  for (std::size_t i = 0; i < held.odds.size(); ++i) {
    const auto given = held.odds[i].of(group);
    for (std::size_t g = 0; g < size; ++g) out[g] += weights.of[i] * given[g];
  }
}

class Alone {
 public:
  Alone(const TestGround& ground, const SupposedBook& recorded,
        const std::vector<std::size_t>& candidates)
      : ground_(ground), recorded_(recorded) {
    const auto& all = *ground.candidates;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
      const TestCandidate& of = all[candidates[i]];
      tests_[{of.test.animal, of.locus}].emplace_back(of.test.assay, i);
    }
    for (const auto& [place, tests] : tests_) places_.push_back(place);
    gains_.resize(candidates.size());
  }

  std::variant<std::vector<AloneGain>, odds::TooLarge> run() {
    if (auto large = halve(places_)) return std::move(*large);
    return std::move(gains_);
  }

 private:
  // All places in one plan where that fits, else in halves.
  std::optional<odds::TooLarge> halve(std::span<const GenotypePlace> places) {
    if (places.empty()) return std::nullopt;
    auto made = SupposedBook::make(*ground_.colony, ground_.question,
                                   {places.begin(), places.end()}, ground_.loci);
    if (auto* large = std::get_if<odds::TooLarge>(&made)) {
      if (places.size() == 1) return std::move(*large);
      const std::size_t half = places.size() / 2;
      if (auto first = halve(places.first(half))) return first;
      return halve(places.subspan(half));
    }
    visit(*std::get<std::unique_ptr<SupposedBook>>(made), places);
    return std::nullopt;
  }

  void visit(const SupposedBook& book, std::span<const GenotypePlace> places) {
    std::vector<odds::SupposedSet> sets;
    std::vector<std::size_t> owner;  // of each set, among places
    for (std::size_t p = 0; p < places.size(); ++p) {
      const auto chances =
          recorded_.recorded().of(recorded_.group_of(places[p].animal, places[p].locus));
      for (const std::size_t g : possible(chances)) {
        sets.push_back({{places[p], only(g, chances.size())}});
        owner.push_back(p);
      }
    }
    Held held;
    book.run(sets, [&](std::size_t set, const EveryonesOdds& odds) {
      held.genotypes.push_back(genotype_of(sets[set].front()));
      held.odds.push_back(odds);
      if (set + 1 < sets.size() && owner[set + 1] == owner[set]) return;
      settle(book, places[owner[set]], held);
      held = {};
    });
  }

  static std::size_t genotype_of(const odds::Supposition& one) {
    return static_cast<std::size_t>(std::find(one.likelihood.begin(), one.likelihood.end(), 1.0) -
                                    one.likelihood.begin());
  }

  void settle(const SupposedBook& book, const GenotypePlace& place, const Held& held) {
    const auto chances = recorded_.recorded().of(recorded_.group_of(place.animal, place.locus));
    const std::size_t loci = ground_.colony->model().loci().size();
    const std::size_t part = ground_.part_of[place.animal * loci + place.locus];
    for (const auto& [assay, position] : tests_.at(place)) {
      std::vector<Weights> of_class;
      for (const ReportClass& report : ground_.classes[assay]) {
        of_class.push_back(weights(chances, held, report));
      }
      std::vector<double> after;
      for (std::size_t group = 0; group < book.groups().size(); ++group) {
        const AlikeAnimals& alike = book.groups()[group];
        if (alike.locus != place.locus) continue;
        if (ground_.part_of[alike.animals.front() * loci + place.locus] != part) continue;
        const auto before = book.recorded().of(group);
        double entropy = entropy_bits(before);
        double worth = -ground_.worth->of(place.locus, before);
        for (const Weights& weight : of_class) {
          if (!(weight.report > 0)) continue;
          mix(held, weight, group, after);
          entropy -= weight.report * entropy_bits(after);
          worth += weight.report * ground_.worth->of(place.locus, after);
        }
        const auto count = static_cast<double>(alike.animals.size());
        gains_[position].listing_bits += count * entropy;
        gains_[position].worth += count * worth;
      }
    }
  }

  const TestGround& ground_;
  const SupposedBook& recorded_;
  std::map<GenotypePlace, std::vector<std::pair<std::size_t, std::size_t>>> tests_;
  std::vector<GenotypePlace> places_;
  std::vector<AloneGain> gains_;
};

// What a report does to everyone but the tested animal.
void note_moves(const TestGround& ground, const SupposedBook& book, const TestCandidate& test,
                const Held& held, const Weights& weight, ReportEffect& effect) {
  const genetics::Locus& locus = ground.colony->model().loci()[test.locus];
  const auto alleles = static_cast<std::uint16_t>(locus.alleles().size());
  std::vector<OddsMove> moves;
  std::vector<double> after;
  for (std::size_t group = 0; group < book.groups().size(); ++group) {
    const AlikeAnimals& alike = book.groups()[group];
    if (alike.locus != test.locus) continue;
    mix(held, weight, group, after);
    const auto recorded = book.recorded().of(group);
    const std::vector<double> before(recorded.begin(), recorded.end());
    OddsMove move;
    for (std::uint16_t allele = 1; allele < alleles; ++allele) {
      const double was = genetics::copy_chances(locus, before, allele).one;
      const double is = genetics::copy_chances(locus, after, allele).one;
      if (std::abs(is - was) > std::abs(move.after - move.before)) move = {0, allele, was, is};
    }
    if (move.after == move.before) continue;
    for (const std::size_t animal : alike.animals) {
      if (animal == test.test.animal) continue;
      move.animal = animal;
      moves.push_back(move);
    }
  }
  const auto size = [](const OddsMove& move) { return std::abs(move.after - move.before); };
  effect.moved = static_cast<std::size_t>(std::count_if(
      moves.begin(), moves.end(), [&](const OddsMove& m) { return size(m) > counts_as_moved; }));
  // Below a billionth two moves are alike: rounding does not order animals.
  std::sort(moves.begin(), moves.end(), [&](const OddsMove& a, const OddsMove& b) {
    const double gap = std::round(size(a) * 1e9) - std::round(size(b) * 1e9);
    if (gap != 0) return gap > 0;
    return ground.colony->animals()[a.animal].id < ground.colony->animals()[b.animal].id;
  });
  for (const OddsMove& move : moves) {
    if (effect.largest.size() == moves_told || size(move) <= counts_as_moved) break;
    effect.largest.push_back(move);
  }
}

}  // namespace

std::variant<std::vector<ReportEffect>, odds::TooLarge> report_effects(const TestGround& ground,
                                                                       const SupposedBook& recorded,
                                                                       const TestCandidate& test) {
  const GenotypePlace place{test.test.animal, test.locus};
  auto made = SupposedBook::make(*ground.colony, ground.question, {place}, {test.locus});
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& book = *std::get<std::unique_ptr<SupposedBook>>(made);
  const auto chances = recorded.recorded().of(recorded.group_of(place.animal, place.locus));
  Held held;
  held.genotypes = possible(chances);
  std::vector<odds::SupposedSet> sets;
  for (const std::size_t g : held.genotypes) sets.push_back({{place, only(g, chances.size())}});
  book.run(sets, [&](std::size_t, const EveryonesOdds& odds) { held.odds.push_back(odds); });
  std::vector<ReportEffect> out;
  for (const ReportClass& report : ground.classes[test.test.assay]) {
    const Weights weight = weights(chances, held, report);
    if (!(weight.report > 0)) continue;
    ReportEffect effect;
    effect.reports = report.reports;
    effect.probability = std::min(weight.report, 1.0);
    effect.genotypes.assign(chances.size(), 0.0);
    for (std::size_t i = 0; i < held.genotypes.size(); ++i) {
      effect.genotypes[held.genotypes[i]] = weight.of[i];
    }
    note_moves(ground, book, test, held, weight, effect);
    out.push_back(std::move(effect));
  }
  return out;
}

std::variant<std::vector<AloneGain>, odds::TooLarge> alone_gains(
    const TestGround& ground, const SupposedBook& recorded,
    const std::vector<std::size_t>& candidates) {
  return Alone(ground, recorded, candidates).run();
}

}  // namespace likelihet::planning
