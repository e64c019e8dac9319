// Forecasts put in order, in groups, in months.
#include <algorithm>
#include <cmath>
#include <map>

#include <likelihet/audit/curves.hpp>
#include <likelihet/audit/net_benefit.hpp>
#include <likelihet/audit/proportion.hpp>
#include <likelihet/audit/reliability.hpp>

namespace likelihet::audit {

namespace {

constexpr std::size_t most_groups = 5;
constexpr std::size_t fewest_in_a_group = 5;

std::vector<Reliability::Group> groups_of(const std::vector<Case>& cases) {
  std::vector<double> sorted;
  sorted.reserve(cases.size());
  for (const Case& one : cases) sorted.push_back(one.probability);
  std::sort(sorted.begin(), sorted.end());
  std::vector<Reliability::Group> out;
  std::size_t from = 0;
  for (const auto& group : reliability_groups(cases, most_groups, fewest_in_a_group)) {
    const auto n = static_cast<std::size_t>(std::lround(group.weight));
    const auto hets = static_cast<std::size_t>(std::lround(group.observed * group.weight));
    out.push_back({sorted[from],
                   sorted[from + n - 1],
                   group.probability,
                   n,
                   hets,
                   {group.observed, group.interval}});
    from += n;
  }
  return out;
}

template <class Do>
void for_each_slice(Do&& act) {
  for (Scheme scheme : {Scheme::as_it_stood, Scheme::clutch_left_out}) {
    for (Basis basis : {Basis::pedigree, Basis::scored}) {
      act(Slice{basis, scheme, std::nullopt, std::nullopt});
    }
  }
}

bool marked(const Forecast& forecast, Scheme scheme) {
  return forecast.scheme == scheme && forecast.basis == Basis::scored;
}

}  // namespace

std::vector<Reliability> reliabilities(const colony::Colony& colony, const Forecasts& forecasts,
                                       std::size_t resamples, std::uint64_t seed) {
  std::vector<Reliability> out;
  for_each_slice([&](const Slice& slice) {
    const auto cases = cases_of(colony, forecasts, slice);
    if (cases.empty()) return;
    out.push_back({slice, cases.size(), isotonic(cases),
                   consistency_band(cases, 0.95, std::max<std::size_t>(resamples, 1), seed),
                   groups_of(cases)});
  });
  return out;
}

std::vector<Roc> rocs(const colony::Colony& colony, const Forecasts& forecasts) {
  std::vector<Roc> out;
  for_each_slice([&](const Slice& slice) {
    auto points = roc_points(cases_of(colony, forecasts, slice));
    if (!points.empty()) out.push_back({slice, std::move(points)});
  });
  return out;
}

std::vector<Decision> decisions(const colony::Colony& colony, const Forecasts& forecasts,
                                const std::vector<double>& thresholds) {
  std::vector<Decision> out;
  for (Scheme scheme : {Scheme::as_it_stood, Scheme::clutch_left_out}) {
    const auto pedigree =
        cases_of(colony, forecasts, {Basis::pedigree, scheme, std::nullopt, std::nullopt});
    const auto scored =
        cases_of(colony, forecasts, {Basis::scored, scheme, std::nullopt, std::nullopt});
    if (scored.empty()) continue;
    for (double threshold : thresholds) {
      out.push_back({scheme, threshold, net_benefit(pedigree, threshold),
                     net_benefit(scored, threshold), net_benefit_of_all(scored, threshold)});
    }
  }
  return out;
}

std::vector<Drift> drifts(const Forecasts& forecasts) {
  std::map<std::pair<Scheme, std::string>, Drift> found;
  for (const Forecast& forecast : forecasts.forecasts) {
    if (forecast.basis != Basis::scored) continue;
    const Truth& truth = forecasts.truths[forecast.truth];
    if (!truth.known_on) continue;
    const std::string month = truth.known_on->text().substr(0, 7);
    Drift& at = found[{forecast.scheme, month}];
    at.scheme = forecast.scheme;
    at.month = month;
    ++at.cases;
    at.expected += forecast.probability;
    at.hets += truth.so() ? 1 : 0;
  }
  std::vector<Drift> out;
  out.reserve(found.size());
  for (auto& [key, drift] : found) out.push_back(std::move(drift));
  return out;
}

std::vector<Band> bands(const Forecasts& forecasts) {
  BandCounts counts;
  for (const Forecast& forecast : forecasts.forecasts) {
    if (!marked(forecast, Scheme::as_it_stood)) continue;
    counts.add(BandCounts::band_of(forecast.probability), forecasts.truths[forecast.truth].so());
  }
  return counts.bands();
}

std::size_t BandCounts::band_of(double probability) {
  return std::min(ten - 1, static_cast<std::size_t>(probability * ten));
}

void BandCounts::add(std::size_t band, bool carrier) {
  ++cases_[band];
  carriers_[band] += carrier ? 1 : 0;
}

std::vector<Band> BandCounts::bands() const {
  std::vector<Band> out;
  for (std::size_t i = 0; i < ten; ++i) {
    if (cases_[i] == 0) continue;
    const auto n = static_cast<double>(cases_[i]);
    const auto hets = static_cast<double>(carriers_[i]);
    out.push_back({static_cast<double>(i) / ten,
                   static_cast<double>(i + 1) / ten,
                   cases_[i],
                   carriers_[i],
                   {hets / n, wilson(hets, n)}});
  }
  return out;
}

std::vector<Miss> misses(const Forecasts& forecasts, std::size_t most) {
  constexpr double least = 1e-15;
  std::vector<Miss> out;
  for (std::size_t f = 0; f < forecasts.forecasts.size(); ++f) {
    const Forecast& forecast = forecasts.forecasts[f];
    if (!marked(forecast, Scheme::as_it_stood)) continue;
    const bool so = forecasts.truths[forecast.truth].so();
    const double given = so ? forecast.probability : 1 - forecast.probability;
    const double bits = -std::log2(std::max(given, least));
    if (bits >= 1) out.push_back({f, bits});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Miss& a, const Miss& b) { return a.bits > b.bits; });
  if (out.size() > most) out.resize(most);
  return out;
}

}  // namespace likelihet::audit
