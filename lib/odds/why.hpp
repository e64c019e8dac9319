// An animal's odds taken apart into the evidence that made them.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/odds.hpp>
#include <likelihet/odds/scenario.hpp>

namespace likelihet::odds {

/// What is asked: the odds that `animal` has exactly one copy of `allele` at `locus`. Positions in
/// the colony and the model; all must exist.
struct Question {
  std::size_t animal = 0;
  std::size_t locus = 0;
  /// As the locus numbers them; 0 may be asked for too.
  std::uint16_t allele = 1;
};

/// One step of the evidence, in the order it came. Steps are a chain: each weighs its evidence
/// given all before it, so another order would share the same total out otherwise.
struct Step {
  std::vector<std::size_t> observations;  ///< one of the animal's own, or relatives' of one day
  bool own = true;                        ///< of the animal itself, not of a relative
  double before = 0;                      ///< probability before it; 1 only where it is certain
  double after = 0;                       ///< and with it
  /// Odds after / odds before; infinity where it proves, 0 where it rules out, 1 where nothing can
  /// change. Good (1950, Probability and the Weighing of Evidence): the weight of evidence.
  double factor = 1;
  /// Infinite where the factor is infinite or 0. Ten of them are a factor of ten (Good 1979,
  /// Biometrika 66:393, on the name; Jaynes 2003, Probability Theory, chapter 4).
  double decibans = 0;  ///< 10 log10(factor)
};

/// `start` x every factor = the odds of `end`, exactly but for rounding. Relatives' steps whose
/// factor is 1 within 1e-11 are left out of the list.
struct Account {
  double start = 0;  ///< probability from founders, bought_as, clutches and sexes alone
  std::vector<Step> steps;
  double end = 0;  ///< the posterior
  /// Sums of the steps' decibans by whose evidence it is; infinite once something is proved or
  /// ruled out.
  double own_decibans = 0;
  double relatives_decibans = 0;
};

/// Animals joined to it by no descent are left out: they tell nothing. Exact, one plan and run a
/// step; `options.draws`, `seed` and `surprises` play no part.
std::variant<Account, Contradiction, TooLarge> why(const colony::Colony& colony,
                                                   const Question& question,
                                                   const Options& options);

/// The same of a variation of a colony, such as one without its markers.
std::variant<Account, Contradiction, TooLarge> why(const Scenario& scenario,
                                                   const Question& question,
                                                   std::size_t memory_bytes);

/// The odds of an animal after each day on which something that bears on it was recorded. A record
/// counts from the day it became known, which may be after the day it was seen.
struct Moment {
  std::optional<colony::Date> day;  ///< empty: before any record
  AnimalOdds odds;                  ///< `het` intervals are [mean, mean]
  /// Positions in colony.observations().
  std::vector<std::size_t> observations;  ///< of the animal itself, known that day
  bool contradictory = false;  ///< the records of that day clashed; `odds` are then the last before
};

/// The first moment is the pedigree alone. Days that change none of its odds by more than 1e-12 and
/// bring no record of its own are left out. A contradiction is the answer only where the pedigree
/// itself is impossible; a later one is marked in its moment. Records without a day count from the
/// first day there is; where none has a day, the first moment is all.
std::variant<std::vector<Moment>, Contradiction, TooLarge> history(const colony::Colony& colony,
                                                                   std::size_t animal,
                                                                   const Options& options);

}  // namespace likelihet::odds
