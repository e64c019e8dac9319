// Searching sets of hatchlings, size by size.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <numeric>
#include <string>

#include <likelihet/planning/holdbacks.hpp>

namespace likelihet::planning {

namespace {

using genetics::Sex;
using Set = KeptSets::Set;

// Nearer to each other than this, chances are equal: rounding does not choose.
constexpr double alike_chances = 1e-12;

class Search {
 public:
  Search(const colony::Colony& colony, const HoldbackQuestion& question,
         const std::vector<std::size_t>& animals, KeptSets& sets)
      : colony_(colony), question_(question), animals_(animals), sets_(sets) {}

  std::optional<Kept> best(std::size_t size) {
    if (auto candidates = all(size)) {
      last_ = best_of(*candidates);
      return kept(true);
    }
    // Greedy goes on from the best set of the size before, which may have been searched.
    if (!last_) last_ = likeliest_of_each_sex();
    if (!last_) return std::nullopt;
    if (last_->size() == size) return kept(false);
    std::vector<Set> candidates;
    for (std::size_t i = 0; i < animals_.size(); ++i) {
      if (std::binary_search(last_->begin(), last_->end(), i)) continue;
      Set next = *last_;
      next.insert(std::upper_bound(next.begin(), next.end(), i), i);
      candidates.push_back(std::move(next));
    }
    last_ = best_of(candidates);
    return kept(false);
  }

  [[nodiscard]] const std::optional<Set>& last() const { return last_; }

 private:
  [[nodiscard]] const std::optional<Sex>& sex(std::size_t position) const {
    return colony_.animals()[animals_[position]].sex;
  }

  [[nodiscard]] Set of_sex(const Set& set, Sex wanted) const {
    Set out;
    for (const std::size_t position : set) {
      if (sex(position) == wanted) out.push_back(position);
    }
    return out;
  }

  [[nodiscard]] bool fits(const Set& set) const {
    return of_sex(set, Sex::female).size() >= question_.females &&
           of_sex(set, Sex::male).size() >= question_.males;
  }

  // One set of each likeness, or nothing where there are too many.
  std::optional<std::vector<Set>> all(std::size_t size) {
    std::map<std::vector<std::size_t>, Set> found;
    Set partial;
    bool fitting = true;
    const std::function<void(std::size_t)> extend = [&](std::size_t next) {
      if (!fitting) return;
      if (partial.size() == size) {
        if (fits(partial)) found.try_emplace(sets_.likeness(partial), partial);
        fitting = found.size() <= question_.exact && ++looked_ <= looked_most;
        return;
      }
      for (std::size_t i = next; i < animals_.size(); ++i) {
        // Of alike animals those of lower numbers are taken first.
        if (i > next && sets_.likeness({i}) == sets_.likeness({i - 1})) continue;
        partial.push_back(i);
        extend(i + 1);
        partial.pop_back();
      }
    };
    looked_ = 0;
    extend(0);
    if (!fitting) return std::nullopt;
    std::vector<Set> out;
    out.reserve(found.size());
    for (auto& [likeness, set] : found) out.push_back(std::move(set));
    return out;
  }

  [[nodiscard]] double expected(const Set& set) const {
    double sum = 0;
    for (const std::size_t position : set) sum += sets_.chance(position);
    return sum;
  }

  // The sets none of which may meet the goal: all of it, or those of each sex asked for.
  [[nodiscard]] std::vector<Set> asked_of(const Set& set) const {
    if (question_.females == 0 && question_.males == 0) return {set};
    std::vector<Set> out;
    if (question_.females > 0) out.push_back(of_sex(set, Sex::female));
    if (question_.males > 0) out.push_back(of_sex(set, Sex::male));
    return out;
  }

  static Set both(const std::vector<Set>& parts) {
    Set out;
    std::merge(parts.front().begin(), parts.front().end(), parts.back().begin(), parts.back().end(),
               std::back_inserter(out));
    return out;
  }

  // 1 - P(none of A) - P(none of B) + P(none of either).
  double chance(const Set& set) {
    const auto parts = asked_of(set);
    double out = 1;
    for (const Set& part : parts) out -= sets_.none(part);
    if (parts.size() == 2) out += sets_.none(both(parts));
    return std::clamp(out, 0.0, 1.0);
  }

  [[nodiscard]] double product(const Set& set) const {
    double out = 1;
    for (const Set& part : asked_of(set)) {
      double none = 1;
      for (const std::size_t position : part) none *= 1 - sets_.chance(position);
      out *= 1 - none;
    }
    return out;
  }

  // Where even the smallest sets are too many to look at.
  [[nodiscard]] std::optional<Set> likeliest_of_each_sex() const {
    Set order(animals_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return sets_.chance(a) > sets_.chance(b);
    });
    Set out;
    for (const auto& [wanted, number] :
         {std::pair(Sex::female, question_.females), std::pair(Sex::male, question_.males)}) {
      const Set of = of_sex(order, wanted);
      if (of.size() < number) return std::nullopt;
      out.insert(out.end(), of.begin(), of.begin() + static_cast<std::ptrdiff_t>(number));
    }
    std::sort(out.begin(), out.end());
    return out;
  }

  std::optional<Set> best_of(const std::vector<Set>& candidates) {
    std::vector<Set> wanted;
    for (const Set& set : candidates) {
      const auto parts = asked_of(set);
      wanted.insert(wanted.end(), parts.begin(), parts.end());
      if (parts.size() == 2) wanted.push_back(both(parts));
    }
    sets_.prepare(wanted);
    std::optional<Set> best;
    for (const Set& set : candidates) {
      if (!best || better(set, *best)) best = set;
    }
    return best;
  }

