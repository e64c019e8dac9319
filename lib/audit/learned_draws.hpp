// Tables drawn from what a scenario teaches, and odds averaged over them: what the book would have
// said.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include <likelihet/audit/forecast.hpp>
#include <likelihet/odds/layers.hpp>

namespace likelihet::audit {

/// Chains (learning::Chain) are shorter than those of `learn`: a forecast needs the average over
/// tables, not the ends of an interval. Fewer draws than this make forecasts noisy enough to be
/// seen in the slope of their calibration (0.93 with 160 draws two sweeps apart).
struct DrawSettings {
  std::size_t first_settling = 500;  ///< sweeps before the first draw of the first chain
  std::size_t settling = 100;        ///< and of a chain that begins where an earlier one ended
  std::size_t draws = 256;
  std::size_t apart = 8;  ///< sweeps from draw to draw
  std::uint64_t seed = 1;
  std::size_t memory_bytes = std::size_t{2} << 30U;
};

/// Draws from what one scenario teaches, weighted for another that differs from it by few records:
/// each by P(that one's evidence | tables) / P(the first one's evidence | tables) (importance
/// sampling; Chopin 2002, Biometrika 89:539, for scenarios in time). Where the weights are worth
/// less than half of the draws (effective size (Σw)² / Σw², Kong, Liu and Wong 1994, JASA 89:278) a
/// chain draws anew, from where the last one ended. So a book that grows day by day is learned once
/// and followed. Deterministic.
class LearnedDraws {
 public:
  /// The model must outlive it, and be that of every scenario.
  explicit LearnedDraws(const colony::Model& model, const DrawSettings& settings);

  /// P(exactly one copy) of each event by all evidence of `asked`, averaged over tables learned
  /// from `taught`. Empty where the evidence of either contradicts itself.
  std::variant<std::vector<double>, odds::TooLarge> odds(const odds::Scenario& taught,
                                                         const odds::Scenario& asked,
                                                         const std::vector<Event>& events);
  /// How many chains were run so far.
  [[nodiscard]] std::size_t chains() const { return chains_; }

 private:
  // ln P(evidence | tables) of each draw, and the odds of each event at each draw.
  struct AtDraws {
    std::vector<double> log_evidence;
    std::vector<double> odds;  // event by event, the draws fastest
  };
  AtDraws at_draws(const odds::Prepared& prepared, const std::vector<Event>& events) const;
  bool draw_from(const odds::Prepared& taught);
  [[nodiscard]] std::vector<double> weights(const AtDraws& now) const;

  const colony::Model* model_;
  DrawSettings settings_;
  std::vector<odds::Tables> tables_;
  std::vector<double> log_evidence_;  // of each, where it was drawn
  std::size_t chains_ = 0;
};

}  // namespace likelihet::audit
