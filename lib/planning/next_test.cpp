// The lot, the greedy choice, its bounds, and what each result would change.
#include <algorithm>
#include <limits>
#include <numbers>
#include <set>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/planning/next_test.hpp>

namespace likelihet::planning {

namespace {

constexpr std::size_t usual_tests = 5;
// Gains nearer to each other than this share are equal: rounding does not choose.
constexpr double same_worth_share = 1e-9;
constexpr double whole_greedy = 1 - 1 / std::numbers::e;

class Planner {
 public:
  Planner(const colony::Colony& colony, const colony::Policy& policy, const TestQuestion& question)
      : colony_(colony),
        policy_(policy),
        question_(question),
        worth_(policy, colony.model()),
        random_(question.seed) {
    out_.candidates = test_candidates(colony, policy, question.asked, question.book.as_of);
    out_.worth_given = worth_.given();
    tests_ = question.tests.value_or(question.budget ? out_.candidates.size() : usual_tests);
    budget_ = question.budget;
  }

  std::variant<TestPlan, odds::Contradiction, odds::TooLarge> run() {
    lay_ground();
    auto made = SupposedBook::make(colony_, question_.book, {}, ground_.loci);
    if (auto* clash = std::get_if<odds::Contradiction>(&made)) return std::move(*clash);
    if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
    recorded_ = std::get<std::unique_ptr<SupposedBook>>(std::move(made));
    find_parts();
    TestSet set(ground_, *recorded_, question_.seed);
    for (std::size_t c = 0; c < out_.candidates.size(); ++c) {
      out_.values.push_back({set.gain(c).value, std::nullopt});
    }
    auto large = value_alone();
    if (!large) large = draw_lot(set);
    if (!large) large = choose(set);
    if (!large) large = tell_effects();
    if (large) return std::move(*large);
    return std::move(out_);
  }

 private:
  void lay_ground() {
    ground_.colony = &colony_;
    ground_.candidates = &out_.candidates;
    ground_.worth = &worth_;
    ground_.question = question_.book;
    ground_.limits = question_.limits;
    for (const colony::Assay& assay : colony_.model().assays()) {
      ground_.classes.push_back(report_classes(assay));
    }
    std::set<std::size_t> loci;
    for (const TestCandidate& candidate : out_.candidates) loci.insert(candidate.locus);
    ground_.loci.assign(loci.begin(), loci.end());
  }

  // With room for every report, since a report may join what nothing joined before.
  void find_parts() {
    odds::Scenario all = odds::scenario(colony_, question_.book.as_of);
    for (const TestCandidate& candidate : out_.candidates) {
      all.supposed.push_back({candidate.test.animal, candidate.locus});
    }
    const auto net = odds::colony_network(all, odds::believed(colony_.model()));
    ground_.part_of =
        odds::separate_parts(net, colony_.animals().size(), colony_.model().loci().size());
  }

  std::optional<odds::TooLarge> value_alone() {
    std::vector<std::size_t> telling;
    for (std::size_t c = 0; c < out_.candidates.size(); ++c) {
      if (out_.values[c].bits > least_bits) {
        telling.push_back(c);
      } else {
        out_.values[c].gain = AloneGain{};
      }
    }
    std::stable_sort(telling.begin(), telling.end(), [&](std::size_t a, std::size_t b) {
      return out_.values[a].bits > out_.values[b].bits;
    });
    telling.resize(std::min(telling.size(), most_valued));
    auto gains = alone_gains(ground_, *recorded_, telling);
    if (auto* large = std::get_if<odds::TooLarge>(&gains)) return std::move(*large);
    for (std::size_t i = 0; i < telling.size(); ++i) {
      out_.values[telling[i]].gain = std::get<std::vector<AloneGain>>(gains)[i];
    }
    return std::nullopt;
  }

  // Whether it may be in the plan at all, whatever is left of the budget.
  [[nodiscard]] bool open(std::size_t c) const {
    if (out_.values[c].bits <= least_bits) return false;
    return !budget_ || out_.candidates[c].price.has_value();
  }

