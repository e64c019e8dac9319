// What a colony's book teaches about markers, scorers and origins: mode and spread.
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/learning/clutch_left_out.hpp>
#include <likelihet/learning/dependence.hpp>
#include <likelihet/learning/diagnostics.hpp>
#include <likelihet/learning/maximum.hpp>
#include <likelihet/learning/parameters.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::learning {

struct Progress {
  double done = 0;   ///< of the sweeps that this round will take, in [0, 1]
  double r_hat = 0;  ///< the worst after the last round; 0 before there is one
};

struct Settings {
  std::uint64_t seed = 1;
  std::size_t chains = 4;   ///< 2 or more
  std::size_t draws = 500;  ///< of each chain in the first round, after as many to settle in
  std::size_t most_sweeps = 64'000;  ///< of each chain; then it ends, converged or not
  std::size_t kept = 2000;         ///< draws kept in all, evenly out of the last half of each chain
  std::size_t further_starts = 4;  ///< of EM, beside belief
  unsigned threads = 0;            ///< 0: as many as the machine has; results do not depend on it
  std::size_t memory_bytes = std::size_t{2} << 30U;
  std::optional<colony::Date> as_of;
  std::function<void(const Progress&)> progress = {};  ///< called now and then, from one thread
  const std::atomic<bool>* stop = nullptr;  ///< set from outside: ends soon, with nothing learned
};

/// One number that was learned.
struct Summary {
  Parameter parameter;
  double believed = 0;
  double mode = 0;
  double mean = 0;
  double low = 0;  ///< central 95 %
  double high = 0;
  Convergence convergence;  ///< of the last half of each chain
};

struct Learned {
  std::vector<Mode> modes;          ///< of several starts, the highest first
  std::vector<double> trace;        ///< of the climb to the first
  std::vector<Summary> summaries;   ///< as flat() orders them
  std::vector<odds::Tables> draws;  ///< chain after chain
  /// Expected number of scored animals behind each row, at the mode: by marker, table, row.
  std::vector<std::vector<std::vector<double>>> animals;
  std::vector<Dependence> dependences;  ///< of pairs of markers, over draws of the first chain
  /// Where the model names markers that come together and enough clutches tell.
  std::optional<ClutchesLeftOut> left_out;
  std::size_t chains = 0;
  std::size_t sweeps = 0;  ///< of each chain, settling in included
  double worst_r_hat = 1;  ///< of every open number and of ln P(evidence)
  double least_bulk = 0;
  double least_tail = 0;
  bool converged = false;  ///< worst_r_hat at most 1.01 and both least sizes at least 100 a chain
};

/// Chains agree where no number's split R-hat is above this (Vehtari et al. 2021, section 4).
inline constexpr double good_r_hat = 1.01;

struct Stopped {};

using LearnOutcome = std::variant<Learned, odds::Contradiction, odds::TooLarge, Stopped>;

/// Learns from all observations that count. Unverified animals take part with their odds: leaving
/// them out would be the error of testing mostly the promising ones (Begg and Greenes 1983,
/// Biometrics 39:207). Chains run until every number has split R-hat of 1.01 or less and effective
/// sizes of 100 a chain (Vehtari et al. 2021, section 4), in rounds that double. The same book and
/// seed give the same numbers whatever the threads.
LearnOutcome learn(const colony::Colony& colony, const Settings& settings);

}  // namespace likelihet::learning
