// An animal's odds taken apart into the evidence that made them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::odds {

/// What is asked: the odds that `animal` has exactly one copy of `allele` at `locus`.
struct Question {
  std::size_t animal = 0;
  std::size_t locus = 0;
  std::uint16_t allele = 1;
};

/// One step of the evidence, in the order it came.
struct Step {
  std::vector<std::size_t> observations;  ///< one of the animal's own, or relatives' of one day
  bool own = true;                        ///< of the animal itself, not of a relative
  double before = 0;                      ///< probability before it
  double after = 0;                       ///< and with it
  /// Odds after / odds before; infinity where it proves, 0 where it rules out, 1 where nothing can
  /// change. Good (1950, Probability and the Weighing of Evidence): the weight of evidence.
  double factor = 1;
  double decibans = 0;  ///< 10 log10(factor)
};

/// `start` x every factor = the odds of `end`, exactly but for rounding.
struct Account {
  double start = 0;  ///< probability from founders, bought_as, clutches and sexes alone
  std::vector<Step> steps;
  double end = 0;  ///< the posterior
  double own_decibans = 0;
  double relatives_decibans = 0;
};

std::variant<Account, Contradiction, TooLarge> why(const colony::Colony& colony,
                                                   const Question& question,
                                                   const Options& options);

/// The odds of an animal after each day on which something that bears on it was recorded.
struct Moment {
  std::optional<colony::Date> day;        ///< empty: before any record
  AnimalOdds odds;                        ///< `het` intervals are [mean, mean]
  std::vector<std::size_t> observations;  ///< of the animal itself, known that day
  bool contradictory = false;  ///< the records of that day clashed; `odds` are then the last before
};

std::variant<std::vector<Moment>, Contradiction, TooLarge> history(const colony::Colony& colony,
                                                                   std::size_t animal,
                                                                   const Options& options);

}  // namespace likelihet::odds
