// Entropies and what a report takes off them.
#include <algorithm>
#include <cmath>

#include <likelihet/odds/evidence_result.hpp>
#include <likelihet/planning/information.hpp>

namespace likelihet::planning {

namespace {

// Whether a is c x b for some c.
bool in_proportion(const std::vector<double>& a, const std::vector<double>& b) {
  constexpr double tolerance = 1e-12;
  const auto largest = static_cast<std::size_t>(std::max_element(a.begin(), a.end()) - a.begin());
  if (!(b[largest] > 0)) return false;
  const double ratio = a[largest] / b[largest];
  for (std::size_t g = 0; g < a.size(); ++g) {
    if (std::abs(a[g] - ratio * b[g]) > tolerance * a[largest]) return false;
  }
  return true;
}

}  // namespace

std::vector<ReportClass> report_classes(const colony::Assay& assay) {
  std::vector<ReportClass> out;
  for (std::size_t r = 0; r < assay.reports.size(); ++r) {
    const auto likelihood = odds::result_likelihood(assay, r);
    if (std::none_of(likelihood.begin(), likelihood.end(), [](double p) { return p > 0; })) {
      continue;
    }
    const auto known = std::find_if(out.begin(), out.end(), [&](const ReportClass& one) {
      return in_proportion(one.likelihood, likelihood);
    });
    if (known == out.end()) {
      out.push_back({likelihood, {r}});
      continue;
    }
    for (std::size_t g = 0; g < likelihood.size(); ++g) known->likelihood[g] += likelihood[g];
    known->reports.push_back(r);
  }
  return out;
}

double entropy_bits(std::span<const double> probabilities) {
  double sum = 0;
  for (double p : probabilities) {
    if (p > 0) sum -= p * std::log2(p);
  }
  return std::max(sum, 0.0);
}

double information_bits(std::span<const double> genotypes, std::span<const ReportClass> classes) {
  double sum = 0;
  for (const ReportClass& of : classes) {
    double report = 0;
    for (std::size_t g = 0; g < genotypes.size(); ++g) report += genotypes[g] * of.likelihood[g];
    for (std::size_t g = 0; g < genotypes.size(); ++g) {
      const double p = genotypes[g] * of.likelihood[g];
      if (p > 0) sum += p * std::log2(of.likelihood[g] / report);
    }
  }
  return std::max(sum, 0.0);
}

}  // namespace likelihet::planning
