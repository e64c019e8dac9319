// The model document as it was written: plain values, nothing checked yet.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <likelihet/genetics/sex.hpp>

// Each struct mirrors an object of the model document (docs/documents.md), members in the order of
// the document. Positions in these vectors are positions in the document's arrays, so that a check
// can name its JSON Pointer. A member that JSON keeps as an object is a list of pairs in the order
// written.
namespace likelihet::colony {

/// A JSON object whose names are the keeper's own: name -> value, in the order written.
template <class Value>
using Named = std::vector<std::pair<std::string, Value>>;

/// A locus. What is not given: appearance `plain` for all, viability 1. A genotype that
/// `appearance` does not list has the row of `default`; without a default every genotype must be
/// listed.
struct LocusDescription {
  std::string id;  ///< ids are 1 to 200 bytes without control characters
  genetics::Chromosome on = genetics::Chromosome::autosome;
  std::vector<std::string> alleles;  ///< 2 to 64, in the order in which keys name them
  /// Genotype key or `default` -> appearance -> probability; a bare word is one with probability 1.
  Named<Named<double>> appearance;
  Named<double> viability;  ///< genotype key -> relative chance to be alive, 0 or more
  std::string caution;      ///< of a trait that can hurt an animal; may be empty
  friend bool operator==(const LocusDescription&, const LocusDescription&) = default;
};

/// A population that founders come from. What a locus's frequencies leave of 1 belongs to its first
/// allele; a locus that is not named has the first allele alone.
struct OriginDescription {
  std::string id;
  Named<Named<double>> frequencies;  ///< locus -> allele -> frequency
  std::optional<double> worth;       ///< alleles' worth of belief; not given = 10
  friend bool operator==(const OriginDescription&, const OriginDescription&) = default;
};

/// P(level) of the animals whose genotypes are those of `at`. The first row whose `at` fits an
/// animal is its row.
struct RowDescription {
  Named<std::string> at;        ///< locus -> genotype key; empty = every other animal
  std::vector<double> expect;   ///< P(level | row)
  std::optional<double> worth;  ///< scored animals' worth of belief; not given = 10
  friend bool operator==(const RowDescription&, const RowDescription&) = default;
};

/// `when` is {"locus", "shows"} or {"line"}. The marker is read by another table where its
/// condition holds.
struct ContextDescription {
  std::optional<std::string> locus;
  std::optional<std::string> shows;
  std::optional<std::string> line;
  bool ignore = false;               ///< "use": "ignore"
  std::vector<RowDescription> rows;  ///< none if `ignore`
  friend bool operator==(const ContextDescription&, const ContextDescription&) = default;
};

/// A sign; rows are tried in order, and the last one's `at` is empty. Its id is the word that
/// scores and tables name it by.
struct MarkerDescription {
  std::string id;
  std::vector<std::string> levels;  ///< ordinal, lowest first, 2 or more
  std::optional<double> weight;     ///< in [0, 1]; not given = 1
  std::vector<RowDescription> rows;
  std::vector<ContextDescription> contexts;
  friend bool operator==(const MarkerDescription&, const MarkerDescription&) = default;
};

/// What the assay reports of one genotype. The numbers are in the order of the assay's reports.
struct AssayRowDescription {
  std::string at;              ///< genotype key
  std::vector<double> expect;  ///< P(report | genotype), before mix-ups
  friend bool operator==(const AssayRowDescription&, const AssayRowDescription&) = default;
};

/// A laboratory's test of one locus; one row for each of its genotypes.
struct AssayDescription {
  std::string id;
  std::string locus;
  std::vector<std::string> reports;
  std::vector<AssayRowDescription> rows;
  std::optional<double> mix_up;  ///< P(the sample is another animal's); not given = 0
  std::optional<double> price;   ///< in the keeper's money
  friend bool operator==(const AssayDescription&, const AssayDescription&) = default;
};

/// Who reads markers. A score without a scorer is taken as sure unless it says otherwise.
struct ScorerDescription {
  std::string id;
  std::optional<double> sure;  ///< P(the level read is there); not given = 1
  friend bool operator==(const ScorerDescription&, const ScorerDescription&) = default;
};

/// Markers that share an animal's strength of expression beyond its genotype. Two markers or more;
/// a marker is in one group at most. How strongly is not believed but learned: belief takes them as
/// independent.
struct TogetherDescription {
  std::string id;
  std::vector<std::string> markers;
  std::optional<bool> common_loading =
      std::nullopt;  ///< one loading for all markers; not given = one for each
  std::optional<double> spread =
      std::nullopt;  ///< of the half-normal prior of a loading; not given = 1
  friend bool operator==(const TogetherDescription&, const TogetherDescription&) = default;
};

/// The whole document. Equal where every value is equal, whatever the text was laid out like.
struct ModelDescription {
  std::string name;
  genetics::SexSystem sex_chromosomes = genetics::SexSystem::none;
  std::vector<LocusDescription> loci;
  std::vector<OriginDescription> origins;
  std::vector<MarkerDescription> markers;
  std::vector<AssayDescription> assays;
  std::vector<ScorerDescription> scorers;
  std::vector<TogetherDescription> together;
  friend bool operator==(const ModelDescription&, const ModelDescription&) = default;
};

}  // namespace likelihet::colony
