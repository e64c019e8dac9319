// The odds as tables, grouped as a keeper keeps animals: founders, then clutch by clutch.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cautions.hpp"
#include "observation_words.hpp"
#include "odds_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

/// Animals shown together; `clutch` is empty for the founders.
struct Group {
  std::optional<std::size_t> clutch;
  std::vector<std::size_t> animals;
};

std::vector<Group> groups_of(const colony::Colony& colony, const Lens& lens) {
  std::vector<Group> clutches(colony.clutches().size());
  Group founders;
  for (const std::size_t animal : lens.animals) {
    const auto& clutch = colony.animals()[animal].clutch;
    (clutch ? clutches[*clutch] : founders).animals.push_back(animal);
  }
  for (std::size_t c = 0; c < clutches.size(); ++c) clutches[c].clutch = c;
  const auto day = [&](const Group& group) {
    const auto& clutch = colony.clutches()[*group.clutch];
    const auto& known = clutch.hatched ? clutch.hatched : clutch.laid;
    return known ? known->text() : std::string{};
  };
  std::stable_sort(clutches.begin(), clutches.end(),
                   [&](const Group& a, const Group& b) { return day(a) < day(b); });
  std::vector<Group> groups = {std::move(founders)};
  groups.insert(groups.end(), clutches.begin(), clutches.end());
  std::erase_if(groups, [](const Group& group) { return group.animals.empty(); });
  return groups;
}

std::string parents_of(const colony::Colony& colony, const colony::Clutch& clutch) {
  std::string sires;
  for (const auto& sire : clutch.sires) {
    sires += (sires.empty() ? "" : " or ") + printable_id(colony.animals()[sire.animal].id);
  }
  return fmt::format("{} × {}",
                     clutch.dam ? printable_id(colony.animals()[*clutch.dam].id) : "unknown dam",
                     sires.empty() ? "unknown sire" : sires);
}

std::string title_of(const colony::Colony& colony, const Group& group) {
  if (!group.clutch) return "Founders";
  const auto& clutch = colony.clutches()[*group.clutch];
  std::string title =
      fmt::format("Clutch {}: {}", printable_id(clutch.id), parents_of(colony, clutch));
  if (clutch.hatched) {
    title += ", hatched " + clutch.hatched->text();
  } else if (clutch.laid) {
    title += ", laid " + clutch.laid->text();
  }
  return printable(title);
}

std::string sex_of(const colony::Animal& animal) {
  if (!animal.sex) return "?";
  return *animal.sex == genetics::Sex::female ? "female" : "male";
}

/// One allele of one locus in one group.
class Block {
 public:
  Block(const colony::Colony& colony, const odds::ColonyOdds& odds, const Group& group,
        std::size_t locus, std::uint16_t allele)
      : colony_(colony), odds_(odds), group_(group), locus_(locus), allele_(allele) {
    for (const std::size_t animal : group.animals) {
      const auto& at = odds.animals[animal].loci[locus];
      two_copies_ = two_copies_ || chance_of_copies(the_locus(), at.posterior, allele, 2).yes > 0;
    }
  }

  [[nodiscard]] std::string text(const Terminal& terminal) const {
    const auto first = figures(group_.animals.front());
    const bool all_alike =
        group_.animals.size() > 1 &&
        std::all_of(group_.animals.begin(), group_.animals.end(),
                    [&](std::size_t animal) { return figures(animal) == first; });
    if (all_alike) return fitted(one_line(first), terminal.width(), 4);
    return table().text(terminal, 2);
  }

 private:
  [[nodiscard]] const genetics::Locus& the_locus() const { return colony_.model().loci()[locus_]; }
  [[nodiscard]] std::string name() const {
    return printable(
        fmt::format("{}: one copy of {}", the_locus().id(), the_locus().alleles()[allele_]));
  }

  /// Pedigree, with markers, with results, interval and, where some may have them, two copies.
  [[nodiscard]] std::vector<std::string> figures(std::size_t animal) const {
    const auto& at = odds_.animals[animal].loci[locus_];
    const auto& het = at.het[allele_ - 1U];
    const auto one = [&](const std::vector<double>& layer) {
      return percent(chance_of_copies(the_locus(), layer, allele_, 1));
    };
    std::vector<std::string> cells = {one(at.pedigree), one(at.scored), one(at.posterior),
                                      percent_range(het.low, het.high)};
    if (two_copies_) {
      cells.push_back(percent(chance_of_copies(the_locus(), at.posterior, allele_, 2)));
    }
    return cells;
  }

