// Learned tables for people.
#include <algorithm>
#include <cmath>

#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include "tables_output.hpp"
#include <fmt/format.h>

#include <likelihet/learning/level_factors.hpp>
#include <likelihet/learning/together_factors.hpp>
#include <likelihet/odds/evidence_score.hpp>
#include <likelihet/odds/strength.hpp>

namespace likelihet::cli {
namespace {

using learning::Parameter;

// Fewer animals than this behind a row are said to be too few to go on.
constexpr double few_animals = 10;

std::string row_in_words(const colony::Model& model, const colony::MarkerRow& row) {
  std::string words;
  for (const auto& [locus, genotype] : row.at) {
    words += (words.empty() ? "" : ", ") + model.loci()[locus].id() + " " +
             model.loci()[locus].key(genotype);
  }
  return words.empty() ? "all others" : words;
}

std::string context_in_words(const colony::Model& model, const colony::Marker& marker,
                             std::size_t table) {
  if (table == 0) return {};
  const colony::MarkerContext& context = marker.contexts[table - 1];
  if (context.line) return fmt::format(", line {}", *context.line);
  const auto& [locus, appearance] = *context.shows;
  return fmt::format(", where it looks {}", model.loci()[locus].appearances()[appearance]);
}

std::string range(double low, double high) {
  return fmt::format("{} – {}", factor_in_words(low), factor_in_words(high));
}

std::string marker_rows_text(const colony::Model& model, const learning::Learned& learned,
                             const Terminal& terminal) {
  const bool has_draws = !learned.draws.empty();
  std::string text;
  std::size_t marker = SIZE_MAX;
  std::size_t table = SIZE_MAX;
  Table rows({});
  const auto finish = [&] {
    if (!rows.empty()) text += rows.text(terminal, 2) + "\n";
  };
  for (const auto& of : learning::level_factors(model, learned.draws)) {
    const colony::Marker& now = model.markers()[of.marker];
    if (of.marker != marker || of.table != table) {
      finish();
      marker = of.marker;
      table = of.table;
      text += terminal.heading(printable(now.id + context_in_words(model, now, table))) + "\n";
      std::vector<Column> columns = {{"genotype"}, {"score"}, {"assumed", Align::right}};
      if (has_draws) {
        columns.push_back({"learned", Align::right});
        columns.push_back({"95 % interval", Align::right});
        columns.push_back({"animals", Align::right});
      }
      rows = Table(columns);
    }
    std::vector<std::string> cells = {
        of.level == 0 ? printable(row_in_words(model, odds::rows_of(now, of.table)[of.row])) : "",
        printable(now.levels[of.level]), factor_in_words(of.believed)};
    if (has_draws) {
      cells.push_back(factor_in_words(of.median));
      cells.push_back(range(of.low, of.high));
      cells.push_back(
          of.level == 0 ? fmt::format("{:.1f}", learned.animals[of.marker][of.table][of.row]) : "");
    }
    rows.add(cells);
  }
  finish();
  return text;
}

std::string others_text(const colony::Model& model, const learning::Learned& learned,
                        const Terminal& terminal) {
  const bool has_draws = !learned.draws.empty();
  std::vector<Column> columns = {{"scorer or origin"}, {"assumed", Align::right}};
  if (has_draws) columns.push_back({"learned", Align::right});
  columns.push_back({"95 % interval", Align::right});
  Table table(columns);
  for (const auto& one : learned.summaries) {
    const Parameter& of = one.parameter;
    if (of.kind == Parameter::Kind::row || of.kind == Parameter::Kind::loading) continue;
    const bool scorer = of.kind == Parameter::Kind::scorer;
    if (!scorer && of.entry == 0) continue;  // what is left to the first allele
    const std::string name =
        scorer ? model.scorers()[of.of].id + ": level scored right"
               : fmt::format("{}: frequency of {} at {}", model.origins()[of.of].id,
                             model.loci()[of.row].alleles()[of.entry], model.loci()[of.row].id());
    std::vector<std::string> cells = {printable(name), percent(one.believed)};
    if (has_draws) cells.push_back(percent(one.mean));
    cells.push_back(percent_range(one.low, one.high));
    table.add(cells);
  }
  return table.empty() ? std::string{} : table.text(terminal, 2) + "\n";
}

std::string thin_text(const colony::Model& model, const learning::Learned& learned,
                      const Terminal& terminal) {
  std::string thin;
  for (std::size_t m = 0; m < learned.animals.size(); ++m) {
    bool few = false;
    for (const auto& table : learned.animals[m]) {
      few = few || std::any_of(table.begin(), table.end(),
                               [](double animals) { return animals < few_animals; });
    }
    if (few) thin += (thin.empty() ? "" : ", ") + model.markers()[m].id;
  }
  if (thin.empty()) return {};
  return wrapped(
             fmt::format("Too few animals (under {:.0f}) stand behind some rows of {}: there the "
                         "figures are mostly as assumed.",
                         few_animals, printable(thin)),
             terminal.width(), 0) +
         "\n";
}

// What markers of a group say at once, from even odds, and what their product would.
std::string together_text(const colony::Model& model, const learning::Learned& learned,
                          const Terminal& terminal) {
  std::string text;
  for (std::size_t g = 0; g < model.together().size(); ++g) {
    const auto factor = learning::together_factor(model, g, learned.draws);
    if (!factor) continue;
    std::string all;
    for (std::size_t m : factor->markers) {
      all += (all.empty() ? "" : " and ") + model.markers()[m].id + " " +
             model.markers()[m].levels.back();
    }
    const auto from_even = [](double by) { return percent(by / (1 + by)); };
    text +=
        wrapped(fmt::format(
                    "{}: {}, from even odds of {}: the product says {} ({}), together they "
                    "say {} ({}, {} to {}).",
                    printable(model.together()[g].id), printable(all),
                    printable(row_in_words(
                        model, model.markers()[factor->markers[0]].rows[factor->rows[0]])),
                    from_even(factor->product.median), factor_in_words(factor->product.median),
                    from_even(factor->together.median), factor_in_words(factor->together.median),
                    from_even(factor->together.low), from_even(factor->together.high)),
                terminal.width(), 0) +
        "\n";
  }
  if (learned.left_out) {
    text +=
        wrapped(fmt::format("Left out one by one, {} clutches were predicted {:.1f} bits {} by "
                            "markers together than by independent ones (standard error {:.1f}).",
                            learned.left_out->clutches, std::abs(learned.left_out->gain),
                            learned.left_out->gain >= 0 ? "better" : "worse",
                            learned.left_out->standard_error),
                terminal.width(), 0) +
        "\n";
  }
  return text;
}

bool in_one_group(const colony::Model& model, const learning::Dependence& pair) {
  const auto first = odds::membership(model, pair.first);
  const auto second = odds::membership(model, pair.second);
  return pair.correlation > 0 && first && second && first->group == second->group;
}

// Pairs that come together beyond the genotype, at a p-value of 1 % or less.
std::string scorer_repeats_text(const colony::Model& model, const learning::Learned& learned,
                                const Terminal& terminal) {
  constexpr double told_below = 0.01;
  std::string text;
  for (const auto& pair : learned.dependences) {
    if (pair.p > told_below) continue;
    const char* consequence = "say too little";
    if (in_one_group(model, pair)) {
      consequence = "would say too much, so they are weighed together";
    } else if (pair.correlation > 0) {
      consequence = "say too much; 'together' in the model lets learning weigh that";
    }
    text +=
        wrapped(fmt::format("{} and {} {} more than the genotype explains (correlation {:+.2f} in "
                            "{} animals, p {:.3f}): multiplied, they {}.",
                            printable(model.markers()[pair.first].id),
                            printable(model.markers()[pair.second].id),
                            pair.correlation > 0 ? "come together" : "shut each other out",
                            pair.correlation, pair.animals, pair.p, consequence),
                terminal.width(), 0) +
        "\n";
  }
  return text;
}

}  // namespace

std::string tables_text(const colony::Model& model, const learning::Learned& learned,
                        TablesUsed used, const Terminal& terminal) {
  std::string text = fmt::format("Tables: {}.\n\n", words_of(used));
  text += fitted(
      "What a score of each level does to the odds of a genotype against those without a row of "
      "their "
      "own:\n\n",
      terminal.width(), 0);
  text += marker_rows_text(model, learned, terminal) + others_text(model, learned, terminal);
  if (!learned.draws.empty()) text += thin_text(model, learned, terminal);
  text += scorer_repeats_text(model, learned, terminal) + together_text(model, learned, terminal);
  return text;
}

std::string learned_text(const colony::Model& model, const learning::Learned& learned,
                         const Terminal& terminal) {
  std::string text = fitted(
      fmt::format("learned: {} chains of {} sweeps agree, worst R-hat {:.3f}, least effective size "
                  "{:.0f}\n",
                  learned.chains, learned.sweeps, learned.worst_r_hat,
                  std::min(learned.least_bulk, learned.least_tail)),
      terminal.width(), 2);
  if (learned.modes.size() > 1) {
    text += wrapped(fmt::format(
                        "The evidence has {} explanations: the second is {:.1f} nats less likely "
                        "than the first. Where that is little, results decide between them, not "
                        "markers.",
                        learned.modes.size(),
                        learned.modes[0].log_posterior - learned.modes[1].log_posterior),
                    terminal.width(), 0) +
            "\n";
  }
  return text + thin_text(model, learned, terminal) +
         scorer_repeats_text(model, learned, terminal) + together_text(model, learned, terminal) +
         "'likelihet tables' shows what each marker does now; 'likelihet odds' uses it.\n";
}

}  // namespace likelihet::cli