  bool better(const Set& a, const Set& b) {
    const double gap = chance(a) - chance(b);
    if (std::abs(gap) > alike_chances) return gap > 0;
    const double more = expected(a) - expected(b);
    if (std::abs(more) > alike_chances) return more > 0;
    return ids(a) < ids(b);
  }

  // Ascending, to compare sets that do equally well.
  [[nodiscard]] std::vector<std::string> ids(const Set& set) const {
    std::vector<std::string> out;
    for (const std::size_t position : set) {
      out.push_back(colony_.animals()[animals_[position]].id);
    }
    std::sort(out.begin(), out.end());
    return out;
  }

  std::optional<Kept> kept(bool searched) {
    if (!last_) return std::nullopt;
    Kept out;
    for (const std::size_t position : *last_) out.animals.push_back(animals_[position]);
    out.chance = chance(*last_);
    out.product = product(*last_);
    out.expected = expected(*last_);
    out.searched = searched;
    return out;
  }

  static constexpr std::size_t looked_most = 2'000'000;

  const colony::Colony& colony_;
  const HoldbackQuestion& question_;
  const std::vector<std::size_t>& animals_;
  KeptSets& sets_;
  std::size_t looked_ = 0;
  std::optional<Set> last_;
};

// Which of the animals may stand for each other: leaves of one run, of one sex.
std::vector<std::size_t> alike(const colony::Colony& colony, const SupposedBook& plain,
                               std::size_t locus, const std::vector<std::size_t>& animals) {
  std::map<std::pair<std::size_t, int>, std::size_t> known;
  std::vector<std::size_t> out;
  for (const std::size_t animal : animals) {
    const auto& sex = colony.animals()[animal].sex;
    const int sexed = sex ? (*sex == Sex::female ? 1 : 2) : 0;
    const auto key = std::pair(plain.group_of(animal, locus), sexed);
    out.push_back(known.try_emplace(key, known.size()).first->second);
  }
  return out;
}

// Alike ones beside each other, by id within and between.
void sort_alike(const colony::Colony& colony, const SupposedBook& plain, std::size_t locus,
                std::vector<std::size_t>& animals) {
  std::sort(animals.begin(), animals.end(), [&](std::size_t a, std::size_t b) {
    return colony.animals()[a].id < colony.animals()[b].id;
  });
  const auto kind = alike(colony, plain, locus, animals);
  std::vector<std::pair<std::size_t, std::size_t>> order;
  for (std::size_t i = 0; i < animals.size(); ++i) order.emplace_back(kind[i], animals[i]);
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < animals.size(); ++i) animals[i] = order[i].second;
}

using BookOrTrouble =
    std::variant<std::unique_ptr<SupposedBook>, odds::Contradiction, odds::TooLarge>;

std::optional<std::variant<Holdbacks, odds::Contradiction, odds::TooLarge>> trouble(
    BookOrTrouble& made) {
  if (auto* clash = std::get_if<odds::Contradiction>(&made)) return std::move(*clash);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  return std::nullopt;
}

}  // namespace

std::variant<Holdbacks, odds::Contradiction, odds::TooLarge> holdbacks(
    const colony::Colony& colony, const HoldbackQuestion& question) {
  const std::size_t locus = question.goal.locus;
  std::vector<std::size_t> animals = colony.clutches()[question.clutch].hatchlings;
  auto recorded = SupposedBook::make(colony, question.book, {}, {locus});
  if (auto bad = trouble(recorded)) return std::move(*bad);
  const auto& plain = *std::get<std::unique_ptr<SupposedBook>>(recorded);
  sort_alike(colony, plain, locus, animals);
  std::vector<odds::GenotypePlace> places;
  places.reserve(animals.size());
  for (const std::size_t animal : animals) places.push_back({animal, locus});
  auto supposed = SupposedBook::make(colony, question.book, places, {locus});
  if (auto bad = trouble(supposed)) return std::move(*bad);
  const auto& book = *std::get<std::unique_ptr<SupposedBook>>(supposed);
  KeptSets sets(book, question.goal, animals, alike(colony, plain, locus, animals));

  Holdbacks out;
  for (std::size_t i = 0; i < animals.size(); ++i) {
    out.hatchlings.push_back({animals[i], colony.animals()[animals[i]].sex, sets.chance(i)});
  }
  std::sort(out.hatchlings.begin(), out.hatchlings.end(), [&](const auto& a, const auto& b) {
    if (std::abs(a.chance - b.chance) > alike_chances) return a.chance > b.chance;
    return colony.animals()[a.animal].id < colony.animals()[b.animal].id;
  });
  Search search(colony, question, animals, sets);
  const std::size_t least = std::max<std::size_t>(question.females + question.males, 1);
  const bool sexes = question.females + question.males > 0;
  for (std::size_t size = least; size <= std::min(question.keep, animals.size()); ++size) {
    auto kept = search.best(size);
    if (!kept) break;
    if (!kept->searched && !sexes) out.guarantee = 1 - 1 / std::numbers::e;
    std::sort(kept->animals.begin(), kept->animals.end(), [&](std::size_t a, std::size_t b) {
      return colony.animals()[a].id < colony.animals()[b].id;
    });
    out.sizes.push_back(std::move(*kept));
  }
  if (search.last() && search.last()->size() <= most_counted) {
    out.counts = sets.counts(*search.last());
  }
  return out;
}

}  // namespace likelihet::planning
