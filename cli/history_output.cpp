// An animal's odds day by day, as a table and as a document.
#include "history_output.hpp"

#include <cstddef>
#include <cstdint>

#include "genotype_json.hpp"
#include "observation_words.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

std::vector<Column> columns_of(const colony::Model& model, const Lens& lens) {
  std::vector<Column> columns = {{"day"}};
  for (const std::size_t l : lens.loci) {
    const auto& locus = model.loci()[l];
    for (std::size_t allele = 1; allele < locus.alleles().size(); ++allele) {
      columns.push_back({printable(locus.id() + " " + locus.alleles()[allele]), Align::right});
    }
  }
  columns.push_back({"recorded of the animal itself"});
  return columns;
}

constexpr const char* clash_in_words =
    "the records of this day contradict each other: chances as before it";

std::vector<std::string> row_of(const colony::Colony& colony, const odds::Moment& moment,
                                const Lens& lens) {
  std::vector<std::string> row = {moment.day ? moment.day->text() : "before"};
  for (const std::size_t l : lens.loci) {
    const auto& locus = colony.model().loci()[l];
    const auto alleles = static_cast<std::uint16_t>(locus.alleles().size());
    for (std::uint16_t allele = 1; allele < alleles; ++allele) {
      row.push_back(percent(chance_of_copies(locus, moment.odds.loci[l].posterior, allele, 1)));
    }
  }
  std::string recorded = words_of(colony, moment.observations, false);
  if (moment.contradictory) {
    recorded += (recorded.empty() ? "" : "; ") + std::string(clash_in_words);
  }
  row.push_back(std::move(recorded));
  return row;
}

ordered_json day_locus_json(const genetics::Locus& locus, const odds::LocusOdds& odds) {
  auto het = ordered_json::object();
  for (std::size_t i = 0; i < odds.het.size(); ++i) het[locus.alleles()[i + 1]] = odds.het[i].mean;
  return {{"posterior", genotypes_json(locus, odds.posterior)}, {"het", het}};
}

ordered_json moment_json(const colony::Colony& colony, const odds::Moment& moment,
                         const Lens& lens) {
  auto observations = ordered_json::array();
  for (const std::size_t position : moment.observations) {
    observations.push_back(colony.observations()[position].id);
  }
  auto loci = ordered_json::object();
  for (const std::size_t l : lens.loci) {
    const auto& locus = colony.model().loci()[l];
    loci[locus.id()] = day_locus_json(locus, moment.odds.loci[l]);
  }
  return {{"day", moment.day ? ordered_json(moment.day->text()) : ordered_json()},
          {"observations", observations},
          {"contradictory", moment.contradictory},
          {"loci", loci}};
}

}  // namespace

std::string history_text(const colony::Colony& colony, const std::vector<odds::Moment>& moments,
                         const Lens& lens, const std::optional<colony::Date>& as_of,
                         const Terminal& terminal) {
  std::string text;
  if (as_of) text += fmt::format("As known at the end of {}.\n\n", as_of->text());
  text += terminal.heading(printable_id(colony.animals()[lens.animals.front()].id) +
                           ": chance of exactly one copy, after each day") +
          "\n";
  Table table(columns_of(colony.model(), lens));
  for (const auto& moment : moments) table.add(row_of(colony, moment, lens));
  return text + table.text(terminal, 2);
}

std::string history_json(const colony::Colony& colony, const std::vector<odds::Moment>& moments,
                         const Lens& lens, const std::optional<colony::Date>& as_of) {
  ordered_json document = {{"format", "likelihet-history"}, {"version", 1}};
  document["as_of"] = as_of ? ordered_json(as_of->text()) : ordered_json(nullptr);
  document["animal"] = colony.animals()[lens.animals.front()].id;
  document["moments"] = ordered_json::array();
  for (const auto& moment : moments) {
    document["moments"].push_back(moment_json(colony, moment, lens));
  }
  return document.dump(2) + "\n";
}

}  // namespace likelihet::cli
