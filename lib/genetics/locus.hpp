// A locus: its alleles, its genotypes in the one order used everywhere, what each looks like.
// Immutable once made. Everything that computes speaks of genotypes by their numbers here.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <likelihet/genetics/genotype.hpp>

namespace likelihet::genetics {

/// State order (docs/model.md): the two-copy genotypes first, `a/b` with a <= b in lexicographic
/// order of allele numbers (for two alleles `+/+`, `+/e`, `e/e`); on a sex chromosome the one-copy
/// genotypes follow (`+/W`, `e/W`). Every table over genotypes uses this order. With n alleles
/// there are n(n + 1)/2 two-copy genotypes, and n more on a sex chromosome. The number of a
/// genotype is part of no document: documents name it by its key.
class Locus {
 public:
  /// `appearance[g][s]` is P(shows appearances[s] | genotype g), each row summing to 1 within 1e-9;
  /// `viability[g]` the relative chance of genotype g to be alive when recorded (>= 0). Ids and
  /// names are taken as they are: whether they are good ids is checked where documents are read.
  struct Parts {
    /// As the model document has it.
    std::string id;
    /// An `x` or `z` adds the one-copy genotypes to the state order.
    Chromosome chromosome = Chromosome::autosome;
    /// In the order that numbers them; the first is the plain one that founders of no origin carry.
    std::vector<std::string> alleles;
    /// What can be seen at this locus; the columns of `appearance`.
    std::vector<std::string> appearances;
    std::vector<std::vector<double>> appearance;
    std::vector<double> viability;
    /// Shown wherever odds of the locus are; empty for most loci.
    std::string caution;
  };

  /// Throws std::invalid_argument if there are fewer than two alleles, a table has the wrong shape,
  /// or a number is out of its range. Documents are checked before (colony/model.hpp).
  explicit Locus(Parts parts);

  /// The genotypes of a locus with so many alleles, in state order. Any number of alleles will do,
  /// 0 among them; used before a locus can be made, to name the rows that a document must give.
  static std::vector<Genotype> genotypes_of(std::size_t alleles, Chromosome chromosome);

  /// The key of a genotype, `+/e` or `e/W`, from allele names in declared order. Does not check
  /// that the genotype fits the locus: an allele number out of range is undefined.
  static std::string key_of(const Genotype& genotype, const std::vector<std::string>& alleles,
                            Chromosome chromosome);

  [[nodiscard]] const std::string& id() const { return parts_.id; }
  [[nodiscard]] Chromosome chromosome() const { return parts_.chromosome; }
  [[nodiscard]] bool sex_linked() const { return parts_.chromosome != Chromosome::autosome; }
  [[nodiscard]] const std::vector<std::string>& alleles() const { return parts_.alleles; }
  [[nodiscard]] const std::vector<Genotype>& genotypes() const { return genotypes_; }
  /// The length of every table over this locus.
  [[nodiscard]] std::size_t size() const { return genotypes_.size(); }
  /// The key of a genotype below size(); it lives as long as the locus.
  [[nodiscard]] const std::string& key(std::size_t genotype) const { return keys_[genotype]; }
  [[nodiscard]] const std::vector<std::string>& appearances() const { return parts_.appearances; }
  [[nodiscard]] const std::string& caution() const { return parts_.caution; }

  /// Number of the genotype with this key, or nothing. Keys are compared letter by letter: `e/+` is
  /// not `+/e`. Linear in size().
  [[nodiscard]] std::optional<std::size_t> find(std::string_view key) const;
  /// Number of the allele or appearance of this name, or nothing.
  [[nodiscard]] std::optional<std::uint16_t> find_allele(std::string_view name) const;
  [[nodiscard]] std::optional<std::size_t> find_appearance(std::string_view name) const;

  /// P(shows `appearance` | `genotype`), a probability.
  [[nodiscard]] double shows(std::size_t genotype, std::size_t appearance) const {
    return parts_.appearance[genotype][appearance];
  }
  /// Relative chance to be alive when recorded, 0 or more; 0 is lethal. Only ratios between
  /// genotypes matter: all of them at 2 is as all of them at 1.
  [[nodiscard]] double viability(std::size_t genotype) const { return parts_.viability[genotype]; }
  /// Whether any viability differs from 1. Where none does, being alive tells nothing of an animal
  /// and its parents, which spares work.
  [[nodiscard]] bool viability_matters() const;
  /// Whether an animal of this sex can have the genotype (always, on an autosome).
  [[nodiscard]] bool possible(std::size_t genotype, Sex sex) const {
    return !genotypes_[genotype].sex || *genotypes_[genotype].sex == sex;
  }

 private:
  Parts parts_;
  std::vector<Genotype> genotypes_;
  std::vector<std::string> keys_;
};

/// What can be seen of an allele: the one definition of a visual (docs/model.md).
struct Looks {
  /// One copy beside the first allele looks otherwise than none, in half of such animals or more
  /// (total variation distance): a dominant or a one-copy visible trait, of which "het" is not
  /// said.
  bool seen_in_one_copy = false;
  /// By appearance: whether an animal that shows it is a visual. Two first alleles never show it,
  /// and an animal without a first allele, this one among its two, may; one copy beside the first
  /// never does, unless one copy is to be seen anyway: then its looks are a visual's too. A look
  /// that one copy gives now and then is nobody's proof. Where looks overlap so far that this
  /// leaves none, it is what two copies show most, if two first alleles show another most.
  std::vector<bool> visual;
};

/// Of an allele other than the first. Throws std::out_of_range without such an allele.
Looks looks_of(const Locus& locus, std::uint16_t allele);

/// The appearance that the genotype shows most; of equals the first.
std::size_t likeliest_appearance(const Locus& locus, std::size_t genotype);

/// Whether what the genotype shows most is a visual's, of any of its alleles.
bool looks_visual(const Locus& locus, std::size_t genotype);

}  // namespace likelihet::genetics
