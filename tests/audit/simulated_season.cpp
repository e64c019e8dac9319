// Drawing seasons.
#include "audit/simulated_season.hpp"

#include <algorithm>
#include <cstdlib>

#include <likelihet/inference/random_bits.hpp>

namespace likelihet::audit {

namespace {

using support::RecordsBuilder;

double unit(inference::RandomBits& random) {
  return static_cast<double>(random() >> 11U) * 0x1p-53;
}

std::size_t pick(const std::vector<double>& chances, inference::RandomBits& random) {
  double left = unit(random);
  for (std::size_t i = 0; i + 1 < chances.size(); ++i) {
    left -= chances[i];
    if (left < 0) return i;
  }
  return chances.size() - 1;
}

std::string level_name(std::size_t level) {
  return "level-" + std::to_string(level);
}

std::string date(long days) {
  return colony::Date::of_days(days)->text();
}

colony::AssayDescription exact_assay(const std::string& id, const std::string& locus,
                                     const std::string& allele) {
  colony::AssayDescription assay;
  assay.id = id;
  assay.locus = locus;
  assay.reports = {"clear", "carrier", "affected"};
  const std::string plain = "+/+";
  assay.rows = {{plain, {0.999, 0.0005, 0.0005}},
                {"+/" + allele, {0.0005, 0.999, 0.0005}},
                {allele + "/" + allele, {0.0005, 0.0005, 0.999}}};
  return assay;
}

class Drawing {
 public:
  Drawing(const SeasonSettings& settings, std::uint64_t seed)
      : settings_(settings), random_(seed) {}

  Season run() {
    out_.model = support::made(season_model(settings_.markers));
    for (std::size_t c = 0; c < settings_.clutches; ++c) clutch(c);
    out_.records = std::move(records_.records);
    return std::move(out_);
  }

 private:
  void clutch(std::size_t c) {
    const std::string id = "C" + std::to_string(c);
    const bool with_other = settings_.other_trait && c % 4 < 2;
    const std::string line = !settings_.lines ? "" : c % 2 == 0 ? "north" : "south";
    records_.founder("D" + id, genetics::Sex::female, "bought")
        .bought_as("tarnbrook", {{"+/e", 1.0}}, 1.0);
    if (with_other) records_.bought_as("brackmoor", {{"+/s", 1.0}}, 1.0);
    records_.founder("S" + id, genetics::Sex::male);
    if (with_other) {
      records_.animal().origin = "bought";
      records_.bought_as("brackmoor", {{"+/s", 1.0}}, 1.0);
      records_.bought_as("tarnbrook", {{"+/+", 1.0}}, 1.0);
    }
    records_.clutch(id, "D" + id, {"S" + id});
    hatched_ = first_day + static_cast<long>(3 * c);
    records_.clutch_record().hatched = support::day(date(hatched_));
    if (!line.empty()) records_.clutch_record().line = line;
    for (std::size_t h = 0; h < settings_.hatchlings; ++h) {
      Hatchling one;
      one.carrier = unit(random_) < 0.5;
      if (with_other) {
        const auto copies = pick({0.25, 0.5, 0.25}, random_);
        one.other_carrier = copies == 1;
        one.shows_other = copies == 2;
      }
      one.line = line;
      one.blind = settings_.blind(c);
      one.in_clutch = h;
      hatchling(id + "-" + std::to_string(h), id, std::move(one));
    }
  }

  void hatchling(const std::string& id, const std::string& clutch, Hatchling one) {
    records_.hatchling(id, clutch);
    records_.shows(id, "tarnbrook", "plain").on(date(hatched_ + 1));
    records_.shows(id, "brackmoor", one.shows_other ? "thornwick" : "plain").on(date(hatched_ + 1));
    for (const SeasonMarker& one_marker : settings_.markers) {
      one.levels.push_back(pick(one_marker.shows(one), random_));
      records_.score(id, one_marker.id, level_name(one.levels.back())).on(date(hatched_ + 10));
      std::get<colony::ScoreRecord>(records_.observation().what).blind = one.blind;
    }
    const long tested_on = hatched_ + 60 + static_cast<long>(one.in_clutch);
    if (unit(random_) < settings_.tested(one)) {
      records_.result(id, "tarnbrook-test", report(one.carrier, false)).on(date(tested_on));
    }
    if (settings_.other_tested) {
      records_.result(id, "brackmoor-test", report(one.other_carrier, one.shows_other))
          .on(date(tested_on));
    }
    out_.truth.push_back(std::move(one));
  }

  std::string report(bool one_copy, bool two_copies) {
    const std::size_t right = two_copies ? 2 : one_copy ? 1 : 0;
    std::vector<double> row(3, 0.0005);
    row[right] = 0.999;
    constexpr const char* reports[] = {"clear", "carrier", "affected"};
    return reports[pick(row, random_)];
  }

  static constexpr long first_day = 20'600;  // in May 2026
  const SeasonSettings& settings_;
  inference::RandomBits random_;
  RecordsBuilder records_;
  Season out_;
  long hatched_ = first_day;
};

}  // namespace

colony::ModelDescription season_model(const std::vector<SeasonMarker>& markers) {
  auto model = support::recessive_model();
  model.loci.push_back(support::masking_locus());
  model.markers.clear();
  for (const SeasonMarker& one_marker : markers) {
    colony::MarkerDescription marker;
    marker.id = one_marker.id;
    for (std::size_t level = 0; level < one_marker.levels; ++level) {
      marker.levels.push_back(level_name(level));
    }
    marker.weight = 1.0;
    const std::vector<double> even(one_marker.levels, 1 / static_cast<double>(one_marker.levels));
    marker.rows = {{{{"tarnbrook", "+/e"}}, even, 6.0}, {{}, even, 6.0}};
    if (one_marker.masked_by_other) {
      marker.contexts = {{"brackmoor", "thornwick", std::nullopt, true, {}}};
    }
    model.markers.push_back(std::move(marker));
  }
  model.assays = {exact_assay("tarnbrook-test", "tarnbrook", "e"),
                  exact_assay("brackmoor-test", "brackmoor", "s")};
  return model;
}

Season simulated_season(const SeasonSettings& settings, std::uint64_t seed) {
  return Drawing(settings, seed).run();
}

std::size_t books(std::size_t whole, std::size_t part) {
#ifdef __SANITIZE_ADDRESS__
  constexpr bool instrumented = true;
#else
  constexpr bool instrumented = false;
#endif
  if (std::getenv("LIKELIHET_LONG") != nullptr) return whole;
  return instrumented ? std::max<std::size_t>(part / 5, 4) : part;
}

}  // namespace likelihet::audit
