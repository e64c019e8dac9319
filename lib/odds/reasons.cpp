// What may lie behind a surprise, weighed by how much better each reading explains the whole book.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/surprises.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::odds {

namespace {

using colony::Observation;

// How often such slips happen before anything is seen; common practice, no source (docs/limits.md).
constexpr double wrong_animal_chance = 0.01;
constexpr double wrong_sire_chance = 0.02;
constexpr double wrong_pedigree_chance = 0.005;
// Samples whose results came within so many days may have shared an envelope; and at most so many
// of them are tried.
constexpr long envelope_days = 60;
constexpr std::size_t most_tried = 40;
// One of several is named where its reading weighs so many times that of the next, or more: beyond
// what rounding and near equals make. A choice, without a source.
constexpr double clearly_ahead = 2;
constexpr double rounding_of_weights = 1e-9;

// Readings of one kind that differ in the animal only.
class Rivals {
 public:
  void take(std::size_t animal, double weight) {
    ++count_;
    whole_ += weight;
    if (weight > best_) {
      next_ = best_;
      best_ = weight;
      likeliest_ = animal;
    } else {
      next_ = std::max(next_, weight);
    }
  }
  [[nodiscard]] double whole() const { return whole_; }
  /// ", T before others" or "; none of 3 stands out".
  [[nodiscard]] std::string words(const colony::Colony& colony) const {
    if (best_ >= clearly_ahead * next_ * (1 - rounding_of_weights)) {
      return fmt::format(", {} before others", colony.animals()[likeliest_].id);
    }
    return fmt::format("; none of {} stands out", count_);
  }

 private:
  std::size_t count_ = 0;
  double whole_ = 0, best_ = 0, next_ = 0;
  std::size_t likeliest_ = 0;
};

class Weigher {
 public:
  Weigher(const Scenario& all, const Observation& surprise, const Options& options)
      : all_(all),
        surprise_(surprise),
        options_(options),
        colony_(*all.colony),
        tables_(believed(all.colony->model())),
        animal_(*colony::animal_of(surprise)) {}

  std::vector<Reason> run() {
    const auto base = log_weight(all_);
    if (!base) return {};
    base_ = *base;
    if (std::holds_alternative<colony::Result>(surprise_.what)) {
      test_erred();
      samples_swapped();
    } else {
      add("right-as-it-stands", "the record is right as it stands", 1.0);
    }
    wrong_animal();
    wrong_sire();
    wrong_pedigree();
    double whole = 0;
    for (const Reason& reason : reasons_) whole += reason.share;
    for (Reason& reason : reasons_) reason.share /= whole;
    std::erase_if(reasons_, [](const Reason& reason) { return reason.share < 1e-4; });
    std::sort(reasons_.begin(), reasons_.end(), [](const Reason& a, const Reason& b) {
      return a.share != b.share ? a.share > b.share : a.text < b.text;
    });
    return std::move(reasons_);
  }

 private:
  std::optional<double> log_weight(const Scenario& scenario) const {
    const auto value = log_evidence(scenario, tables_, Layer::posterior, options_.memory_bytes);
    if (const auto* log = std::get_if<double>(&value)) return *log;
    return std::nullopt;
  }

  // exp(log weight against the records as they stand) x chance beforehand: what the reading weighs.
  double odds_of_reading(const Scenario& scenario, double chance) const {
    const auto weight = log_weight(scenario);
    return weight ? chance * std::exp(*weight - base_) : 0.0;
  }

  // Weights are against the records as they stand, whose own weight is 1.
  void add(std::string code, std::string text, double weight) {
    if (weight > 0) reasons_.push_back({std::move(code), std::move(text), weight});
  }

  Scenario with(const Observation* old, Observation changed) const {
    Scenario out = without(all_, old);
    out.altered.push_back(std::make_shared<const Observation>(std::move(changed)));
    out.observations.push_back(out.altered.back().get());
    return out;
  }

  // The posterior share of genotypes for which the report is not the likeliest one, and of mix-ups.
  void test_erred() {
    const auto& result = std::get<colony::Result>(surprise_.what);
    const auto& assay = colony_.model().assays()[result.assay];
    const auto odds = odds_of(all_, animal_, options_.memory_bytes);
    const auto* of = std::get_if<AnimalOdds>(&odds);
    if (of == nullptr || of->loci.empty()) return;
    const auto& posterior = of->loci[assay.locus].posterior;
    double average = 0;
    for (const auto& row : assay.expect) average += row[result.report];
    average *= assay.mix_up / static_cast<double>(assay.expect.size());
    double wrong = 0;
    double mixed = 0;
    double right = 0;
    for (std::size_t g = 0; g < posterior.size(); ++g) {
      const auto& row = assay.expect[g];
      const double own = (1 - assay.mix_up) * row[result.report];
      if (!(own + average > 0)) continue;
      mixed += posterior[g] * average / (own + average);
      const bool likeliest = row[result.report] >= *std::max_element(row.begin(), row.end());
      (likeliest ? right : wrong) += posterior[g] * own / (own + average);
    }
    add("right-as-it-stands", "the record is right as it stands", right);
    add("test-erred", "the test found the wrong thing for the right sample", wrong);
    add("sample-mixed-up", "the sample was some other animal's", mixed);
  }