  [[nodiscard]] std::string one_line(const std::vector<std::string>& cells) const {
    std::string line = fmt::format("  {}: pedigree {}, with markers {}, with results {} ({})",
                                   name(), cells[0], cells[1], cells[2], cells[3]);
    if (two_copies_) line += ", two copies " + cells[4];
    return line + fmt::format(" for all {}\n", group_.animals.size());
  }

  [[nodiscard]] Table table() const {
    std::vector<Column> columns = {{name()},
                                   {"sex"},
                                   {"pedigree", Align::right},
                                   {"with markers", Align::right},
                                   {"with results", Align::right},
                                   {"95 % interval", Align::right}};
    if (two_copies_) columns.push_back({"two copies", Align::right});
    Table table(std::move(columns));
    for (const std::size_t animal : group_.animals) {
      const auto& record = colony_.animals()[animal];
      std::vector<std::string> row = {printable_id(record.id), sex_of(record)};
      for (auto& cell : figures(animal)) row.push_back(std::move(cell));
      table.add(std::move(row));
    }
    return table;
  }

  const colony::Colony& colony_;
  const odds::ColonyOdds& odds_;
  const Group& group_;
  std::size_t locus_;
  std::uint16_t allele_;
  bool two_copies_ = false;
};

/// The locus that a result, an appearance or a brood speaks of.
std::optional<std::size_t> locus_of(const colony::Colony& colony,
                                    const colony::Observation& observation) {
  if (const auto* result = std::get_if<colony::Result>(&observation.what)) {
    return colony.model().assays()[result->assay].locus;
  }
  if (const auto* seen = std::get_if<colony::AppearanceSeen>(&observation.what)) return seen->locus;
  if (const auto* brood = std::get_if<colony::Brood>(&observation.what)) return brood->locus;
  return std::nullopt;
}

/// Whether it speaks of an animal and a locus that are shown.
bool is_shown(const colony::Colony& colony, std::size_t position, const Lens& lens) {
  const auto& observation = colony.observations()[position];
  const auto among = [](const std::vector<std::size_t>& shown, std::optional<std::size_t> it) {
    return !it || std::find(shown.begin(), shown.end(), *it) != shown.end();
  };
  return among(lens.animals, colony::animal_of(observation)) &&
         among(lens.loci, locus_of(colony, observation));
}

std::string surprises_text(const colony::Colony& colony, const odds::ColonyOdds& odds,
                           const Lens& lens, const Terminal& terminal) {
  std::string text;
  for (const auto& surprise : odds.surprises) {
    if (!is_shown(colony, surprise.observation, lens)) continue;
    const auto& observation = colony.observations()[surprise.observation];
    const std::string line = fmt::format(
        "Surprising: {} ({}), {}. Its chance, given everything else, was {}. What may lie behind "
        "it:",
        observation.id, day_in_words(observation), words_of(colony, surprise.observation, true),
        percent(surprise.probability));
    text += terminal.warning(wrapped(printable(line, 2000), terminal.width(), 2)) + "\n";
    for (const auto& reason : surprise.reasons) {
      text += "  " +
              wrapped(fmt::format("- {}: {}", percent(reason.share), printable(reason.text)),
                      terminal.width(), 4) +
              "\n";
    }
  }
  return text;
}

}  // namespace

std::string odds_text(const colony::Colony& colony, const odds::ColonyOdds& odds, const Lens& lens,
                      const std::optional<colony::Date>& as_of, TablesUsed tables,
                      const Terminal& terminal) {
  std::string text;
  if (as_of) text += fmt::format("As known at the end of {}.\n\n", as_of->text());
  if (lens.animals.empty()) text += "There are no animals to show.\n\n";
  for (const auto& group : groups_of(colony, lens)) {
    text += terminal.heading(title_of(colony, group)) + "\n";
    for (const std::size_t l : lens.loci) {
      const std::size_t alleles = colony.model().loci()[l].alleles().size();
      for (std::uint16_t allele = 1; allele < alleles; ++allele) {
        text += Block(colony, odds, group, l, allele).text(terminal);
      }
    }
    text += "\n";
  }
  const std::string notes = surprises_text(colony, odds, lens, terminal) +
                            cautions_of(colony.model(), lens.loci, terminal);
  return text + notes +
         wrapped(fmt::format(
                     "These are estimates from the records and tables of markers ({}); markers are "
                     "not proof.",
                     words_of(tables)),
                 terminal.width(), 0) +
         "\n";
}

}  // namespace likelihet::cli
