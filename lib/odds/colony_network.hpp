// A colony as a network of genotype variables, factors and leaves. Genotypes of individuals are the
// variables, as in the genotype networks of Lauritzen and Sheehan 2003, Statistical Science 18:489;
// the evidence then only changes numbers, not the structure, so one plan serves every layer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include <likelihet/inference/network.hpp>
#include <likelihet/odds/scenario.hpp>
#include <likelihet/odds/strength.hpp>
#include <likelihet/odds/tables.hpp>
#include <likelihet/odds/term.hpp>

namespace likelihet::odds {

/// What a variable of the network stands for. Beside genotypes there is who the sire was, where
/// there are several candidates: one state each, in the order of the scenario's sires.
struct Owner {
  enum class Kind : std::uint8_t { animal, anonymous_dam, anonymous_sire, clutch_sire, own_sire };
  Kind kind = Kind::animal;
  std::size_t index = 0;  ///< animal (animal, own_sire) or clutch (the others)
  std::size_t locus = 0;  ///< of genotype variables
};

/// Where an animal's genotype at a locus is found. A leaf's posterior is that of its run
/// (inference::LeafFamilies).
struct Node {
  bool leaf = false;
  std::uint32_t id = 0;  ///< inference::Variable or inference::Leaf
};

/// The network and how its numbers come from tables and layers. Genotype variables of breeders,
/// founders and animals whose loci are tied together; leaves for all other hatchlings. Two loci of
/// one animal are joined only where a marker reads both, where an uncertain sire or an unknown sex
/// says something of both. Built in an order of its own (depth in the pedigree, then id), so that
/// the same records in another order give the same network. Points into the scenario's colony and
/// its model, which must outlive it.
class ColonyNetwork {
 public:
  [[nodiscard]] const inference::Network& network() const { return network_; }
  /// Every animal has one at every locus.
  [[nodiscard]] const Node& node(std::size_t animal, std::size_t locus) const {
    return nodes_[animal * loci_ + locus];
  }
  /// All readings of one marker on one animal, or of several that come together.
  struct Scored {
    std::uint32_t term = 0;  ///< its numbers: Term::scores
    std::size_t animal = 0;
    std::vector<std::size_t> loci;     ///< that the tables in force read, ascending
    std::optional<std::uint32_t> tie;  ///< the factor over them, where they are not one
  };
  /// A genotype without parents: of a founder, or of a parent that nobody named.
  struct Founder {
    inference::Variable variable = 0;
    std::uint32_t term = 0;  ///< its prior: a Term::Founder
  };
  [[nodiscard]] const std::vector<Scored>& scored() const { return scored_; }
  [[nodiscard]] const std::vector<Founder>& founders() const { return founders_; }
  [[nodiscard]] const std::vector<Term>& terms() const { return terms_; }
  [[nodiscard]] const Term& term(std::uint32_t number) const { return terms_[number]; }
  /// One table of the network: the product of its terms up to a layer, ones without any.
  struct Slot {
    inference::Table table = 0;
    std::vector<std::uint32_t> terms;
    bool depends = false;  ///< on tables
  };
  [[nodiscard]] const std::vector<Slot>& slots() const { return slots_; }
  [[nodiscard]] const colony::Model& model() const { return *model_; }
  /// r(level) of a score over a common factor, as read_score() gives it.
  [[nodiscard]] std::vector<double> reading_of(const Term::Score& score,
                                               const Tables& tables) const;

  /// The strengths that markers which come together are averaged over.
  [[nodiscard]] const StrengthPoints& strengths() const { return strengths_; }

  /// The table of ones over the genotype of a place that the scenario wants `held`, in its order.
  [[nodiscard]] inference::Table hold(std::size_t held) const { return holds_[held]; }

  [[nodiscard]] const Owner& owner(inference::Variable v) const { return owners_[v]; }

  /// A set of numbers for the network with the evidence up to `layer` and these tables. Layout of
  /// inference::Network::values(). The tables may be others than those the network was built with,
  /// as long as they have no fewer zeros. For one set of tables after another see Renewal.
  [[nodiscard]] std::vector<double> values(Layer layer, const Tables& tables) const;
  /// Where in values() what is supposed of a genotype is multiplied in, one number a genotype, as
  /// [begin, end): a place of Scenario::supposed, else std::out_of_range is thrown. No other
  /// genotype's evidence stands there; what was recorded of this one may.
  [[nodiscard]] std::pair<std::size_t, std::size_t> supposed(const GenotypePlace& place) const {
    const std::size_t begin = network_.offset(supposed_.at(place));
    return {begin, begin + network_.size(supposed_.at(place))};
  }
  /// Multiplies a likelihood over the genotypes of such a place into `values`; copying the
  /// range from values() takes it back. It is as a result would be: `values` of earlier
  /// layers are then of that layer with this result.
  void suppose(const GenotypePlace& place, std::span<const double> likelihood,
               std::vector<double>& values) const;
  /// Whether any number depends on tables that belief leaves open. If not, every draw gives the
  /// same odds and intervals have no width.
  [[nodiscard]] bool uncertain() const;

  /// ln P(recorded and implied sexes | descent) in the units of this network, where no viability
  /// plays a part; with viability it takes a network without observations. Nats. -ln 2 for each
  /// animal of known sex and each sex-linked locus: each locus brings a 1/2 of its own, also for
  /// unnamed parents.
  [[nodiscard]] double log_sexes() const { return log_sexes_; }

 private:
  friend class NetworkBuilder;

  const colony::Model* model_ = nullptr;
  std::size_t loci_ = 0;
  inference::Network network_;
  std::vector<Node> nodes_;
  std::vector<Owner> owners_;
  std::vector<Term> terms_;
  std::vector<Slot> slots_;
  std::vector<Scored> scored_;
  std::vector<Founder> founders_;
  std::vector<inference::Table> holds_;
  std::map<GenotypePlace, inference::Table> supposed_;
  StrengthPoints strengths_;  // empty where no markers come together
  double log_sexes_ = 0;
};

/// Builds the network of a scenario; its zeros are those of Layer::pedigree. Results and scores are
/// no part of those zeros, so a plan may be used for layers without them.
ColonyNetwork colony_network(const Scenario& scenario, const Tables& tables);

}  // namespace likelihet::odds
