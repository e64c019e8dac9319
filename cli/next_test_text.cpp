// A plan of tests in words and tables.
#include <algorithm>
#include <cmath>
#include <set>

#include "cautions.hpp"
#include "change_output.hpp"
#include "next_test_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

class NextTestPage {
 public:
  NextTestPage(const TestPlanTold& told, const Terminal& terminal)
      : colony_(*told.colony),
        policy_(*told.policy),
        question_(*told.question),
        plan_(*told.plan),
        terminal_(terminal) {}

  [[nodiscard]] std::string text() const {
    std::string out;
    if (question_.book.as_of) {
      out += fmt::format("As known at the end of {}.\n\n", question_.book.as_of->text());
    }
    if (plan_.chosen.empty()) return out + paragraph(nothing()) + left_out() + cautions();
    out += terminal_.heading(counted(plan_.chosen.size(), "sample", "samples") + " to send") + "\n";
    out += samples() + "\n" + summary() + "\n";
    for (std::size_t i = 0; i < plan_.chosen.size(); ++i) out += effects(i);
    return out + left_out() + cautions();
  }

 private:
  [[nodiscard]] std::string paragraph(const std::string& words, std::size_t indent = 0) const {
    return wrapped(words, terminal_.width(), indent) + "\n";
  }

  [[nodiscard]] std::string nothing() const {
    if (plan_.candidates.empty()) return "There is no sample to send: no animal, or no test.";
    if (question_.tests == 0) return "No sample was asked for.";
    for (const auto& value : plan_.values) {
      if (value.bits > planning::least_bits) return "No sample fits the budget.";
    }
    return "No sample would tell anything: every animal asked for is certain.";
  }

  [[nodiscard]] std::string money(double amount) const {
    // Adding 0 turns a negative zero, left by rounding, into a plain one.
    const std::string figure = fmt::format("{:.2f}", std::round(amount * 100) / 100 + 0.0);
    return policy_.currency ? figure + " " + printable(*policy_.currency) : figure;
  }

  [[nodiscard]] std::string bits(const planning::Estimate& estimate) const {
    if (!plan_.sampled) return fmt::format("{:.3f}", estimate.value);
    return fmt::format("{:.3f} ± {:.3f}", estimate.value, estimate.standard_error);
  }

  [[nodiscard]] const std::string& animal(std::size_t position) const {
    return colony_.animals()[position].id;
  }
  [[nodiscard]] const colony::Assay& assay(const planning::ChosenTest& test) const {
    return colony_.model().assays()[plan_.candidates[test.candidate].test.assay];
  }

  [[nodiscard]] std::string samples() const {
    std::vector<Column> columns = {{"", Align::right},
                                   {"animal"},
                                   {"assay"},
                                   {"adds, bits", Align::right},
                                   {"to all listings", Align::right}};
    if (plan_.worth_given) columns.push_back({"less its price", Align::right});
    columns.push_back({"price", Align::right});
    columns.push_back({"why"});
    Table table(std::move(columns));
    for (std::size_t i = 0; i < plan_.chosen.size(); ++i) {
      const auto& test = plan_.chosen[i];
      const auto& candidate = plan_.candidates[test.candidate];
      std::vector<std::string> row = {
          std::to_string(i + 1), printable_id(animal(candidate.test.animal)),
          printable(assay(test).id), bits(test.gain), fmt::format("{:.3f}", test.listing_bits)};
      if (plan_.worth_given) row.push_back(money(test.worth - candidate.price.value_or(0)));
      row.push_back(candidate.price ? money(*candidate.price) : "-");
      row.push_back(test.by_lot ? "by lot" : candidate.tested ? "tells most, again" : "tells most");
      table.add(std::move(row));
    }
    return table.text(terminal_, 2);
  }

  [[nodiscard]] std::string summary() const {
    std::string words = fmt::format(
        "Together they tell {} bits of all genotypes; the sum over animals of what is not known of "
        "each falls by {:.3f} bits. Cost: {}{}.",
        bits(plan_.bits), plan_.listing_bits, money(plan_.cost),
        plan_.unpriced > 0
            ? ", and " + counted(plan_.unpriced, "sample", "samples") + " without a price"
            : "");
    if (plan_.worth_given) {
      words += fmt::format(" Better decisions between keeping and selling are worth {} on average.",
                           money(plan_.worth));
    }
    std::string out = paragraph(words);
    out += paragraph(bound());
    if (plan_.sampled) {
      out += paragraph(
          fmt::format("These figures are estimates: the tests may come back in more than {} "
                      "ways, of which {} were "
                      "drawn (seed {}). ± is the standard error.",
                      question_.limits.exact, question_.limits.samples, question_.seed));
    }
    return out;
  }

