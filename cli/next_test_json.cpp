// The next-test document.
#include "genotype_json.hpp"
#include "next_test_output.hpp"
#include <nlohmann/json.hpp>

namespace likelihet::cli {
namespace {

using nlohmann::ordered_json;

class Writer {
 public:
  explicit Writer(const TestPlanTold& told)
      : colony_(*told.colony), question_(*told.question), plan_(*told.plan) {}

  [[nodiscard]] ordered_json document() const {
    ordered_json out = {{"format", "likelihet-next-test"}, {"version", 1}};
    const auto& as_of = question_.book.as_of;
    out["as_of"] = as_of ? ordered_json(as_of->text()) : ordered_json(nullptr);
    if (question_.tests) out["tests"] = *question_.tests;
    if (question_.budget) out["budget"] = *question_.budget;
    out["seed"] = question_.seed;
    out["chosen"] = ordered_json::array();
    for (const auto& test : plan_.chosen) out["chosen"].push_back(chosen(test));
    out["bits"] = plan_.bits.value;
    out["listing_bits"] = plan_.listing_bits;
    if (plan_.worth_given) out["worth"] = plan_.worth;
    out["cost"] = plan_.cost;
    out["unpriced"] = plan_.unpriced;
    out["most_bits"] = plan_.most_bits;
    out["guarantee"] = plan_.guarantee ? ordered_json(*plan_.guarantee) : ordered_json(nullptr);
    out["rule"] = plan_.rule == planning::ChoiceRule::gain ? "gain" : "gain-for-price";
    out["sampled"] = plan_.sampled;
    if (plan_.sampled) {
      out["draws"] = question_.limits.samples;
      out["bits_standard_error"] = plan_.bits.standard_error;
    }
    out["left_out_without_price"] = plan_.left_out;
    out["candidates"] = ordered_json::array();
    for (std::size_t c = 0; c < plan_.candidates.size(); ++c) {
      out["candidates"].push_back(candidate(c));
    }
    return out;
  }

 private:
  [[nodiscard]] const std::string& id(std::size_t animal) const {
    return colony_.animals()[animal].id;
  }

  // What a chosen test and a candidate have in common.
  [[nodiscard]] ordered_json test(std::size_t c) const {
    const auto& of = plan_.candidates[c];
    ordered_json out = {{"animal", id(of.test.animal)},
                        {"assay", colony_.model().assays()[of.test.assay].id},
                        {"locus", colony_.model().loci()[of.locus].id()}};
    if (of.price) out["price"] = *of.price;
    out["tested"] = of.tested;
    return out;
  }

  [[nodiscard]] ordered_json candidate(std::size_t c) const {
    ordered_json out = test(c);
    const auto& value = plan_.values[c];
    out["bits"] = value.bits;
    if (value.gain) out["listing_bits"] = value.gain->listing_bits;
    if (value.gain && plan_.worth_given) out["worth"] = value.gain->worth;
    return out;
  }

  [[nodiscard]] ordered_json chosen(const planning::ChosenTest& of) const {
    ordered_json out = test(of.candidate);
    out["by_lot"] = of.by_lot;
    out["bits"] = of.gain.value;
    if (plan_.sampled) out["bits_standard_error"] = of.gain.standard_error;
    out["listing_bits"] = of.listing_bits;
    if (plan_.worth_given) out["worth"] = of.worth;
    out["reports"] = ordered_json::array();
    for (const auto& effect : of.effects) out["reports"].push_back(report(of, effect));
    return out;
  }

  [[nodiscard]] ordered_json report(const planning::ChosenTest& of,
                                    const planning::ReportEffect& effect) const {
    const auto& candidate = plan_.candidates[of.candidate];
    const auto& assay = colony_.model().assays()[candidate.test.assay];
    const auto& locus = colony_.model().loci()[candidate.locus];
    auto names = ordered_json::array();
    for (const std::size_t r : effect.reports) names.push_back(assay.reports[r]);
    ordered_json out = {{"reports", names},
                        {"probability", effect.probability},
                        {"after", genotypes_json(locus, effect.genotypes)},
                        {"others_moved", effect.moved}};
    out["largest_moves"] = ordered_json::array();
    for (const auto& move : effect.largest) {
      out["largest_moves"].push_back({{"animal", id(move.animal)},
                                      {"allele", locus.alleles()[move.allele]},
                                      {"before", move.before},
                                      {"after", move.after}});
    }
    return out;
  }

  const colony::Colony& colony_;
  const planning::TestQuestion& question_;
  const planning::TestPlan& plan_;
};

}  // namespace

std::string next_test_json(const TestPlanTold& told) {
  return Writer(told).document().dump(2) + "\n";
}

}  // namespace likelihet::cli
