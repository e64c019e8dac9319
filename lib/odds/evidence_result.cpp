// An assay's row, and the chance that it was another animal's sample.
#include <likelihet/odds/evidence_result.hpp>

namespace likelihet::odds {

std::vector<double> result_likelihood(const colony::Assay& assay, std::size_t report) {
  double average = 0;
  for (const auto& row : assay.expect) average += row[report];
  average /= static_cast<double>(assay.expect.size());
  std::vector<double> out;
  for (const auto& row : assay.expect) {
    out.push_back((1 - assay.mix_up) * row[report] + assay.mix_up * average);
  }
  return out;
}

}  // namespace likelihet::odds