  [[nodiscard]] std::string bound() const {
    std::string words = fmt::format(
        "Each was chosen for {} given those before it. No other choice within the same limits{} "
        "tells more than {:.3f} bits, {}so this one is {} of the best or better",
        plan_.rule == planning::ChoiceRule::gain ? "what it adds" : "what it adds for its price",
        by_lot() ? ", beside the same lot," : "", plan_.most_bits,
        plan_.sampled ? "by estimate, " : "",
        percent(plan_.most_bits > 0 ? std::min(plan_.bits.value / plan_.most_bits, 1.0) : 1.0));
    if (plan_.guarantee) {
      words += fmt::format(" (the rule alone is sure of {})", percent(*plan_.guarantee));
    }
    return words + ".";
  }

  [[nodiscard]] bool by_lot() const { return !plan_.chosen.empty() && plan_.chosen.front().by_lot; }

  // "97.5 %", or for several alleles "a 97.5 %, b 1.2 %".
  [[nodiscard]] std::string one_copy(const genetics::Locus& locus,
                                     const std::vector<double>& genotypes) const {
    std::string out;
    const auto alleles = static_cast<std::uint16_t>(locus.alleles().size());
    for (std::uint16_t allele = 1; allele < alleles; ++allele) {
      if (alleles > 2) {
        out += (out.empty() ? "" : ", ") + printable(locus.alleles()[allele]) + " ";
      }
      out += percent(chance_of_copies(locus, genotypes, allele, 1));
    }
    return out;
  }

  [[nodiscard]] std::string moves(const genetics::Locus& locus,
                                  const planning::ReportEffect& effect) const {
    std::string out;
    for (const auto& move : effect.largest) {
      out += (out.empty() ? "" : ", ") + printable_id(animal(move.animal));
      if (locus.alleles().size() > 2) out += " " + printable(locus.alleles()[move.allele]);
      out += fmt::format(" {} to {}", percent(move.before), percent(move.after));
    }
    if (effect.moved > effect.largest.size()) {
      out += fmt::format(" and {} more", effect.moved - effect.largest.size());
    }
    return out.empty() ? "nobody" : out;
  }

  [[nodiscard]] std::string effects(std::size_t number) const {
    const auto& test = plan_.chosen[number];
    const auto& candidate = plan_.candidates[test.candidate];
    const auto& locus = colony_.model().loci()[candidate.locus];
    std::string out = terminal_.heading(printable(
                          fmt::format("{}. {}, {}: what each result would change, by itself",
                                      number + 1, animal(candidate.test.animal), assay(test).id))) +
                      "\n";
    Table table({{"report"},
                 {"chance", Align::right},
                 {"one copy then", Align::right},
                 {"others that move by over 1 point, and by how much"}});
    for (const auto& effect : test.effects) {
      std::string names;
      for (const std::size_t r : effect.reports) {
        names += (names.empty() ? "" : " or ") + printable(assay(test).reports[r]);
      }
      table.add({names, percent(effect.probability), one_copy(locus, effect.genotypes),
                 moves(locus, effect)});
    }
    return out + table.text(terminal_, 2) + "\n";
  }

  [[nodiscard]] std::string left_out() const {
    if (plan_.left_out == 0) return "";
    return paragraph(counted(plan_.left_out, "possible sample", "possible samples") +
                     " without a price left out; give tests a price to plan for a budget.");
  }

  [[nodiscard]] std::string cautions() const {
    std::string out;
    if (by_lot()) {
      out += paragraph(
          fmt::format("One sample in {} is drawn by lot among animals without a result, so that an "
                      "audit sees more than the promising ones. Do not swap it for a better one.",
                      policy_.random_one_in));
    }
    out += paragraph(
        "A test covers the variant that it was made for and no other; laboratories err, and "
        "samples "
        "get mixed up. The book does not know which animals are still at hand. A result is not a "
        "guarantee to a buyer; on claims, keeping and trade local law comes first, on an animal's "
        "health a reptile veterinarian.");
    std::set<std::size_t> loci;
    for (const auto& test : plan_.chosen) loci.insert(plan_.candidates[test.candidate].locus);
    return out + cautions_of(colony_.model(), {loci.begin(), loci.end()}, terminal_);
  }

  const colony::Colony& colony_;
  const colony::Policy& policy_;
  const planning::TestQuestion& question_;
  const planning::TestPlan& plan_;
  const Terminal& terminal_;
};

}  // namespace

std::string next_test_text(const TestPlanTold& told, const Terminal& terminal) {
  return NextTestPage(told, terminal).text();
}

}  // namespace likelihet::cli
