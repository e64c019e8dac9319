// The likelihood model: loci, origins, markers, assays, scorers; checked once, then immutable.
// Probabilities in it are beliefs of whoever wrote the document; how firm each is stands beside it
// as its worth.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model_description.hpp>
#include <likelihet/genetics/locus.hpp>

namespace likelihet::colony {

/// A population that founders come from. `frequencies[l]` holds one frequency an allele of locus l,
/// summing to 1 (all of the first allele where the document gives none); `worth` in alleles.
/// `worth` is an equivalent sample size (Heckerman et al. 1995, Machine Learning 20:197): 0 takes
/// the frequencies as known exactly.
struct Origin {
  std::string id;
  std::vector<std::vector<double>> frequencies;
  double worth = 0;
};

/// P(level | genotype) for the animals whose genotypes match every entry of `at`. An empty `at`
/// matches every animal. `worth` is an equivalent sample size too, in scored animals, above 0.
struct MarkerRow {
  std::vector<std::pair<std::size_t, std::size_t>> at;  ///< (locus, genotype), locus ascending
  std::vector<double> expect;                           ///< one a level, summing to 1
  double worth = 0;  ///< Dirichlet concentration is worth x expect
};

/// Another table for the animals that were recorded to show something, or that are of a line.
/// Exactly one of `shows` and `line` is set.
struct MarkerContext {
  std::optional<std::pair<std::size_t, std::size_t>> shows;  ///< (locus, appearance)
  std::optional<std::string> line;
  bool ignore = false;          ///< the marker cannot be read here: no evidence
  std::vector<MarkerRow> rows;  ///< empty if `ignore`
};

/// A small sign that hets may show. `contexts` are tried in order before `rows`; the first that
/// fits decides. `weight` is the power that the likelihood is raised to: 0 leaves the marker out, 1
/// takes it at its word, less than 1 discounts markers that repeat one another.
struct Marker {
  std::string id;
  std::vector<std::string> levels;  ///< ordinal, lowest first
  double weight = 1;                ///< in [0, 1]
  std::vector<MarkerRow> rows;      ///< tried in order; the last matches every animal
  std::vector<MarkerContext> contexts;
};

/// A laboratory's test. With probability `mix_up` the sample was another animal's, and the report
/// follows the plain average of the rows. `expect[g][r]` is P(reports[r] | genotype g of `locus`),
/// before mix-ups. Each row sums to 1 and has one entry a report; there is one for every genotype.
struct Assay {
  std::string id;
  std::size_t locus = 0;
  std::vector<std::string> reports;
  std::vector<std::vector<double>> expect;
  double mix_up = 0;            ///< in [0, 1]
  std::optional<double> price;  ///< a sample, in the keeper's money
};

/// Who reads markers. Used for readings that give no chance of their own.
struct Scorer {
  std::string id;
  double sure = 1;  ///< P(level read is the level there)
};

/// Markers that share an animal's strength of expression (odds/strength.hpp).
struct Together {
  std::string id;
  std::vector<std::size_t> markers;  ///< in the document's order
  bool common_loading = false;       ///< one loading for all, else one for each
  double spread = 1;                 ///< standard deviation of the normal that is folded at 0
};

/// Immutable once made; ids resolved to positions. Copies are deep; colonies share one.
class Model {
 public:
  /// The model, or every fault of the description: JSON Pointers into the model document. Whether
  /// the document's form is right is for documents/model_document.hpp; this checks what the values
  /// mean together. All checks run; the first 1000 faults are kept.
  static std::variant<Model, Faults> make(ModelDescription description);

  /// As it was given to make(), to be written back.
  [[nodiscard]] const ModelDescription& description() const { return description_; }
  [[nodiscard]] genetics::SexSystem sex_system() const { return description_.sex_chromosomes; }
  /// Lists in the document's order: a position here is one in the document's array.
  [[nodiscard]] const std::vector<genetics::Locus>& loci() const { return loci_; }
  [[nodiscard]] const std::vector<Origin>& origins() const { return origins_; }
  [[nodiscard]] const std::vector<Marker>& markers() const { return markers_; }
  [[nodiscard]] const std::vector<Assay>& assays() const { return assays_; }
  [[nodiscard]] const std::vector<Scorer>& scorers() const { return scorers_; }
  [[nodiscard]] const std::vector<Together>& together() const { return together_; }

  /// The position of the element of this id, or nothing. Linear: models are short.
  [[nodiscard]] std::optional<std::size_t> find_locus(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_origin(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_marker(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_assay(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_scorer(std::string_view id) const;

 private:
  Model() = default;
  ModelDescription description_;
  std::vector<genetics::Locus> loci_;
  std::vector<Origin> origins_;
  std::vector<Marker> markers_;
  std::vector<Assay> assays_;
  std::vector<Scorer> scorers_;
  std::vector<Together> together_;
};

}  // namespace likelihet::colony
