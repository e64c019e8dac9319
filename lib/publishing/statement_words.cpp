// Headlines and what stands under them.
#include "statement_words.hpp"

#include "non_visual_offspring.hpp"
#include "rounding.hpp"
#include <fmt/format.h>

namespace likelihet::publishing {
namespace {

std::string name_of(const Stated& stated) {
  return trait_name(stated.standings->locus(), stated.standings->allele());
}

bool one_chromosome(const Stated& stated) {
  return genetics::has_one_chromosome(stated.standings->locus(), stated.sex);
}

std::string sex_word(const Stated& stated) {
  return *stated.sex == genetics::Sex::female ? "female" : "male";
}

// " by results (66 % by pedigree)", " with markers (50 % without)", or nothing.
std::string basis_phrase(const Statement& statement) {
  const Published pedigree = whole_percent(statement.pedigree);
  const Published markerless = whole_percent(statement.markerless);
  switch (statement.basis) {
    case Basis::pedigree:
      return {};
    case Basis::results:
      return pedigree == markerless
                 ? " by pedigree and results"
                 : fmt::format(" by results ({} by pedigree)", in_percent(pedigree));
    case Basis::markers:
      return fmt::format(" with markers ({} without them)", in_percent(markerless));
  }
  return {};
}

std::string shows(const Stated& stated) {
  return stated.shown.empty() ? std::string("look not recorded")
                              : fmt::format("shows {}", fmt::join(stated.shown, " and "));
}

// Of a trait that one copy shows, or of an animal that shows the trait and may have one copy.
std::string of_the_seen(const Stated& stated, const Statement& statement) {
  const std::string& allele = stated.standings->locus().alleles()[stated.standings->allele()];
  const std::string head = fmt::format("{}: {}", stated.standings->locus().id(), shows(stated));
  if (stated.markerless.certainly_none()) return fmt::format("{}; no copy of {}", head, allele);
  if (stated.markerless.certainly_two()) return fmt::format("{}; two copies of {}", head, allele);
  if (stated.markerless.certainly_one()) return fmt::format("{}; one copy of {}", head, allele);
  return fmt::format("{}; one copy of {} at {}{}", head, allele, in_percent(statement.published),
                     basis_phrase(statement));
}

std::string of_one_chromosome(const Stated& stated, const Statement& statement) {
  const std::string head =
      fmt::format("a {} cannot be het for {}", sex_word(stated), name_of(stated));
  if (statement.label == Label::visual)
    return fmt::format("visual for {}; {}", name_of(stated), head);
  if (stated.markerless.certainly_none()) return head + ", and this one does not carry it";
  if (stated.markerless.certainly_one()) return head + ", and this one carries it";
  return fmt::format("{}: {} to carry it{}", head, in_percent(statement.published),
                     basis_phrase(statement));
}

// A result of no copies leads, so that the percentage cannot pass for a promise.
std::string after_a_clear_test(const Stated& stated, const Statement& statement) {
  const std::string by = statement.basis == Basis::markers ? ", markers counted" : "";
  return fmt::format("Tested, {}: 0 copies found ({} chance of het remains{})", name_of(stated),
                     in_percent(statement.published), by);
}

std::string times(std::size_t offspring) {
  return fmt::format("{}", offspring);
}

}  // namespace

std::string trait_name(const genetics::Locus& locus, std::uint16_t allele) {
  return locus.alleles().size() == 2 ? locus.id()
                                     : fmt::format("{} of {}", locus.alleles()[allele], locus.id());
}

std::string headline(const Stated& stated, const Statement& statement) {
  const std::string name = name_of(stated);
  if (one_chromosome(stated)) return of_one_chromosome(stated, statement);
  switch (statement.label) {
    case Label::visual:
      return fmt::format("visual for {} ({})", name, shows(stated));
    case Label::proven:
      return fmt::format("100 % het for {}, proven", name);
    case Label::certain:
    case Label::possible:
    case Label::none:
      break;
  }
  if (stated.standings->looks().seen_in_one_copy || stated.sign) {
    return of_the_seen(stated, statement);
  }
  if (statement.label == Label::certain) {
    return fmt::format("100 % het for {}{}", name, basis_phrase(statement));
  }
  if (statement.label == Label::none) {
    return stated.markerless.certainly_two()
               ? fmt::format("two copies for {} ({})", name, shows(stated))
               : fmt::format("not het for {}{}", name, basis_phrase(statement));
  }
  if (stated.standings->tested_clear(stated.animal)) return after_a_clear_test(stated, statement);
  std::string out = fmt::format("{} possible het for {}{}", in_percent(statement.published), name,
                                basis_phrase(statement));
  if (stated.markerless.two > rounding_error) {
    out += fmt::format("; {} with two copies, {}", in_percent(whole_percent(stated.markerless.two)),
                       shows(stated));
  }
  return out;
}

std::string plain_words(const Stated& stated, const Statement& statement) {
  const std::string name = name_of(stated);
  const bool can_be_het = !one_chromosome(stated);
  if (statement.label == Label::visual) {
    return can_be_het ? "It has two copies and passes one to each of its offspring."
                      : "It has one copy, all that its sex can have.";
  }
  if (stated.markerless.certainly_one()) {
    return "If the records are right, it has one copy and passes it to about half of its "
           "offspring.";
  }
  if (stated.markerless.certainly_none()) return "If the records are right, it does not carry it.";
  if (stated.markerless.certainly_two()) {
    return "If the records are right, it has two copies and passes one to each of its offspring.";
  }
  const std::string from = in_so_many(statement.published.low);
  const std::string to = in_so_many(statement.published.high);
  const std::string number = statement.published.high == 0 ? "fewer than 1 in 100"
                             : from == to                  ? to
                             : statement.published.low == 0
                                 ? fmt::format("up to {}", to)
                                 : fmt::format("from {} to {}", from, to);
  return fmt::format("Of animals with records like these, {} carry exactly one copy for {}.",
                     number, name);
}

std::vector<std::string> would_change(const Stated& stated, const Statement& statement,
                                      const colony::Model& model) {
  std::vector<std::string> out;
  const genetics::Locus& locus = stated.standings->locus();
  const bool open = statement.label == Label::possible;
  const bool recessive = !stated.standings->looks().seen_in_one_copy && !one_chromosome(stated);
  if (open && recessive && !stated.sign) {
    out.emplace_back("a visual offspring would prove a copy");
    const double p = statement.markerless;
    if (!locus.viability_matters() && p > 0 && p < 1) {
      constexpr double ruled_out = 0.05;
      const std::size_t visual = non_visual_offspring_needed(p, by_a_visual, ruled_out);
      const std::size_t het = non_visual_offspring_needed(p, by_a_het, ruled_out);
      // The partner of an animal that can be het on a sex chromosome is of the sex that can't: one
      // without the allele gives a het a visual among four offspring too.
      const char* other = locus.sex_linked() ? "any other" : "a het one";
      if (visual > 0 && (!locus.sex_linked() || stated.sex)) {
        out.push_back(fmt::format(
            "about {} more non-visual offspring by a visual partner, or {} by {}, would bring "
            "it below 5 % (by pedigree and results)",
            times(visual), times(het), other));
      }
    }
  }
  if (open && stated.shown.empty()) out.emplace_back("recording what it looks like");
  for (const colony::Assay& assay : model.assays()) {
    if (model.loci()[assay.locus].id() != locus.id()) continue;
    out.push_back(
        open ? fmt::format("a result of {}", assay.id)
             : fmt::format("a result of {} against it would be a contradiction: to be held "
                           "and tested again",
                           assay.id));
  }
  out.emplace_back("any record it rests on being withdrawn or corrected");
  return out;
}

}  // namespace likelihet::publishing
