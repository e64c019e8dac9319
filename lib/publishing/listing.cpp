// From one state of a book to what may be said of its animals.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "ground_odds.hpp"
#include "kin.hpp"
#include "listing_notes.hpp"
#include "reason.hpp"
#include "result_shown.hpp"
#include "rounding.hpp"
#include "standing.hpp"
#include "statement_words.hpp"
#include <fmt/format.h>

#include <likelihet/audit/forecasts.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {
namespace {

using Trouble = std::variant<odds::Contradiction, odds::TooLarge>;

class ListingMaker {
 public:
  ListingMaker(const Ground& ground, const GroundOdds& odds)
      : ground_(ground), colony_(*ground.colony), odds_(odds), kin_(odds.scenario) {}

  /// Works out whether markers count, and with what odds, where that has to be asked at all.
  std::optional<Trouble> ask_markers(const std::vector<std::size_t>& animals) {
    std::set<std::size_t> asked;
    for (const std::size_t animal : animals) {
      for (std::size_t l = 0; l < colony_.model().loci().size(); ++l) {
        if (may_count(animal, l)) asked.insert(l);
      }
    }
    if (asked.empty()) return std::nullopt;
    audit::TruthSettings settings;
    settings.as_of = ground_.as_of;
    settings.memory_bytes = ground_.memory_bytes;
    auto found = audit::forecasts(colony_, settings);
    if (auto* clash = std::get_if<odds::Contradiction>(&found)) return std::move(*clash);
    if (auto* large = std::get_if<odds::TooLarge>(&found)) return std::move(*large);
    const auto& forecasts = std::get<audit::Forecasts>(found);
    bool any = false;
    for (const std::size_t l : asked) {
      records_[l] = record_of(colony_, forecasts, l);
      any = any || lacking(records_[l], ground_.policy->markers).empty();
    }
    return any ? compute_marked() : std::nullopt;
  }

  Listing listing(std::size_t animal) const {
    Listing out;
    out.animal = animal;
    out.as_of = ground_.as_of;
    out.day = ground_.day ? ground_.day : ground_.as_of;
    std::vector<std::size_t> carried;
    for (std::size_t l = 0; l < colony_.model().loci().size(); ++l) {
      if (auto markers = markers_shown(animal, l)) out.markers.push_back(std::move(*markers));
      const auto alleles = static_cast<std::uint16_t>(colony_.model().loci()[l].alleles().size());
      bool carries = false;
      for (std::uint16_t a = 1; a < alleles; ++a) {
        const Standings standings(odds_, kin_, l, a);
        out.statements.push_back(statement(standings, animal, l));
        carries = carries || !standings.markerless(animal).certainly_none();
      }
      if (carries) carried.push_back(l);
    }
    out.results = results_of(odds_.scenario, animal);
    out.record = record_lines(colony_, out.markers);
    out.cautions = cautions_of(colony_.model(), carried);
    for (const colony::HealthPolicy& note : ground_.policy->health) {
      const auto locus = colony_.model().find_locus(note.locus);
      if (locus && std::find(carried.begin(), carried.end(), *locus) != carried.end()) {
        out.health.push_back(note);
      }
    }
    return out;
  }

 private:
  [[nodiscard]] bool learned() const {
    return ground_.learned != nullptr && !ground_.learned->empty();
  }

  // Whether any allele's number is still open, without markers.
  [[nodiscard]] bool open(std::size_t animal, std::size_t locus) const {
    const genetics::Locus& of = colony_.model().loci()[locus];
    const auto alleles = static_cast<std::uint16_t>(of.alleles().size());
    for (std::uint16_t a = 1; a < alleles; ++a) {
      const auto chances = genetics::copy_chances(of, odds_.markerless[animal][locus], a);
      if (chances.one > rounding_error && !chances.certainly_one()) return true;
    }
    return false;
  }

  [[nodiscard]] bool may_count(std::size_t animal, std::size_t locus) const {
    return learned() && ground_.policy->markers.count && open(animal, locus) &&
           (odds_.markers_tell(animal, locus) || !kin_.readings(animal, locus).empty());
  }

  [[nodiscard]] bool counts(std::size_t animal, std::size_t locus) const {
    const auto record = records_.find(locus);
    return record != records_.end() && may_count(animal, locus) &&
           lacking(record->second, ground_.policy->markers).empty();
  }

  std::optional<Trouble> compute_marked() {
    odds::Options options;
    options.as_of = ground_.as_of;
    options.memory_bytes = ground_.memory_bytes;
    options.surprises = false;
    options.learned = ground_.learned;
    auto found = odds::compute(colony_, options);
    if (auto* clash = std::get_if<odds::Contradiction>(&found)) return std::move(*clash);
    if (auto* large = std::get_if<odds::TooLarge>(&found)) return std::move(*large);
    marked_ = std::move(std::get<odds::ColonyOdds>(found).animals);
    return std::nullopt;
  }

