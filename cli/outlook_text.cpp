// Outlooks as tables: what an offspring may be, how many of a clutch, and whether there will be
// one.
#include <algorithm>

#include "outlook_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

constexpr double least_count_shown = 0.005;  // of a distribution; what a percent would show as 0

std::string number(double value) {
  return value > 0 && value < 0.005 ? "<0.01" : fmt::format("{:.2f}", value);
}

// "0: 31 %, 1: 42 %": the numbers with a chance worth a percent.
std::string counts_in_words(const std::vector<double>& counts) {
  std::string out;
  for (std::size_t k = 0; k < counts.size(); ++k) {
    if (counts[k] < least_count_shown) continue;
    out += fmt::format("{}{}: {:.0f} %", out.empty() ? "" : ", ", k, 100 * counts[k]);
  }
  return out;
}

std::vector<std::string> share_row(const std::string& name, const planning::ChanceMixture& chance,
                                   std::size_t offspring) {
  return {printable(name), percent(chance.chance()),
          number(chance.chance() * static_cast<double>(offspring)),
          percent(chance.at_least_one(offspring))};
}

std::string locus_text(const genetics::Locus& locus, const planning::LocusOutlook& at,
                       std::size_t offspring, const Terminal& terminal) {
  Table table({{printable(locus.id())},
               {"an offspring", Align::right},
               {fmt::format("of {}", offspring), Align::right},
               {"at least one", Align::right},
               {"how many"}});
  for (std::size_t g = 0; g < locus.size(); ++g) {
    if (!(at.genotypes[g].chance() > 0)) continue;
    table.add(share_row(locus.key(g), at.genotypes[g], offspring));
  }
  for (std::size_t a = 0; a < locus.appearances().size(); ++a) {
    if (!(at.appearances[a].chance() > 0)) continue;
    auto row = share_row("shows " + locus.appearances()[a], at.appearances[a], offspring);
    row.push_back(counts_in_words(at.appearances[a].counts(offspring)));
    table.add(std::move(row));
  }
  std::string text = table.text(terminal, 2);
  for (std::size_t x = 0; locus.sex_linked() && x < 2; ++x) {
    double share = 0;
    for (double p : at.by_sex[x]) share += p;
    std::string looks;
    for (std::size_t a = 0; a < locus.appearances().size(); ++a) {
      if (!(at.by_sex[x][a] > 0)) continue;
      looks += fmt::format("{}{} {}", looks.empty() ? "" : ", ", percent(at.by_sex[x][a] / share),
                           printable(locus.appearances()[a]));
    }
    text += fmt::format("  {} ({} of the offspring): {}\n", x == 0 ? "females" : "males",
                        percent(share), looks.empty() ? "none" : looks);
  }
  if (at.lost > 0) {
    text +=
        fitted(fmt::format("  {} of the eggs are expected to be lost to this trait; figures are "
                           "of offspring that live\n",
                           percent(at.lost)),
               terminal.width(), 4);
  }
  return text;
}

std::string combined_text(const colony::Model& model, const OutlookShown& shown,
                          const Terminal& terminal) {
  if (shown.outlook.combined_left_out) {
    return fmt::format("  more than {} combinations of appearances: not listed\n",
                       planning::most_combined);
  }
  constexpr std::size_t most_rows = 20;
  Table table({{"all traits together"},
               {"an offspring", Align::right},
               {fmt::format("of {}", shown.offspring), Align::right},
               {"at least one", Align::right}});
  for (std::size_t n = 0; n < std::min(most_rows, shown.outlook.combined.size()); ++n) {
    const auto& one = shown.outlook.combined[n];
    std::string name;
    for (std::size_t l = 0; l < model.loci().size(); ++l) {
      const auto& locus = model.loci()[l];
      if (one.appearances[l] == planning::usual_appearance(locus)) continue;
      name += (name.empty() ? "" : " + ") + locus.appearances()[one.appearances[l]];
    }
    table.add(share_row(name.empty() ? "normal-looking" : name, one.chance, shown.offspring));
  }
  std::string text = table.text(terminal, 2);
  if (shown.outlook.combined.size() > most_rows) {
    text += fmt::format("  and {} rarer ones (all of them with --json)\n",
                        shown.outlook.combined.size() - most_rows);
  }
  return text;
}

}  // namespace

