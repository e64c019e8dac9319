// How many non-visual offspring show that an animal does not carry an allele, or one offspring that
// shows it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/odds/joint.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::planning {

/// A joint state of the animal and its partner.
struct ProveOutCell {
  double weight = 0;             ///< present probability; over all cells they sum to 1
  double visual = 0;             ///< P(a living offspring shows the trait | both)
  bool carrier = false;          ///< whether the animal has the allele
  bool partner_carrier = false;  ///< whether the partner has
};

/// What further offspring of one pair would say, from present odds. Offspring are independent given
/// both parents: P(carrier | n non-visual) = Σ_carrier w (1 - v)^n / Σ w (1 - v)^n (Bayes' rule;
/// for a partner known to be affected or a carrier this is the rule of test matings, 1 - (1/2)^n
/// and 1 - (3/4)^n of animal-breeding handbooks). Needed numbers are never rounded down.
class ProveOutOdds {
 public:
  /// Throws std::invalid_argument without a cell of positive weight. Weights are renormalised.
  explicit ProveOutOdds(std::vector<ProveOutCell> cells);

  /// P(the animal carries the allele | the next n offspring are non-visual).
  [[nodiscard]] double carrier_after(std::size_t n) const;
  /// P(the next n offspring are all non-visual), as things stand.
  [[nodiscard]] double all_non_visual(std::size_t n) const;
  /// P(at least one of n shows the trait | it is a carrier). 0 where it can be none.
  [[nodiscard]] double detected(std::size_t n) const;
  /// What P(not a carrier) comes to with ever more non-visual offspring.
  [[nodiscard]] double limit() const;
  /// The fewest further non-visual offspring after which P(not a carrier) is `level` or more;
  /// nothing where no number of them is enough, or more than `most_offspring` are.
  [[nodiscard]] std::optional<std::size_t> needed(double level) const;
  static constexpr std::size_t most_offspring = 100000;

  /// If the next offspring shows the trait: P(carrier), and P(the partner carries it). Nothing
  /// where no offspring of the pair can.
  struct AfterVisual {
    double carrier = 0;
    double partner_carrier = 0;
  };
  [[nodiscard]] std::optional<AfterVisual> after_visual() const;
  /// P(the next offspring shows the trait).
  [[nodiscard]] double visual() const;

 private:
  // Σ w (1 - v)^n over all cells, or over those in which it carries it, as a pair.
  [[nodiscard]] std::pair<double, double> sums(std::size_t n) const;

  std::vector<ProveOutCell> cells_;
};

/// Offspring of the pair that are recorded with a look at the locus; the present odds hold them
/// already. Of a partner in the book, the offspring of clutches that are certainly of these two; of
/// a genotype, the broods counted with it.
struct OffspringSeen {
  std::int64_t non_visual = 0;
  std::int64_t visual = 0;
};

/// Whom the offspring are had with: an animal of the book, or one known by its genotype at this
/// locus.
struct PartnerAnimal {
  std::size_t animal = 0;
};
struct PartnerGenotype {
  std::size_t genotype = 0;
};

/// What is to be proven, and with whom.
struct ProveOutAsked {
  std::size_t animal = 0;
  std::variant<PartnerAnimal, PartnerGenotype> partner;
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  std::optional<double> per_clutch;  ///< offspring; else the mean of the book
};

/// The levels that are asked for.
inline constexpr double prove_out_levels[] = {0.90, 0.95, 0.99};

struct ProveOut {
  ProveOutOdds odds;
  /// Of the locus: what an offspring must show to prove it. Never empty.
  std::vector<std::size_t> visual_appearances;
  /// False: two copies look as none do, so that no offspring proves anything.
  bool shows_itself = false;
  OffspringSeen seen;
  /// Offspring that a clutch brings: as asked, or the mean over the book's clutches of which
  /// offspring are recorded; nothing where there are none.
  std::optional<double> per_clutch;
  std::size_t tables = 0;  ///< as in Outlook
};

/// Keys of the genotypes that a partner of the animal can have at the locus: all but those of its
/// own sex. In state order.
std::vector<std::string> partner_genotypes(const colony::Colony& colony, std::size_t animal,
                                           std::size_t locus);

/// Why this cannot be asked, with what to do; nothing where it can.
std::optional<colony::Fault> prove_out_fault(const colony::Colony& colony,
                                             const ProveOutAsked& asked);

/// From the joint odds of animal and partner. A carrier has the allele once or twice. An offspring
/// proves it by an appearance that no genotype without the allele shows, or where there is none by
/// what two copies show most; it is non-visual if it shows anything else. `learned` as for
/// outlook().
std::variant<ProveOut, odds::Contradiction, odds::TooLarge> proof(
    const colony::Colony& colony, const ProveOutAsked& asked, const odds::Options& options,
    std::span<const odds::Tables* const> learned);

}  // namespace likelihet::planning
