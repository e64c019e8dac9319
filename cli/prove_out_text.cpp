// A proof told: so many non-visual offspring are needed, so many have been seen.
#include <algorithm>
#include <cmath>

#include "percent.hpp"
#include "printable.hpp"
#include "prove_out_output.hpp"
#include "table.hpp"
#include <fmt/format.h>

#include <likelihet/planning/clutch_size.hpp>

namespace likelihet::cli {
namespace {

std::string partner_in_words(const colony::Colony& colony, const planning::ProveOutAsked& asked) {
  if (const auto* partner = std::get_if<planning::PartnerAnimal>(&asked.partner)) {
    return colony.animals()[partner->animal].id;
  }
  return "a partner of " + colony.model().loci()[asked.locus].key(
                               std::get<planning::PartnerGenotype>(asked.partner).genotype);
}

std::string seen_text(const planning::OffspringSeen& seen) {
  if (seen.non_visual + seen.visual == 0) return "  seen so far of this pairing: no offspring\n";
  return fmt::format(
      "  seen so far of this pairing: {} non-visual, {} visual; counted in already\n",
      seen.non_visual, seen.visual);
}

std::string needed_text(const planning::ProveOut& proof, double level) {
  const std::string head = fmt::format("  to rule it out at {:.0f} %: ", 100 * level);
  const auto needed = proof.odds.needed(level);
  if (!needed) {
    return head + fmt::format(
                      "never; however many are non-visual, the chance that it does not carry it "
                      "comes to {}\n",
                      percent(proof.odds.limit()));
  }
  if (*needed == 0) return head + "no more needed\n";
  std::string text = head + fmt::format("{} more non-visual offspring", *needed);
  if (proof.seen.non_visual > 0 && proof.seen.visual == 0) {
    text += fmt::format(", {} of {} seen", proof.seen.non_visual,
                        proof.seen.non_visual + static_cast<std::int64_t>(*needed));
  }
  if (const auto clutches = planning::clutches_for(*needed, proof.per_clutch)) {
    text += fmt::format("; {:.0f} clutch{} of {:.3g}", *clutches, *clutches == 1 ? "" : "es",
                        *proof.per_clutch);
  }
  return text + "\n";
}

std::string visual_text(const planning::ProveOut& proof, const planning::ProveOutAsked& asked,
                        const std::string& partner) {
  const auto visual = proof.odds.after_visual();
  if (!visual) return "  no offspring of this pairing can show it, so none would tell anything\n";
  std::string text =
      fmt::format("  one offspring that shows it (chance {} for the next): it carries it with {}",
                  percent(proof.odds.visual()), percent(visual->carrier));
  if (std::holds_alternative<planning::PartnerAnimal>(asked.partner)) {
    text += fmt::format(", {} with {}", printable(partner), percent(visual->partner_carrier));
  }
  return text + "\n";
}

// All up to ten, then every fifth, and the last.
Table offspring_table(const planning::ProveOutOdds& odds) {
  Table table({{"non-visual offspring", Align::right},
               {"carries it", Align::right},
               {"chance of so many", Align::right},
               {"one that carries it would have shown", Align::right}});
  const std::size_t last = last_row(odds);
  for (std::size_t n = 0; n <= last; ++n) {
    if (n > 10 && n % 5 != 0 && n != last) continue;
    table.add({fmt::format("{}", n), percent(odds.carrier_after(n)),
               percent(odds.all_non_visual(n)), percent(odds.detected(n))});
  }
  return table;
}

}  // namespace

std::string prove_out_text(const colony::Colony& colony, const ProveOutShown& shown,
                           const Terminal& terminal) {
  const genetics::Locus& locus = colony.model().loci()[shown.asked.locus];
  const planning::ProveOut& proof = shown.proof;
  const std::string partner = partner_in_words(colony, shown.asked);
  std::string text = as_of_text(shown.as_of);
  text += terminal.heading(printable(fmt::format(
              "{} with {}: does it carry {} of {}?", colony.animals()[shown.asked.animal].id,
              partner, locus.alleles()[shown.asked.allele], locus.id()))) +
          "\n";
  text += fmt::format("  carries it, as things stand: {}\n", percent(proof.odds.carrier_after(0)));
  std::string looks;
  for (const std::size_t a : proof.visual_appearances) {
    looks += (looks.empty() ? "" : " or ") + locus.appearances()[a];
  }
  text += fmt::format("  an offspring shows it if it looks {}; any other is non-visual\n",
                      printable(looks));
  if (!proof.shows_itself) {
    text += "  two copies look as none do: breeding cannot tell by looks\n";
  }
  text += seen_text(proof.seen);
  for (const double level : planning::prove_out_levels) text += needed_text(proof, level);
  text += visual_text(proof, shown.asked, partner) + "\n";
  text = fitted(text, terminal.width(), 4) + offspring_table(proof.odds).text(terminal, 2) + "\n";
  return text + cautions_text(planning::cautions_of(colony, shown.asked), terminal) +
         basis_text(shown.tables, proof.tables,
                    "Carries it: one copy or two. Numbers needed are from now on and never rounded "
                    "down.",
                    terminal);
}

}  // namespace likelihet::cli
