// Generating and measuring pedigrees.
#include "bench/pedigree.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <random>

namespace likelihet::bench {

namespace {

constexpr std::size_t line_size = 500;

class Generator {
 public:
  Generator(std::size_t animals, double related, std::mt19937_64& random)
      : wanted_(animals), related_(related), random_(random) {}

  std::vector<PedigreeAnimal> run() {
    const std::size_t founders = std::max<std::size_t>(10, wanted_ / 40);
    for (std::size_t f = 0; f < founders; ++f) add(std::nullopt, std::nullopt, f % 5 != 0);
    season_begin_ = {0, out_.size()};
    while (out_.size() < wanted_) season();
    for (auto& animal : out_) observe(animal);
    return std::move(out_);
  }

 private:
  double uniform() { return std::uniform_real_distribution<double>(0, 1)(random_); }
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(random_() % n); }

  std::size_t add(std::optional<std::size_t> dam, std::optional<std::size_t> sire, bool female) {
    PedigreeAnimal animal;
    animal.dam = dam;
    animal.sire = sire;
    animal.female = female;
    if (dam) {
      animal.copies = gamete(*dam) + gamete(*sire);
    } else {
      for (int k = 0; k < 2; ++k) animal.copies += uniform() < 0.25 ? 1U : 0U;
    }
    out_.push_back(animal);
    return out_.size() - 1;
  }

  std::size_t gamete(std::size_t parent) {
    if (out_[parent].copies == 1) return below(2);
    return out_[parent].copies / 2;
  }

  // Breeders of a season come from the last three; a tenth of the offspring are kept, few of them
  // male.
  void season() {
    const std::size_t from = season_begin_.size() > 4 ? season_begin_[season_begin_.size() - 4] : 0;
    std::vector<std::size_t> females, males;
    for (std::size_t a = from; a < out_.size(); ++a) {
      if (out_[a].dam && used_.size() > a && !kept_[a]) continue;
      (out_[a].female ? females : males).push_back(a);
    }
    std::shuffle(females.begin(), females.end(), random_);
    std::shuffle(males.begin(), males.end(), random_);
    const std::size_t sires = std::max<std::size_t>(1, females.size() / 6);
    males.resize(std::min(males.size(), sires));
    if (females.empty() || males.empty()) return fresh_blood();
    season_begin_.push_back(out_.size());
    const std::size_t limit =
        std::min(wanted_, out_.size() + std::max<std::size_t>(80, wanted_ / 6));
    for (std::size_t dam : females) {
      if (out_.size() >= limit) break;
      if (related_ == 0 && used_dam(dam)) continue;
      clutch(dam, choose_sire(dam, males), limit);
    }
    if (out_.size() == season_begin_.back()) fresh_blood();
  }

  // Without loops every mating brings in an unrelated partner.
  std::size_t choose_sire(std::size_t dam, const std::vector<std::size_t>& males) {
    if (related_ == 0) return add(std::nullopt, std::nullopt, false);
    if (uniform() < related_ && out_[dam].sire) {
      if (uniform() < 0.5) return *out_[dam].sire;  // back to her father
      std::vector<std::size_t> half;                // or to a half-brother
      for (std::size_t m : males) {
        if (m != dam && out_[m].sire && out_[m].sire == out_[dam].sire) half.push_back(m);
      }
      if (!half.empty()) return half[below(half.size())];
    }
    return males[below(males.size())];
  }

  bool used_dam(std::size_t dam) {
    if (used_.size() <= dam) used_.resize(dam + 1, false);
    const bool was = used_[dam];
    used_[dam] = true;
    return was;
  }

  void clutch(std::size_t dam, std::size_t sire, std::size_t limit) {
    const std::size_t eggs = 4 + below(9);
    for (std::size_t e = 0; e < eggs && out_.size() < limit; ++e) {
      const std::size_t a = add(dam, sire, below(2) == 0);
      kept_.resize(out_.size(), false);
      used_.resize(out_.size(), false);
      kept_[a] = uniform() < (out_[a].female ? 0.16 : 0.04);
    }
    kept_.resize(out_.size(), false);
    used_.resize(out_.size(), false);
  }

  void fresh_blood() {
    add(std::nullopt, std::nullopt, true);
    add(std::nullopt, std::nullopt, false);
  }

  void observe(PedigreeAnimal& animal) {
    const double carrier[3] = {0.3, 0.35, 0.35};
    const double other[3] = {0.8, 0.15, 0.05};
    const double* levels = animal.copies == 1 ? carrier : other;
    double left = uniform();
    while (animal.marker < 2 && left > levels[animal.marker]) left -= levels[animal.marker++];
    if (uniform() < 0.1) {
      animal.result = uniform() < 0.97 ? animal.copies : below(3);
      if (animal.copies == 2 || *animal.result == 2) animal.result = animal.copies;
    }
  }

  std::size_t wanted_;
  double related_;
  std::mt19937_64& random_;
  std::vector<PedigreeAnimal> out_;
  std::vector<std::size_t> season_begin_;
  std::vector<bool> kept_, used_;
};

}  // namespace

std::vector<PedigreeAnimal> pedigree(std::size_t animals, double related, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::vector<PedigreeAnimal> out;
  while (out.size() < animals) {
    const std::size_t base = out.size();
    auto line = Generator(std::min<std::size_t>(line_size, animals - base), related, random).run();
    for (auto& animal : line) {
      if (animal.dam) {
        *animal.dam += base;
        *animal.sire += base;
      }
    }
    // A line's first female comes out of the line before: one link, so no loop. What she carries
    // was dropped already, so the parents must be two who could have had her.
    const std::size_t copies = line.front().copies;
    for (std::size_t a = base; a-- > 0 && !line.front().dam;) {
      if (!out[a].dam) continue;
      const std::size_t dam = out[*out[a].dam].copies;
      const std::size_t sire = out[*out[a].sire].copies;
      const std::size_t least = (dam == 2 ? 1U : 0U) + (sire == 2 ? 1U : 0U);
      const std::size_t most = (dam > 0 ? 1U : 0U) + (sire > 0 ? 1U : 0U);
      if (copies < least || copies > most) continue;
      line.front().dam = out[a].dam;
      line.front().sire = out[a].sire;
    }
    out.insert(out.end(), line.begin(), line.end());
  }
  return out;
}

std::size_t loops(const std::vector<PedigreeAnimal>& animals) {
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> matings;
  for (const auto& animal : animals) {
    if (animal.dam)
      matings.try_emplace({*animal.dam, *animal.sire}, animals.size() + matings.size());
  }
  std::vector<std::size_t> head(animals.size() + matings.size());
  std::iota(head.begin(), head.end(), std::size_t{0});
  const auto find = [&](std::size_t x) {
    while (head[x] != x) x = head[x] = head[head[x]];
    return x;
  };
  std::size_t parts = head.size();
  std::size_t edges = 0;
  const auto join = [&](std::size_t a, std::size_t b) {
    ++edges;
    a = find(a);
    b = find(b);
    if (a == b) return;
    head[a] = b;
    --parts;
  };
  for (const auto& [pair, mating] : matings) {
    join(pair.first, mating);
    join(pair.second, mating);
  }
  for (std::size_t a = 0; a < animals.size(); ++a) {
    if (animals[a].dam) join(a, matings.at({*animals[a].dam, *animals[a].sire}));
  }
  return edges - head.size() + parts;
}

}  // namespace likelihet::bench