  [[nodiscard]] std::optional<MarkersShown> markers_shown(std::size_t animal,
                                                          std::size_t locus) const {
    MarkersShown out;
    out.locus = locus;
    out.readings = kin_.readings(animal, locus);
    const bool tell = odds_.markers_tell(animal, locus);
    out.relatives = tell && out.readings.empty();
    if (out.readings.empty() && !tell) return std::nullopt;
    out.count = counts(animal, locus);
    if (!out.count && open(animal, locus)) out.missing = missing(locus);
    const auto record = records_.find(locus);
    if (record != records_.end() && may_count(animal, locus)) out.record = record->second;
    out.line = markers_line(colony_, out);
    return out;
  }

  [[nodiscard]] std::vector<std::string> missing(std::size_t locus) const {
    std::vector<std::string> out;
    if (!ground_.policy->markers.count) out.emplace_back("the policy leaves markers out");
    if (!learned()) out.emplace_back("tables not learned from these records");
    const auto record = records_.find(locus);
    if (record == records_.end()) return out;
    const auto more = lacking(record->second, ground_.policy->markers);
    out.insert(out.end(), more.begin(), more.end());
    return out;
  }

  [[nodiscard]] Label label_of(const Standings& standings, const Stated& stated,
                               std::size_t animal) const {
    const genetics::CopyChances& chances = stated.markerless;
    if (standings.visual(animal)) return Label::visual;
    if (chances.certainly_one()) {
      const bool het = !standings.looks().seen_in_one_copy &&
                       !genetics::has_one_chromosome(standings.locus(), stated.sex);
      return het && standings.proven(animal) ? Label::proven : Label::certain;
    }
    return chances.one <= rounding_error ? Label::none : Label::possible;
  }

  [[nodiscard]] Statement statement(const Standings& standings, std::size_t animal,
                                    std::size_t locus) const {
    Stated stated;
    stated.standings = &standings;
    stated.animal = animal;
    stated.sex = kin_.sex(animal);
    stated.markerless = standings.markerless(animal);
    stated.sign = !standings.signs(animal).empty();
    for (const std::size_t look : kin_.looks(animal, locus)) {
      const std::string& word = standings.locus().appearances()[kin_.appearance(look)];
      if (std::find(stated.shown.begin(), stated.shown.end(), word) == stated.shown.end()) {
        stated.shown.push_back(word);
      }
    }
    Statement out;
    out.locus = locus;
    out.allele = standings.allele();
    out.pedigree =
        genetics::copy_chances(standings.locus(), odds_.pedigree[animal][locus], out.allele).one;
    out.markerless = stated.markerless.one;
    out.absent = stated.markerless.certainly_none();
    out.label = label_of(standings, stated, animal);
    out.published = whole_percent(out.markerless);
    if (std::abs(out.pedigree - out.markerless) > rounding_error) out.basis = Basis::results;
    Reason reason = standings.reason(animal);
    out.reason = std::move(reason.text);
    out.rests_on = std::move(reason.rests_on);
    if (out.label == Label::possible && counts(animal, locus)) use_markers(animal, out);
    out.headline = headline(stated, out);
    out.plain = plain_words(stated, out);
    out.would_change = would_change(stated, out, colony_.model());
    return out;
  }

  // Markers never prove: what is open without them stays below certain.
  void use_markers(std::size_t animal, Statement& out) const {
    const odds::Het& het = marked_[animal].loci[out.locus].het[out.allele - std::size_t{1}];
    const double step = ground_.policy->step;
    const double most = 1 - 2 * rounding_error;
    out.marked = het;
    out.basis = Basis::markers;
    out.published.step = step;
    out.published.high = rounded_down(std::min(het.mean, most), step);
    out.published.low = std::min(rounded_down(het.low, step), out.published.high);
    const auto readings = kin_.readings(animal, out.locus);
    out.reason += readings.empty() ? std::string(", markers of relatives counted in")
                                   : fmt::format(", {} own score{} of markers counted in",
                                                 readings.size(), readings.size() == 1 ? "" : "s");
    out.rests_on.insert(out.rests_on.end(), readings.begin(), readings.end());
    std::sort(out.rests_on.begin(), out.rests_on.end());
  }

  const Ground& ground_;
  const colony::Colony& colony_;
  const GroundOdds& odds_;
  Kin kin_;
  std::map<std::size_t, Record> records_;  // of loci where markers were asked
  std::vector<odds::AnimalOdds> marked_;   // empty where no markers count
};

}  // namespace

std::variant<std::vector<Listing>, odds::Contradiction, odds::TooLarge> listings(
    const Ground& ground, const std::vector<std::size_t>& animals) {
  auto found = ground_odds(ground);
  if (auto* clash = std::get_if<odds::Contradiction>(&found)) return std::move(*clash);
  if (auto* large = std::get_if<odds::TooLarge>(&found)) return std::move(*large);
  const auto& odds = std::get<GroundOdds>(found);
  ListingMaker maker(ground, odds);
  if (auto trouble = maker.ask_markers(animals)) {
    if (auto* clash = std::get_if<odds::Contradiction>(&*trouble)) return std::move(*clash);
    return std::move(std::get<odds::TooLarge>(*trouble));
  }
  std::vector<Listing> out;
  out.reserve(animals.size());
  for (const std::size_t animal : animals) out.push_back(maker.listing(animal));
  return out;
}

}  // namespace likelihet::publishing