  [[nodiscard]] bool affordable(std::size_t c, const std::optional<double>& left) const {
    return !left || *out_.candidates[c].price <= *left + 1e-9 * std::max(*left, 1.0);
  }

  std::optional<odds::TooLarge> take(TestSet& set, std::size_t c, bool by_lot,
                                     std::vector<ChosenTest>& chosen) const {
    ChosenTest test;
    test.candidate = c;
    test.by_lot = by_lot;
    test.gain = set.gain(c);
    const double listing = set.listing_bits();
    const double worth = set.worth();
    if (auto large = set.add(c)) return large;
    test.listing_bits = set.listing_bits() - listing;
    test.worth = set.worth() - worth;
    chosen.push_back(std::move(test));
    return std::nullopt;
  }

  // Animals one by one, each with one of the assays that could tell something of it.
  std::optional<odds::TooLarge> draw_lot(TestSet& set) {
    if (policy_.random_one_in == 0) return std::nullopt;
    const auto share = static_cast<double>(policy_.random_one_in);
    std::optional<double> left;
    if (budget_) left = *budget_ / share;
    std::size_t number = tests_ / policy_.random_one_in;
    std::vector<std::vector<std::size_t>> animals;  // candidates, in the order of ids
    for (std::size_t c = 0; c < out_.candidates.size(); ++c) {
      if (!open(c) || out_.candidates[c].tested) continue;
      if (animals.empty() ||
          out_.candidates[animals.back().front()].test.animal != out_.candidates[c].test.animal) {
        animals.emplace_back();
      }
      animals.back().push_back(c);
    }
    while (number > 0 && !animals.empty()) {
      const std::size_t a = random_.below(animals.size());
      const std::size_t c = animals[a][random_.below(animals[a].size())];
      animals.erase(animals.begin() + static_cast<std::ptrdiff_t>(a));
      if (!affordable(c, left)) continue;
      if (auto large = take(set, c, true, out_.chosen)) return large;
      if (left) *left -= *out_.candidates[c].price;
      --number;
    }
    return std::nullopt;
  }

  struct Greedy {
    TestSet set;
    std::vector<ChosenTest> chosen;
    ChoiceRule rule = ChoiceRule::gain;
    double most = std::numeric_limits<double>::infinity();  // that any choice tells
  };

  [[nodiscard]] double appeal(const Greedy& greedy, std::size_t c) const {
    const double gain = greedy.set.gain(c).value;
    if (greedy.rule == ChoiceRule::gain) return gain;
    // What costs nothing comes first, by its gain.
    return gain / std::max(*out_.candidates[c].price, 1e-12);
  }

  std::optional<odds::TooLarge> grow(Greedy& greedy, std::size_t tests,
                                     const std::optional<double>& budget) const {
    std::optional<double> left = budget;
    tighten(greedy, tests, budget);
    for (std::size_t taken = 0; taken < tests; ++taken) {
      std::optional<std::size_t> best;
      for (std::size_t c = 0; c < out_.candidates.size(); ++c) {
        if (!open(c) || greedy.set.contains(c) || !affordable(c, left)) continue;
        if (greedy.set.gain(c).value <= least_bits) continue;
        if (!best || appeal(greedy, c) > appeal(greedy, *best) * (1 + same_worth_share)) best = c;
      }
      if (!best) break;
      if (auto large = take(greedy.set, *best, false, greedy.chosen)) return large;
      if (left) *left -= *out_.candidates[*best].price;
      tighten(greedy, tests, budget);
    }
    return std::nullopt;
  }