std::string outlook_text(const colony::Colony& colony, const OutlookShown& shown,
                         const Terminal& terminal) {
  const auto& dam = colony.animals()[shown.pair.dam];
  const auto& sire = colony.animals()[shown.pair.sire];
  std::string text = as_of_text(shown.as_of);
  text += terminal.heading(fmt::format("{} × {}, {} offspring", printable_id(dam.id),
                                       printable_id(sire.id), shown.offspring)) +
          "\n";
  text += fmt::format("  inbreeding of the clutch, by descent: {:.3g}\n", shown.outlook.inbreeding);
  for (const auto& [animal, sex] : {std::pair{&dam, "female"}, {&sire, "male"}}) {
    if (!animal->sex)
      text += fmt::format("  the sex of {} is not recorded; taken as {}\n",
                          printable_id(animal->id), sex);
  }
  for (const std::size_t l : shown.loci) {
    text += "\n" +
            locus_text(colony.model().loci()[l], shown.outlook.loci[l], shown.offspring, terminal);
  }
  if (shown.loci.size() > 1) text += "\n" + combined_text(colony.model(), shown, terminal);
  return text + "\n" + cautions_text(planning::cautions_of(colony, shown.outlook), terminal) +
         basis_text(shown.tables, shown.outlook.tables,
                    "Offspring share their parents, so chances of a clutch are not those of "
                    "independent eggs.",
                    terminal);
}

std::string ranking_text(const colony::Colony& colony, const RankingShown& shown,
                         const Terminal& terminal) {
  const genetics::Locus& locus = colony.model().loci()[shown.goal.locus];
  const std::string wanted = shown.goal.genotype ? locus.key(*shown.goal.genotype)
                                                 : locus.appearances()[shown.goal.appearance];
  std::string text = as_of_text(shown.as_of);
  text += terminal.heading(printable(fmt::format("{} {}, {} offspring of each pair", locus.id(),
                                                 wanted, shown.offspring))) +
          "\n";
  Table table({{"dam"},
               {"sire"},
               {"an offspring", Align::right},
               {fmt::format("of {}", shown.offspring), Align::right},
               {"at least one", Align::right},
               {"teaches", Align::right},
               {"inbreeding", Align::right},
               {"note"}});
  bool unknown = false;
  const std::size_t rows = std::min(shown.limit, shown.ranking.pairs.size());
  for (std::size_t n = 0; n < rows; ++n) {
    const auto& ranked = shown.ranking.pairs[n];
    const auto name = [&](std::size_t animal, bool of_unknown_sex) {
      unknown = unknown || of_unknown_sex;
      return printable_id(colony.animals()[animal].id) + (of_unknown_sex ? " (?)" : "");
    };
    std::string note;
    if (ranked.lethal > 0) note = percent(ranked.lethal) + " of eggs lethal";
    if (ranked.inbreeding >= planning::close_kin)
      note += (note.empty() ? "" : ", ") + std::string("close kin");
    table.add({name(ranked.pair.dam, ranked.dam_of_unknown_sex),
               name(ranked.pair.sire, ranked.sire_of_unknown_sex), percent(ranked.wanted.chance()),
               number(ranked.wanted.chance() * static_cast<double>(shown.offspring)),
               percent(ranked.wanted.at_least_one(shown.offspring)),
               fmt::format("{:.2f} bit", ranked.teaches), fmt::format("{:.3g}", ranked.inbreeding),
               note});
  }
  text += table.empty() ? "  no pair can be made\n" : table.text(terminal, 2);
  text += fmt::format("  {} of {} pairs\n", rows, shown.ranking.considered);
  if (unknown) text += "  (?): sex not recorded; taken as of the sex that its part needs\n";
  return text + "\n" + cautions_text(planning::cautions_of(colony, shown.goal), terminal) +
         basis_text(
             shown.tables, shown.ranking.tables,
             fmt::format("'Teaches' is what counting {} among the offspring is expected to tell of "
                         "the parents' genotypes. A book does not say who died or was sold.",
                         printable(locus.appearances()[shown.goal.appearance])),
             terminal);
}

}  // namespace likelihet::cli
