// A colony as a network of genotype variables, factors and leaves.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include <likelihet/inference/network.hpp>
#include <likelihet/odds/scenario.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::odds {

/// Each layer holds the ones before it. `sexes` is what is taken as given: descent and sexes alone.
enum class Layer : std::uint8_t { sexes, pedigree, scored, posterior };

/// What a variable of the network stands for.
struct Owner {
  enum class Kind : std::uint8_t { animal, anonymous_dam, anonymous_sire, clutch_sire, own_sire };
  Kind kind = Kind::animal;
  std::size_t index = 0;  ///< animal (animal, own_sire) or clutch (the others)
  std::size_t locus = 0;  ///< of genotype variables
};

/// Where an animal's genotype at a locus is found.
struct Node {
  bool leaf = false;
  std::uint32_t id = 0;  ///< inference::Variable or inference::Leaf
};

/// One piece of evidence or prior, as numbers over genotypes.
struct Term {
  struct Score {
    std::size_t marker = 0;
    std::size_t table = 0;            ///< as table_in_force() says
    std::vector<double> reading;      ///< r(level)
    std::vector<std::size_t> row_of;  ///< which row holds, by joint genotype
  };
  struct Founder {
    std::size_t locus = 0;
    std::optional<std::size_t> origin;
    const colony::BoughtAs* bought_as = nullptr;
    bool unplaced = false;
  };
  Layer layer = Layer::sexes;
  std::vector<double> fixed;  ///< the numbers, where no table of the model is behind them
  std::optional<Score> score;
  std::optional<Founder> founder;
};

/// The network and how its numbers come from tables and layers. Genotype variables of breeders,
/// founders and animals whose loci are tied together; leaves for all other hatchlings. Two loci of
/// one animal are joined only where a mark reads both, where an uncertain sire or an unknown sex
/// says something of both. Built in an order of its own (depth in the pedigree, then id), so that
/// the same records in another order give the same network.
class ColonyNetwork {
 public:
  [[nodiscard]] const inference::Network& network() const { return network_; }
  [[nodiscard]] const Node& node(std::size_t animal, std::size_t locus) const {
    return nodes_[animal * loci_ + locus];
  }
  [[nodiscard]] const Owner& owner(inference::Variable v) const { return owners_[v]; }

  /// A set of numbers for the network with the evidence up to `layer` and these tables.
  [[nodiscard]] std::vector<double> values(Layer layer, const Tables& tables) const;
  /// Writes the numbers that depend on tables over those of `values`, for Layer::posterior: each
  /// piece of evidence is worked out once, however many animals share it.
  void renew(const Tables& tables, std::vector<double>& values) const;
  /// The positions in values() that renew() may write, as [begin, end).
  [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> renewed() const;
  /// Whether any number depends on tables that belief leaves open.
  [[nodiscard]] bool uncertain() const;

  /// ln P(recorded and implied sexes | descent) in the units of this network, where no viability
  /// plays a part; with viability it takes a network without observations.
  [[nodiscard]] double log_sexes() const { return log_sexes_; }

 private:
  friend class NetworkBuilder;
  struct Slot {
    inference::Table table = 0;
    std::vector<std::uint32_t> terms;
    bool depends = false;  ///< on tables
  };
  using TermNumbers = std::vector<std::vector<double>>;
  [[nodiscard]] TermNumbers all_numbers(const Tables& tables) const;
  void write(const Slot& slot, Layer layer, const TermNumbers& numbers, double* out) const;
  [[nodiscard]] std::vector<double> numbers(const Term& term, const Tables& tables) const;

  const colony::Model* model_ = nullptr;
  std::size_t loci_ = 0;
  inference::Network network_;
  std::vector<Node> nodes_;
  std::vector<Owner> owners_;
  std::vector<Term> terms_;
  std::vector<Slot> slots_;
  double log_sexes_ = 0;
};

/// Builds the network of a scenario; its zeros are those of Layer::pedigree.
ColonyNetwork colony_network(const Scenario& scenario, const Tables& tables);

}  // namespace likelihet::odds
