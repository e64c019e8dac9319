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

template <class Value>
using Named = std::vector<std::pair<std::string, Value>>;

struct LocusDescription {
  std::string id;
  genetics::Chromosome on = genetics::Chromosome::autosome;
  std::vector<std::string> alleles;
  /// Genotype key or `default` -> appearance -> probability; a bare word is one with probability 1.
  Named<Named<double>> appearance;
  Named<double> viability;
  std::string caution;
  friend bool operator==(const LocusDescription&, const LocusDescription&) = default;
};

struct OriginDescription {
  std::string id;
  Named<Named<double>> frequencies;  ///< locus -> allele -> frequency
  std::optional<double> worth;       ///< alleles' worth of belief
  friend bool operator==(const OriginDescription&, const OriginDescription&) = default;
};

struct RowDescription {
  Named<std::string> at;       ///< locus -> genotype key; empty = every other animal
  std::vector<double> expect;  ///< P(level | row)
  std::optional<double> worth; ///< scored animals' worth of belief
  friend bool operator==(const RowDescription&, const RowDescription&) = default;
};

/// `when` is {"locus", "shows"} or {"line"}.
struct ContextDescription {
  std::optional<std::string> locus;
  std::optional<std::string> shows;
  std::optional<std::string> line;
  bool ignore = false;  ///< "use": "ignore"
  std::vector<RowDescription> rows;
  friend bool operator==(const ContextDescription&, const ContextDescription&) = default;
};

struct MarkerDescription {
  std::string id;
  std::vector<std::string> levels;
  std::optional<double> weight;
  std::vector<RowDescription> rows;
  std::vector<ContextDescription> contexts;
  friend bool operator==(const MarkerDescription&, const MarkerDescription&) = default;
};

struct AssayRowDescription {
  std::string at;
  std::vector<double> expect;
  friend bool operator==(const AssayRowDescription&, const AssayRowDescription&) = default;
};

struct AssayDescription {
  std::string id;
  std::string locus;
  std::vector<std::string> reports;
  std::vector<AssayRowDescription> rows;
  std::optional<double> mix_up;
  std::optional<double> price;
  friend bool operator==(const AssayDescription&, const AssayDescription&) = default;
};

struct ScorerDescription {
  std::string id;
  std::optional<double> sure;
  friend bool operator==(const ScorerDescription&, const ScorerDescription&) = default;
};

/// Marks that share an animal's strength of expression; used by learning alone.
struct TogetherDescription {
  std::string id;
  std::vector<std::string> markers;
  friend bool operator==(const TogetherDescription&, const TogetherDescription&) = default;
};

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
