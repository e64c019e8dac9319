// Checks of loci: alleles, genotype keys, appearances, viability.
#include <algorithm>
#include <utility>

#include <likelihet/colony/model_draft.hpp>

namespace likelihet::colony {

namespace {

using genetics::Chromosome;
using genetics::Sex;
using genetics::SexSystem;

constexpr std::size_t most_alleles = 64;
constexpr std::size_t most_genotypes_listed = 8;

void check_chromosome(Chromosome on, SexSystem system, const Pointer& place, FaultList& faults) {
  const bool fits = on == Chromosome::autosome ||
                    (on == Chromosome::x && system == SexSystem::xy) ||
                    (on == Chromosome::z && system == SexSystem::zw);
  if (fits) return;
  const std::string needed = on == Chromosome::x ? "XY" : "ZW";
  const std::string written = system == SexSystem::none ? "none"
                              : system == SexSystem::xy ? "XY"
                                                        : "ZW";
  faults.add((place / "on").text(),
             "the locus is on " + std::string(on == Chromosome::x ? "X" : "Z") +
                 ", but sex_chromosomes is " + written,
             "put it on an autosome, or set sex_chromosomes to " + needed);
}

// Whether genotype keys can be made of these alleles.
bool check_alleles(const LocusDescription& locus, const Pointer& place, FaultList& faults) {
  const Pointer list = place / "alleles";
  const std::size_t before = faults.count();
  check_words(locus.alleles, "allele", 2, list, faults);
  if (locus.alleles.size() > most_alleles) {
    faults.add(list.text(), "there are " + std::to_string(locus.alleles.size()) + " alleles",
               "give at most " + std::to_string(most_alleles));
  }
  const bool sex_linked = locus.on != Chromosome::autosome;
  const std::string partner(1, genetics::partner_letter(locus.on));
  for (std::size_t i = 0; i < locus.alleles.size(); ++i) {
    const std::string& allele = locus.alleles[i];
    if (allele.find('/') != std::string::npos) {
      faults.add((list / i).text(), "the allele " + in_quotes(allele) + " has a '/' in it",
                 "use another character: '/' joins the alleles of a genotype key");
    } else if (sex_linked && allele == partner) {
      faults.add((list / i).text(),
                 "the allele " + in_quotes(allele) + " is named like the partner chromosome",
                 "give it another name: 'e/" + partner + "' tells that there is one copy of e");
    }
  }
  return faults.count() == before;
}

void name_genotypes(const LocusDescription& locus, LocusDraft& draft) {
  draft.genotypes = genetics::Locus::genotypes_of(locus.alleles.size(), locus.on);
  for (std::size_t g = 0; g < draft.genotypes.size(); ++g) {
    draft.keys.push_back(genetics::Locus::key_of(draft.genotypes[g], locus.alleles, locus.on));
    draft.numbers.emplace(draft.keys.back(), g);
  }
}

void collect_appearances(const LocusDescription& locus, std::vector<std::string>& appearances) {
  for (const auto& [key, row] : locus.appearance) {
    for (const auto& [name, probability] : row) {
      if (std::find(appearances.begin(), appearances.end(), name) == appearances.end()) {
        appearances.push_back(name);
      }
    }
  }
  if (locus.appearance.empty()) appearances.emplace_back("plain");
}

// P(appearance) in the order of `appearances`, checked.
std::vector<double> appearance_row(const Named<double>& row,
                                   const std::vector<std::string>& appearances,
                                   const Pointer& place, FaultList& faults) {
  std::vector<double> dense(appearances.size(), 0.0);
  bool each_fits = true;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const auto& [name, probability] = row[i];
    // A bare word in the document has no pointer of its own below the key.
    const std::string here =
        row.size() == 1 && probability == 1 ? place.text() : (place / name).text();
    check_id(name, "appearance", here, faults);
    check_unit_interval(probability, "the probability of " + in_quotes(name), here, faults);
    each_fits = each_fits && probability >= 0 && probability <= 1;
    if (repeated(row, i, here, faults)) each_fits = false;
    const auto found = std::find(appearances.begin(), appearances.end(), name);
    dense[static_cast<std::size_t>(found - appearances.begin())] = probability;
  }
  double sum = 0;
  for (const double probability : dense) sum += probability;
  if (each_fits) check_sums_to_one(sum, "the probabilities", place.text(), faults);
  return dense;
}

void report_unlisted(const std::vector<std::string>& unlisted, const Pointer& place,
                     FaultList& faults) {
  if (unlisted.empty()) return;
  faults.add(place.text(),
             "there is no appearance for genotype " + listed(unlisted, most_genotypes_listed) +
                 " and no default",
             "add a 'default', or list every genotype");
}

void check_appearance(ModelDraft& draft, const LocusDescription& locus, LocusDraft& out,
                      const Pointer& place) {
  collect_appearances(locus, out.parts.appearances);
  const auto& names = out.parts.appearances;
  out.parts.appearance.assign(out.genotypes.size(), {});
  std::vector<double> fallback;
  if (locus.appearance.empty()) fallback = {1.0};
  for (std::size_t i = 0; i < locus.appearance.size(); ++i) {
    const auto& [key, row] = locus.appearance[i];
    const Pointer here = place / key;
    const bool twice = repeated(locus.appearance, i, here.text(), draft.faults);
    std::vector<double> dense = appearance_row(row, names, here, draft.faults);
    if (key == "default") {
      fallback = std::move(dense);
    } else if (const auto genotype = known_genotype(draft, out, key, here.text());
               genotype && !twice) {
      out.parts.appearance[*genotype] = std::move(dense);
    }
  }
  // A key that is misspelt or given twice leaves a genotype out; that fault is told already.
  const bool all_known = std::all_of(
      locus.appearance.begin(), locus.appearance.end(),
      [&](const auto& entry) { return entry.first == "default" || out.find(entry.first); });
  std::vector<std::string> unlisted;
  for (std::size_t g = 0; g < out.genotypes.size(); ++g) {
    if (!out.parts.appearance[g].empty()) continue;
    out.parts.appearance[g] = fallback;
    if (fallback.empty()) unlisted.push_back(out.keys[g]);
  }
  if (all_known) report_unlisted(unlisted, place, draft.faults);
}

void check_lethality(const LocusDraft& locus, const Pointer& place, FaultList& faults) {
  const auto viable = [&](Sex sex) {
    for (std::size_t g = 0; g < locus.genotypes.size(); ++g) {
      const auto& genotype = locus.genotypes[g];
      if ((!genotype.sex || *genotype.sex == sex) && locus.parts.viability[g] > 0) return true;
    }
    return false;
  };
  const bool females = viable(Sex::female);
  const bool males = viable(Sex::male);
  if (females && males) return;
  const std::string who = females ? "male" : males ? "female" : "animal";
  faults.add(place.text(), "every genotype that a " + who + " can have is lethal (viability 0)",
             "leave at least one of them above 0");
}

void check_viable(double value, const std::string& name, const std::string& here,
                  FaultList& faults) {
  check_at_most(value, most_viability, name, here, faults);
  if (value > 0 && value < least_viability) {
    faults.add(here, name + " is " + number(value),
               "write 0 where it is lethal, else at least " + number(least_viability));
  }
}

void check_viability(ModelDraft& draft, const LocusDescription& locus, LocusDraft& out,
                     const Pointer& place) {
  out.parts.viability.assign(out.genotypes.size(), 1.0);
  const std::size_t before = draft.faults.count();
  for (std::size_t i = 0; i < locus.viability.size(); ++i) {
    const auto& [key, value] = locus.viability[i];
    const std::string here = (place / key).text();
    check_not_negative(value, "the viability of " + in_quotes(key), here, draft.faults);
    check_viable(value, "the viability of " + in_quotes(key), here, draft.faults);
    const auto genotype = known_genotype(draft, out, key, here);
    if (!repeated(locus.viability, i, here, draft.faults) && genotype) {
      out.parts.viability[*genotype] = value;
    }
  }
  if (out.has_genotypes() && draft.faults.count() == before) {
    check_lethality(out, place, draft.faults);
  }
}

}  // namespace

void check_loci(ModelDraft& draft) {
  check_ids(draft.description.loci, "loci", "locus", draft.faults);
  for (std::size_t i = 0; i < draft.description.loci.size(); ++i) {
    const LocusDescription& locus = draft.description.loci[i];
    const Pointer place = Pointer() / "loci" / i;
    LocusDraft out;
    out.parts.id = locus.id;
    out.parts.chromosome = locus.on;
    out.parts.alleles = locus.alleles;
    out.parts.caution = locus.caution;
    check_chromosome(locus.on, draft.description.sex_chromosomes, place, draft.faults);
    if (check_alleles(locus, place, draft.faults)) name_genotypes(locus, out);
    check_appearance(draft, locus, out, place / "appearance");
    check_viability(draft, locus, out, place / "viability");
    draft.loci.push_back(std::move(out));
  }
}

}  // namespace likelihet::colony
