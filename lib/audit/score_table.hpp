// Every score of the forecasts, for every basis, scheme, kind of outcome and locus.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

/// Which forecasts: of one basis and scheme, perhaps of one kind of outcome or one locus. All kinds
/// together is one of the slices, and says so.
struct Slice {
  Basis basis = Basis::scored;
  Scheme scheme = Scheme::as_it_stood;
  std::optional<Kind> kind;
  std::optional<std::size_t> locus;
};

/// The slice's forecasts as cases, in the order of truths; `cluster` as cluster_of() has it.
std::vector<Case> cases_of(const colony::Colony& colony, const Forecasts& forecasts,
                           const Slice& slice);

/// One score of one slice. No value where it is not defined, and `note` then says why.
struct ScoreEntry {
  Slice slice;
  std::string score;  ///< docs/documents.md lists them
  std::optional<double> threshold;
  std::optional<double> value;
  std::optional<Interval> interval;  ///< 95 %, bootstrap by clutch
  std::optional<Interval> delong;    ///< of "auc" alone
  std::size_t cases = 0;
  std::size_t clutches = 0;
  std::string note;
};

struct ScoreSettings {
  std::vector<double> thresholds{0.25, 0.5, 0.75};  ///< of net benefit, each in (0, 1)
  std::size_t resamples = 1000;
  std::uint64_t seed = 1;
};

/// Below so many clutches an interval by resampling them is rough, and says so.
inline constexpr std::size_t few_clutches = 10;

/// All slices with at least one forecast: all kinds and loci, each kind, and where there are
/// several each locus.
std::vector<ScoreEntry> score_table(const colony::Colony& colony, const Forecasts& forecasts,
                                    const ScoreSettings& settings);

}  // namespace likelihet::audit
