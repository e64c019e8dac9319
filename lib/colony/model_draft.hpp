// A model while its description is being checked. Private to the layer.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include <likelihet/colony/fault_list.hpp>
#include <likelihet/colony/model.hpp>
#include <likelihet/colony/place.hpp>
#include <likelihet/colony/value_checks.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

/// What the rest of a description may refer to of one locus. Its position is that of the
/// description, also where it has faults: what refers to a faulty locus is not faulty for that.
/// `parts` is made into a Locus only if there are no faults at all.
struct LocusDraft {
  genetics::Locus::Parts parts;
  std::vector<genetics::Genotype> genotypes;             ///< empty if the alleles have faults
  std::vector<std::string> keys;                         ///< of `genotypes`, in state order
  std::unordered_map<std::string, std::size_t> numbers;  ///< key -> genotype

  [[nodiscard]] bool has_genotypes() const { return !genotypes.empty(); }
  [[nodiscard]] std::optional<std::size_t> find(const std::string& key) const {
    const auto found = numbers.find(key);
    return found == numbers.end() ? std::nullopt : std::optional(found->second);
  }
};

/// Each check adds to `faults` and to its own list; lists are used only if there are no faults.
struct ModelDraft {
  const ModelDescription& description;
  FaultList faults;
  std::vector<LocusDraft> loci;
  std::vector<Origin> origins;
  std::vector<Marker> markers;
  std::vector<Assay> assays;
  std::vector<Scorer> scorers;
  std::vector<Together> together;
};

/// Loci come first: all other lists refer to them. Alleles are 2 to 64, and no sex may be left
/// without a genotype that can live.
void check_loci(ModelDraft& draft);
/// Allele frequencies, completed with the first allele's. A sum over 1 is a fault, and one below it
/// where the first allele is named too.
void check_origins(ModelDraft& draft);
/// Levels, rows and contexts. Each table ends in the one row that fits every animal, and only
/// there.
void check_markers(ModelDraft& draft);
/// One row for each genotype of an assay's locus. A row missing because another's key is misspelt
/// is told once.
void check_assays(ModelDraft& draft);
void check_scorers(ModelDraft& draft);
/// Groups of markers, each marker in one at most.
void check_together(ModelDraft& draft);

/// The position of the locus of this id, or a fault at `place`.
std::optional<std::size_t> known_locus(ModelDraft& draft, const std::string& id,
                                       const std::string& place);

/// The genotype of this key, or a fault at `place`; nothing, without a fault, where the locus
/// itself is too faulty to tell. Constant time where the key is right.
std::optional<std::size_t> known_genotype(ModelDraft& draft, const LocusDraft& locus,
                                          const std::string& key, const std::string& place);

/// Adds a fault unless `expect` has one probability for each of `columns` ("level" or "report"),
/// summing to 1.
void check_expect(const std::vector<double>& expect, const std::vector<std::string>& columns,
                  const std::string& column, const Pointer& place, FaultList& faults);

/// Checks the words of a list (levels, reports, alleles): each a good id, none twice, `least` of
/// them at least.
void check_words(const std::vector<std::string>& words, const std::string& name, std::size_t least,
                 const Pointer& place, FaultList& faults);

/// The position of the first element with this id.
template <class List>
std::optional<std::size_t> position_of(const List& list, std::string_view id) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].id == id) return i;
  }
  return std::nullopt;
}

/// Checks the ids of a list of the document (`member`, such as "loci", each a `name`).
template <class List>
void check_ids(const List& list, const std::string& member, const std::string& name,
               FaultList& faults) {
  std::unordered_map<std::string, std::size_t> first;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string place = (Pointer() / member / i / "id").text();
    check_id(list[i].id, name + " id", place, faults);
    const auto [known, is_new] = first.emplace(list[i].id, i);
    if (is_new || list[i].id.empty()) continue;
    faults.add(place,
               "the " + name + " id " + in_quotes(list[i].id) + " is that of " +
                   (Pointer() / member / known->second).text() + " too",
               "give each " + name + " an id of its own");
  }
}

/// Whether the name at `i` stands earlier in the list too; adds a fault at `place` if it does.
template <class Value>
bool repeated(const Named<Value>& list, std::size_t i, const std::string& place,
              FaultList& faults) {
  for (std::size_t earlier = 0; earlier < i; ++earlier) {
    if (list[earlier].first != list[i].first) continue;
    faults.add(place, in_quotes(list[i].first) + " is given twice", "give it once");
    return true;
  }
  return false;
}

}  // namespace likelihet::colony
