// From hatched to scored to known to left out.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/marker_audit.hpp>

namespace likelihet::audit {

/// What became of every animal at one event.
struct Flow {
  std::size_t locus = 0;
  std::uint16_t allele = 1;
  std::size_t animals = 0;
  std::size_t hatched = 0;              ///< in a clutch of the book
  std::size_t scored = 0;               ///< a marker was read before the truth was known
  std::size_t known[4] = {0, 0, 0, 0};  ///< by Kind, of those with a forecast
  std::size_t forecast = 0;             ///< as it stood
  std::size_t left_out[3] = {0, 0, 0};  ///< by Refusal, as it stood
  std::size_t not_known = 0;
  /// Not known though a result on the animal counts: it left the chance between the thresholds.
  std::size_t open_after_result = 0;
  double open_carriers = 0;  ///< of them, as many as are expected to be hets
};

/// One for each locus and allele but the first.
std::vector<Flow> flows(const colony::Colony& colony, const Forecasts& forecasts,
                        const MarkerBackground& background,
                        const std::optional<colony::Date>& as_of);

}  // namespace likelihet::audit