  void samples_swapped() {
    const auto& mine = std::get<colony::Result>(surprise_.what);
    std::vector<const Observation*> partners;
    for (const auto* other : all_.observations) {
      const auto* result = std::get_if<colony::Result>(&other->what);
      if (result == nullptr || other == &surprise_ || result->assay != mine.assay ||
          result->animal == mine.animal || result->report == mine.report) {
        continue;
      }
      if (surprise_.on && other->on &&
          std::abs(surprise_.on->days() - other->on->days()) > envelope_days) {
        continue;
      }
      partners.push_back(other);
    }
    if (partners.size() > most_tried) partners.resize(most_tried);
    const double chance = colony_.model().assays()[mine.assay].mix_up /
                          static_cast<double>(std::max<std::size_t>(partners.size(), 1));
    for (const auto* partner : partners) {
      Observation here = surprise_;
      Observation there = *partner;
      std::swap(std::get<colony::Result>(here.what).report,
                std::get<colony::Result>(there.what).report);
      Scenario swapped = with(&surprise_, std::move(here));
      std::erase(swapped.observations, partner);
      swapped.altered.push_back(std::make_shared<const Observation>(std::move(there)));
      swapped.observations.push_back(swapped.altered.back().get());
      const auto& theirs = std::get<colony::Result>(partner->what);
      const std::string& name = colony_.animals()[theirs.animal].id;
      add("samples-swapped",
          fmt::format("its sample and that of {}{} were swapped", name,
                      theirs.sample.empty() ? "" : " (" + theirs.sample + ")"),
          odds_of_reading(swapped, chance));
    }
  }

  // The record belongs to a clutch-mate.
  void wrong_animal() {
    const auto clutch = all_.clutches[animal_];
    if (!clutch) return;
    std::vector<std::size_t> mates;
    for (std::size_t mate : colony_.clutches()[*clutch].hatchlings) {
      if (mate != animal_) mates.push_back(mate);
    }
    Rivals rivals;
    for (std::size_t mate : mates) {
      Observation moved = surprise_;
      if (auto* seen = std::get_if<colony::AppearanceSeen>(&moved.what)) seen->animal = mate;
      if (auto* result = std::get_if<colony::Result>(&moved.what)) result->animal = mate;
      rivals.take(mate, odds_of_reading(with(&surprise_, std::move(moved)),
                                        wrong_animal_chance / static_cast<double>(mates.size())));
    }
    add("wrong-animal", "it belongs to a clutch-mate" + rivals.words(colony_), rivals.whole());
  }

  // Any male who sired a clutch may have, but those who are listed as its sires already.
  void wrong_sire() {
    const auto clutch = all_.clutches[animal_];
    if (!clutch) return;
    const auto& listed = all_.sires_of(*clutch);
    std::vector<std::size_t> males;
    for (std::size_t c = 0; c < colony_.clutches().size(); ++c) {
      for (const auto& sire : all_.sires_of(c)) {
        const bool known = std::any_of(listed.begin(), listed.end(),
                                       [&](const auto& s) { return s.animal == sire.animal; });
        if (!known && could_father(sire.animal, *clutch)) males.push_back(sire.animal);
      }
    }
    std::sort(males.begin(), males.end());
    males.erase(std::unique(males.begin(), males.end()), males.end());
    Rivals rivals;
    for (std::size_t male : males) {
      Scenario other = all_;
      other.sires[*clutch] = {{male, 1.0}};
      rivals.take(male,
                  odds_of_reading(other, wrong_sire_chance / static_cast<double>(males.size())));
    }
    add("wrong-sire",
        fmt::format("another male fathered clutch {}{}", colony_.clutches()[*clutch].id,
                    rivals.words(colony_)),
        rivals.whole());
  }

  // Hatched before the clutch was laid, and not himself out of it or of its offspring.
  bool could_father(std::size_t male, std::size_t clutch) const {
    const auto& laid = colony_.clutches()[clutch].laid ? colony_.clutches()[clutch].laid
                                                       : colony_.clutches()[clutch].hatched;
    const auto& hatched = colony_.animals()[male].hatched;
    if (hatched && laid && !(*hatched < *laid)) return false;
    std::vector<std::size_t> stack{male};
    std::vector<bool> met(colony_.animals().size(), false);
    while (!stack.empty()) {
      const std::size_t animal = stack.back();
      stack.pop_back();
      const auto of = all_.clutches[animal];
      if (met[animal] || !of) continue;
      met[animal] = true;
      if (*of == clutch) return false;
      if (colony_.clutches()[*of].dam) stack.push_back(*colony_.clutches()[*of].dam);
      for (const auto& sire : all_.sires_of(*of)) stack.push_back(sire.animal);
    }
    return true;
  }

  void wrong_pedigree() {
    if (!all_.clutches[animal_]) return;
    Scenario other = all_;
    other.clutches[animal_] = std::nullopt;
    other.unplaced[animal_] = true;
    add("wrong-pedigree",
        fmt::format("{} is not out of clutch {}", colony_.animals()[animal_].id,
                    colony_.clutches()[*all_.clutches[animal_]].id),
        odds_of_reading(other, wrong_pedigree_chance));
  }

  const Scenario& all_;
  const Observation& surprise_;
  const Options& options_;
  const colony::Colony& colony_;
  Tables tables_;
  std::size_t animal_;
  double base_ = 0;
  std::vector<Reason> reasons_;
};

}  // namespace

std::vector<Reason> weigh_reasons(const Scenario& all, const Observation& surprise,
                                  const Options& options) {
  return Weigher(all, surprise, options).run();
}

}  // namespace likelihet::odds
