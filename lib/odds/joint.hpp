// The joint posterior of several genotypes. Beliefs of single animals do not tell how two relatives
// go together; what a pair may have needs both at once.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/inference/engine.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/options.hpp>
#include <likelihet/odds/renewal.hpp>
#include <likelihet/odds/table_draws.hpp>

namespace likelihet::odds {

/// A distribution over several genotypes: the cells of positive probability, in the order of their
/// states (the first place slowest).
struct JointTable {
  std::size_t places = 0;
  std::vector<std::uint32_t> states;  ///< cell after cell, `places` of each
  std::vector<double> probability;    ///< by cell; they sum to 1

  [[nodiscard]] std::size_t cells() const { return probability.size(); }
  [[nodiscard]] std::span<const std::uint32_t> cell(std::size_t c) const {
    return {states.data() + c * places, places};
  }
};

/// Exact joint beliefs after all evidence, under one set of tables at a time. By the chain rule:
/// P(a, b, c) = P(a) P(b | a) P(c | a, b), each factor from a run with the genotypes before it held
/// at their states (conditioning: Pearl 1988, Probabilistic Reasoning in Intelligent Systems,
/// section 4.3). Runs go eight side by side, so a joint of k genotypes costs at most as many runs
/// as there are states of the first k - 1 together over eight; states that the evidence rules out
/// cost nothing. No table grows by it: the memory is that of the colony's odds.
class JointBeliefs {
 public:
  using Made = std::variant<std::unique_ptr<JointBeliefs>, Contradiction, TooLarge>;

  /// For the genotypes that `scenario.held` names; they are spoken of by their position there.
  /// Starts under the model's beliefs. Of the options `memory_bytes` alone counts here. The colony
  /// must outlive it.
  static Made make(const Scenario& scenario, const Options& options);
  JointBeliefs(const JointBeliefs&) = delete;
  JointBeliefs& operator=(const JointBeliefs&) = delete;

  /// From now on under these tables. Tables at which nothing is possible by rounding count as the
  /// believed ones.
  void take(const Tables& tables);

  /// P(genotype), over the locus's states.
  [[nodiscard]] std::vector<double> marginal(std::size_t held) const;

  /// P(first, second) for each of `seconds`, the second's state fastest. One run for each state of
  /// the first serves all of them. `first` may not be among `seconds`.
  std::vector<std::vector<double>> pairs(std::size_t first, std::span<const std::size_t> seconds);

  /// P of all these together. Genotypes of unconnected parts are independent and multiply. TooLarge
  /// where so many cells would not fit; found before any run.
  std::variant<JointTable, TooLarge> joint(std::span<const std::size_t> held);

  /// Which connected part a genotype is in: those of different parts are independent given all
  /// evidence. One that is settled is a part of its own.
  [[nodiscard]] std::size_t part(std::size_t held) const;

 private:
  // Genotypes held at states, by position.
  using Holds = std::vector<std::pair<std::size_t, std::uint32_t>>;
  using Visit = std::function<void(std::size_t given, std::size_t wanted, std::span<const double>)>;

  JointBeliefs(const Scenario& scenario, std::unique_ptr<Prepared> prepared, std::size_t memory);
  void take_values();
  [[nodiscard]] inference::Variable variable(std::size_t held) const;
  // Beliefs of the wanted genotypes given each set of holds.
  void given_each(const std::vector<Holds>& given, std::span<const std::size_t> wanted,
                  const Visit& visit);
  void given_alone(const Holds& holds, std::size_t number, std::span<const std::size_t> wanted,
                   const Visit& visit);
  JointTable joint_of_part(const std::vector<std::size_t>& held);
  [[nodiscard]] std::optional<TooLarge> too_many_cells(std::span<const std::size_t> held) const;

  std::vector<GenotypePlace> held_;
  std::unique_ptr<Prepared> prepared_;
  Tables believed_;
  std::size_t memory_bytes_;
  std::vector<double> values_;
  Renewal<double> renewal_;
  inference::Beliefs beliefs_;
  std::unique_ptr<inference::Runner<DrawLanes>> runner_;  // where eight sets of numbers fit
  std::vector<DrawLanes> lanes_;
};

/// So many of these tables, evenly out of all of them.
std::vector<const Tables*> thinned(const std::vector<Tables>& draws, std::size_t most);

}  // namespace likelihet::odds
