// How far a statistic may be off where cases come in clusters.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>

#include <likelihet/audit/interval.hpp>
#include <likelihet/audit/score.hpp>

namespace likelihet::audit {

/// Percentile interval (Efron and Tibshirani 1993, An Introduction to the Bootstrap, section 13.3;
/// quantiles of type 7) of `statistic` over as many whole clusters drawn with replacement as there
/// are (Davison and Hinkley 1997, Bootstrap Methods and their Application, section 3.8). A cluster
/// drawn twice is two clusters to the statistic, numbered from 0 in the order of drawing. The draws
/// are those of std::mt19937_64 with `seed`, clusters in ascending order of their number and cases
/// in the order in which they stand: the same lists give the same interval, on one thread or many.
/// Resamples where the statistic has no value (or none that is finite) are left out. None with
/// fewer than two clusters, or where more than half of the resamples are left out. Throws
/// std::invalid_argument for no resamples or a level outside (0, 1).
std::optional<Interval> bootstrap_by_cluster(
    std::span<const Case> cases, std::size_t resamples, std::uint64_t seed,
    const std::function<std::optional<double>(std::span<const Case>)>& statistic,
    double level = 0.95);

/// The same of two forecasts of the same cases in one order: both lists lose and gain the same
/// clusters. Throws std::invalid_argument also where lengths or clusters differ.
std::optional<Interval> bootstrap_by_cluster(
    std::span<const Case> first, std::span<const Case> second, std::size_t resamples,
    std::uint64_t seed,
    const std::function<std::optional<double>(std::span<const Case>, std::span<const Case>)>&
        statistic,
    double level = 0.95);

}  // namespace likelihet::audit
