// Records that nothing else led one to expect, and what may lie behind them.
#pragma once

#include <vector>

#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/options.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds {

/// Below this a result or an appearance is a surprise; a probability. Common practice, no source:
/// at 1 in 100 a sound colony has some surprises too.
inline constexpr double surprise_limit = 0.01;

/// Each counting result or appearance o with P(o | all the rest) < surprise_limit, exact, in the
/// order of the records. With p the posterior of the animal's genotype and L(g) = P(o | g) > 0, P(o
/// | rest) = 1 / Σ_g p(g) / L(g), since p(g) ∝ P(g | rest) L(g); where L has zeros they are
/// softened first. Markers' contexts are held as recorded. `plain_bytes` is what the plan of `all`
/// took: softened plans much larger than it are made in parts. The first eight surprises have their
/// reasons weighed. P(o | rest) is the conditional predictive ordinate (Geisser and Eddy 1979, JASA
/// 74:153), from one posterior in place of one run a record (Gelfand and Dey 1994, JRSS B 56:501).
/// `odds` must be those of `all`. A record whose softened plan does not fit the memory is not
/// called a surprise.
std::vector<Surprise> find_surprises(const Scenario& all, const ColonyOdds& odds,
                                     std::size_t plain_bytes, const Options& options);

/// Rival readings of one surprise, most likely first; their shares sum to 1. Readings below 1e-4
/// are left out after that, and there are none where the records themselves cannot be computed. One
/// run for each rival: every clutch-mate, every male who sired another clutch and can have been
/// there, and 40 samples at most. One of them is named where its reading weighs twice the next or
/// more; else none is. `surprise` must be a result or an appearance among
/// `all.observations`.
std::vector<Reason> weigh_reasons(const Scenario& all, const colony::Observation& surprise,
                                  const Options& options);

}  // namespace likelihet::odds
