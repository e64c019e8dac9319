// Compares two computations, animal by animal.
#include "moves.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <set>

#include "change_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

constexpr double least_move_shown = 0.0005;  // half of the last decimal of a percentage
constexpr std::size_t most_moves = 20;

// What is 1 to a double is certain only where it was found to be.
std::string figure(double chance, bool certain) {
  if (certain) return percent(Chance{chance, 0});
  return percent(Chance{chance, std::max(1 - chance, std::numeric_limits<double>::min())});
}

double move_size(const Move& move) {
  return std::abs(move.after - move.before);
}

}  // namespace

MovesTold moves_between(const colony::Colony& colony, const odds::ColonyOdds& before,
                        const odds::ColonyOdds& after, std::size_t observation) {
  MovesTold told;
  const auto& loci = colony.model().loci();
  for (std::size_t a = 0; a < colony.animals().size(); ++a) {
    for (std::size_t l = 0; l < loci.size(); ++l) {
      const auto alleles = static_cast<std::uint16_t>(loci[l].alleles().size());
      for (std::uint16_t allele = 1; allele < alleles; ++allele) {
        const auto chance = [&](const odds::ColonyOdds& odds) {
          return chance_of_copies(loci[l], odds.animals[a].loci[l].posterior, allele, 1);
        };
        const Chance was = chance(before);
        const Chance is = chance(after);
        const Move move{colony.animals()[a].id,
                        loci[l].id(),
                        loci[l].alleles()[allele],
                        was.yes,
                        is.yes,
                        was.no == 0,
                        is.no == 0};
        if (move_size(move) >= least_move_shown) told.moves.push_back(move);
      }
    }
  }
  std::stable_sort(told.moves.begin(), told.moves.end(),
                   [](const Move& a, const Move& b) { return move_size(a) > move_size(b); });
  for (const auto& surprise : after.surprises) {
    if (surprise.observation == observation) told.surprise = surprise;
  }
  return told;
}

std::string moves_text(const MovesTold& told, const Terminal& terminal) {
  std::set<std::string> animals;
  for (const auto& move : told.moves) animals.insert(move.animal);
  std::string text = counted(animals.size(), "animal", "animals") + " changed";
  if (told.moves.empty()) return text + "\n";

  Table table({{"animal"}, {"one copy of"}, {"before", Align::right}, {"after", Align::right}});
  for (const auto& move : told.moves) {
    if (&move == &told.moves.front() + most_moves) break;
    table.add({printable_id(move.animal), printable(move.locus + " " + move.allele),
               figure(move.before, move.certain_before), figure(move.after, move.certain_after)});
  }
  text += "\n" + table.text(terminal, 2);
  if (told.moves.size() > most_moves) {
    text +=
        fmt::format("  and {} smaller (all of them with --json)\n", told.moves.size() - most_moves);
  }
  return text;
}

}  // namespace likelihet::cli