  std::optional<odds::TooLarge> choose(const TestSet& lot) {
    std::size_t tests = tests_ - std::min(tests_, out_.chosen.size());
    std::optional<double> left = budget_;
    if (left) {
      for (const ChosenTest& test : out_.chosen) *left -= *out_.candidates[test.candidate].price;
      for (const TestCandidate& candidate : out_.candidates) {
        if (!candidate.price) ++out_.left_out;
      }
    }
    Greedy best{lot, {}};
    if (auto large = grow(best, tests, left)) return large;
    if (budget_) {
      Greedy other{lot, {}, ChoiceRule::gain_for_price, best.most};
      if (auto large = grow(other, tests, left)) return large;
      best.most = other.most;
      if (other.set.bits().value > best.set.bits().value * (1 + same_worth_share))
        best = std::move(other);
    }
    bound(lot, best);
    out_.rule = best.rule;
    out_.bits = best.set.bits();
    out_.listing_bits = best.set.listing_bits();
    out_.worth = best.set.worth();
    out_.sampled = best.set.sampled();
    for (ChosenTest& test : best.chosen) out_.chosen.push_back(std::move(test));
    for (const ChosenTest& test : out_.chosen) {
      const auto& price = out_.candidates[test.candidate].price;
      if (!price) ++out_.unpriced;
      out_.cost += price.value_or(0);
    }
    return std::nullopt;
  }

  // Of any set within the limits, f(set) <= f(chosen so far) + the largest gains given these: true
  // at every step, so the least of all is taken.
  void tighten(Greedy& greedy, std::size_t tests, const std::optional<double>& budget) const {
    const auto gain = [&](std::size_t c) { return greedy.set.gain(c).value; };
    std::vector<std::size_t> rest;
    for (std::size_t c = 0; c < out_.candidates.size(); ++c) {
      if (!open(c) || greedy.set.contains(c) || !affordable(c, budget)) continue;
      if (gain(c) > 0) rest.push_back(c);
    }
    std::sort(rest.begin(), rest.end(), [&](auto a, auto b) { return gain(a) > gain(b); });
    double more = 0;
    for (std::size_t i = 0; i < std::min(tests, rest.size()); ++i) more += gain(rest[i]);
    if (budget) more = std::min(more, filled(rest, gain, *budget));
    greedy.most = std::min(greedy.most, greedy.set.bits().value + more);
  }

  void bound(const TestSet& lot, const Greedy& greedy) {
    const double all = greedy.set.bits().value;
    // Gains that are added up in another order may differ in the last digit.
    out_.most_bits = std::max(greedy.most, all);
    if (budget_ && question_.tests) return;
    out_.guarantee = budget_ ? whole_greedy / 2 : whole_greedy;
    const double ours = all - lot.bits().value;
    out_.most_bits = std::min(out_.most_bits, lot.bits().value + ours / *out_.guarantee);
  }

  // What a budget buys at most where tests may be bought in parts (Dantzig 1957, Operations
  // Research 5:266).
  template <class Gain>
  [[nodiscard]] double filled(std::vector<std::size_t> rest, const Gain& gain,
                              double budget) const {
    const auto price = [&](std::size_t c) { return *out_.candidates[c].price; };
    std::sort(rest.begin(), rest.end(),
              [&](auto a, auto b) { return gain(a) * price(b) > gain(b) * price(a); });
    double sum = 0;
    for (const std::size_t c : rest) {
      if (price(c) > budget) return sum + gain(c) * budget / price(c);
      sum += gain(c);
      budget -= price(c);
    }
    return sum;
  }

  std::optional<odds::TooLarge> tell_effects() {
    for (ChosenTest& test : out_.chosen) {
      auto effects = report_effects(ground_, *recorded_, out_.candidates[test.candidate]);
      if (auto* large = std::get_if<odds::TooLarge>(&effects)) return std::move(*large);
      test.effects = std::get<std::vector<ReportEffect>>(std::move(effects));
    }
    return std::nullopt;
  }

  const colony::Colony& colony_;
  const colony::Policy& policy_;
  const TestQuestion& question_;
  Worth worth_;
  inference::RandomBits random_;
  std::size_t tests_ = 0;
  std::optional<double> budget_;
  TestGround ground_;
  std::unique_ptr<SupposedBook> recorded_;
  TestPlan out_;
};

}  // namespace

std::variant<TestPlan, odds::Contradiction, odds::TooLarge> next_test(
    const colony::Colony& colony, const colony::Policy& policy, const TestQuestion& question) {
  return Planner(colony, policy, question).run();
}

}  // namespace likelihet::planning
