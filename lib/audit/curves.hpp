// What a report draws of the forecasts: curves, groups, months, bands of listings.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/isotonic.hpp>
#include <likelihet/audit/roc.hpp>
#include <likelihet/audit/score_table.hpp>

namespace likelihet::audit {

/// Below so many outcomes a calibration curve says little: it is shown greyed.
inline constexpr std::size_t few_outcomes = 50;

/// The curve of one basis and scheme, all kinds and loci together.
struct Reliability {
  Slice slice;
  std::size_t cases = 0;
  std::vector<IsotonicStep> curve;
  std::vector<BandPoint> band;  ///< of consistency, 95 %
  struct Group {
    double low_edge = 0, high_edge = 0;  ///< of the forecasts in it
    double mean = 0;
    std::size_t cases = 0;
    std::size_t hets = 0;  ///< to the nearest whole animal
    Estimate observed;     ///< Wilson
  };
  std::vector<Group> groups;  ///< of about equal counts
};

/// A receiver operating characteristic of one basis and scheme.
struct Roc {
  Slice slice;
  std::vector<RocPoint> points;
};

/// Net benefit at one threshold, as it stood.
struct Decision {
  Scheme scheme = Scheme::as_it_stood;
  double threshold = 0.5;
  double pedigree = 0, scored = 0, all = 0;
};

/// Outcomes of one month against what was expected of them, with markers.
struct Drift {
  Scheme scheme = Scheme::as_it_stood;
  std::string month;  ///< YYYY-MM of the day the truth was known
  std::size_t cases = 0;
  double expected = 0;   ///< hets
  std::size_t hets = 0;  ///< that proved to be
};

/// Of everything called from `low` up to `high`, how many turned out het to be hets (as it stood).
struct Band {
  double low = 0, high = 0;
  std::size_t cases = 0;
  std::size_t hets = 0;
  Estimate proved;
};

/// Counts cases into ten bands of 10 %.
class BandCounts {
 public:
  /// The band of a probability in [0, 1], from 0; 1 is in the last.
  static std::size_t band_of(double probability);
  void add(std::size_t band, bool carrier);
  /// Those with a case.
  [[nodiscard]] std::vector<Band> bands() const;

 private:
  static constexpr std::size_t ten = 10;
  std::array<std::size_t, ten> cases_{}, carriers_{};
};

/// A forecast that was far off: -log2 of what was given to what came.
struct Miss {
  std::size_t forecast = 0;  ///< a position in Forecasts::forecasts
  double bits = 0;
};

/// Both bases and schemes that have forecasts. `resamples` and `seed` are behind the band.
std::vector<Reliability> reliabilities(const colony::Colony& colony, const Forecasts& forecasts,
                                       std::size_t resamples, std::uint64_t seed);
std::vector<Roc> rocs(const colony::Colony& colony, const Forecasts& forecasts);
std::vector<Decision> decisions(const colony::Colony& colony, const Forecasts& forecasts,
                                const std::vector<double>& thresholds);
std::vector<Drift> drifts(const Forecasts& forecasts);
/// Ten bands of 10 %; those without a forecast are left out.
std::vector<Band> bands(const Forecasts& forecasts);
/// The `most` worst forecasts with markers, as it stood, by bits; only those of 1 bit or more.
std::vector<Miss> misses(const Forecasts& forecasts, std::size_t most);

}  // namespace likelihet::audit
