// Records with results added, enumerated again for every combination.
#include "planning/by_enumeration.hpp"

#include <cmath>
#include <functional>
#include <string>

#include "properties/enumeration.hpp"
#include <support/small_model.hpp>

#include <likelihet/planning/information.hpp>

namespace likelihet::planning {

namespace {

using properties::Enumerated;

Enumerated enumerated(const std::shared_ptr<const colony::Model>& model,
                      const colony::Records& records) {
  return properties::enumerate(support::colony_of(model, records), std::nullopt);
}

void add_result(colony::Records& records, const std::string& animal, const std::string& assay,
                const std::string& report) {
  colony::ObservationRecord record;
  record.id = "supposed-" + std::to_string(records.observations.size());
  record.what = colony::ResultRecord{animal, assay, report, std::nullopt};
  records.observations.push_back(std::move(record));
}

}  // namespace

ByEnumeration::ByEnumeration(std::shared_ptr<const colony::Model> model, colony::Records records)
    : model_(std::move(model)), records_(std::move(records)) {
  const Enumerated found = enumerated(model_, records_);
  possible_ = !found.contradiction;
  log_evidence_ = found.log_evidence;
  for (const auto& animal : found.animals) {
    odds_.emplace_back();
    for (const auto& locus : animal) odds_.back().push_back(locus.posterior);
  }
}

void ByEnumeration::each(const std::vector<Test>& tests,
                         const std::function<void(double probability, const Odds&)>& visit) {
  std::vector<std::size_t> reports(tests.size(), 0);
  while (true) {
    colony::Records with = records_;
    for (std::size_t t = 0; t < tests.size(); ++t) {
      const colony::Assay& assay = model_->assays()[tests[t].assay];
      add_result(with, records_.animals[tests[t].animal].id, assay.id, assay.reports[reports[t]]);
    }
    const Enumerated found = enumerated(model_, with);
    if (!found.contradiction) {
      Odds odds;
      for (const auto& animal : found.animals) {
        odds.emplace_back();
        for (const auto& locus : animal) odds.back().push_back(locus.posterior);
      }
      visit(std::exp(found.log_evidence - log_evidence_), odds);
    }
    std::size_t t = 0;
    while (t < tests.size() && ++reports[t] == model_->assays()[tests[t].assay].reports.size()) {
      reports[t++] = 0;
    }
    if (t == tests.size()) return;
  }
}

double ByEnumeration::information(const std::vector<Test>& tests) {
  double bits = 0;
  each(tests, [&](double p, const Odds&) { bits -= p > 0 ? p * std::log2(p) : 0; });
  for (const Test& test : tests) {
    const colony::Assay& assay = model_->assays()[test.assay];
    for (std::size_t g = 0; g < assay.expect.size(); ++g) {
      std::vector<double> row(assay.reports.size());
      for (std::size_t r = 0; r < row.size(); ++r) {
        double average = 0;
        for (const auto& of : assay.expect) average += of[r];
        average /= static_cast<double>(assay.expect.size());
        row[r] = (1 - assay.mix_up) * assay.expect[g][r] + assay.mix_up * average;
      }
      bits -= odds_[test.animal][assay.locus][g] * entropy_bits(row);
    }
  }
  return bits;
}

double ByEnumeration::expected_rise(const std::vector<Test>& tests, std::size_t locus,
                                    const std::function<double(const std::vector<double>&)>& of) {
  double rise = 0;
  for (const auto& animal : odds_) rise -= of(animal[locus]);
  each(tests, [&](double p, const Odds& odds) {
    for (const auto& animal : odds) rise += p * of(animal[locus]);
  });
  return rise;
}

double ByEnumeration::listing_gain(const std::vector<Test>& tests, std::size_t locus) {
  return -expected_rise(tests, locus,
                        [](const std::vector<double>& odds) { return entropy_bits(odds); });
}

double ByEnumeration::none(const std::shared_ptr<const colony::Model>& model,
                           const colony::Records& records, const KeepGoal& goal,
                           const std::vector<std::size_t>& animals) {
  colony::ModelDescription description = model->description();
  colony::AssayDescription tells;
  tells.id = "tells-the-goal";
  tells.locus = description.loci[goal.locus].id;
  tells.reports = {"no", "yes"};
  const genetics::Locus& locus = model->loci()[goal.locus];
  for (std::size_t g = 0; g < locus.size(); ++g) {
    tells.rows.push_back(
        {locus.key(g), goal.meets[g] ? std::vector<double>{0, 1} : std::vector<double>{1, 0}});
  }
  description.assays.push_back(tells);
  const auto able = support::made(description);
  colony::Records with = records;
  for (const std::size_t animal : animals) {
    add_result(with, records.animals[animal].id, tells.id, "no");
  }
  const Enumerated before = enumerated(able, records);
  const Enumerated after = enumerated(able, with);
  return after.contradiction ? 0.0 : std::exp(after.log_evidence - before.log_evidence);
}

}  // namespace likelihet::planning
