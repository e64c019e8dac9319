// The audit document: forecasts, scores and curves.
#include <cmath>

#include "audit_output.hpp"
#include "observation_words.hpp"
#include <fmt/format.h>

namespace likelihet::cli {

using nlohmann::ordered_json;

ordered_json json_of(const audit::Interval& interval) {
  return {interval.low, interval.high};
}
ordered_json json_of(const audit::Estimate& estimate) {
  return {{"value", estimate.value}, {"interval", json_of(estimate.interval)}};
}
ordered_json json_of(const std::optional<audit::Estimate>& estimate) {
  return estimate ? json_of(*estimate) : ordered_json{{"value", nullptr}, {"interval", nullptr}};
}

const char* code_of(audit::Basis basis) {
  return basis == audit::Basis::pedigree ? "pedigree" : "scored";
}
const char* code_of(audit::Scheme scheme) {
  return scheme == audit::Scheme::as_it_stood ? "as-it-stood" : "clutch-left-out";
}

namespace {

ordered_json text_or_null(const std::optional<colony::Date>& date) {
  return date ? ordered_json(date->text()) : ordered_json(nullptr);
}

std::string how_tested(const audit::Selection& of) {
  const char* how =
      of.verdict == audit::Selected::looks_selected ? "they look chosen by their markers"
      : of.verdict == audit::Selected::looks_random ? "they look chosen at random"
                                                    : "too few to tell how they were chosen";
  return fmt::format(
      "{} of {} scored animals were tested, {} of them with markers that spoke against; {}",
      of.tested, of.tested + of.untested, of.low_score_tested, how);
}

class Document {
 public:
  Document(const colony::Colony& colony, const audit::Audit& audit)
      : colony_(colony), model_(colony.model()), audit_(audit) {}

  [[nodiscard]] ordered_json forecasts() const {
    auto out = ordered_json::array();
    for (const auto& forecast : audit_.forecasts.forecasts) out.push_back(forecast_json(forecast));
    return out;
  }

  [[nodiscard]] ordered_json scores() const {
    auto out = ordered_json::array();
    for (const auto& entry : audit_.scores) {
      ordered_json one = slice_json(entry.slice);
      one["outcomes"] = entry.slice.kind ? audit::code_of(*entry.slice.kind) : "all";
      one["locus"] = entry.slice.locus ? ordered_json(model_.loci()[*entry.slice.locus].id())
                                       : ordered_json(nullptr);
      one["score"] = entry.score;
      if (entry.threshold) one["threshold"] = *entry.threshold;
      one["value"] = entry.value ? ordered_json(*entry.value) : ordered_json(nullptr);
      one["interval"] = entry.interval ? json_of(*entry.interval) : ordered_json(nullptr);
      if (entry.delong) one["delong_interval"] = json_of(*entry.delong);
      one["n"] = entry.cases;
      one["clutches"] = entry.clutches;
      one["note"] = entry.note;
      out.push_back(std::move(one));
    }
    return out;
  }

  [[nodiscard]] ordered_json flow() const {
    auto out = ordered_json::array();
    for (const auto& flow : audit_.flows) {
      ordered_json one = event_json({0, flow.locus, flow.allele});
      one["animals"] = flow.animals;
      one["hatched"] = flow.hatched;
      one["scored"] = flow.scored;
      for (audit::Kind kind : {audit::Kind::test, audit::Kind::breeding, audit::Kind::visual,
                               audit::Kind::relatives}) {
        one["known"][code_of(kind)] = flow.known[static_cast<std::size_t>(kind)];
      }
      one["forecast"] = flow.forecast;
      one["not_known"] = flow.not_known;
      one["open_after_result"] = flow.open_after_result;
      one["open_carriers"] = flow.open_carriers;
      one["left_out"] = left_out(flow);
      out.push_back(std::move(one));
    }
    return out;
  }

  [[nodiscard]] ordered_json reliability() const {
    auto out = ordered_json::array();
    for (const auto& of : audit_.reliability) {
      ordered_json one = slice_json(of.slice);
      one["n"] = of.cases;
      one["thin"] = of.cases < audit::few_outcomes;
      one["curve"] = ordered_json::array();
      for (const auto& step : of.curve) {
        one["curve"].push_back({{"probability", step.probability}, {"observed", step.observed}});
      }
      one["band"] = ordered_json::array();
      for (const auto& point : of.band) {
        one["band"].push_back(
            {{"probability", point.probability}, {"low", point.low}, {"high", point.high}});
      }
      one["groups"] = ordered_json::array();
      for (const auto& group : of.groups) {
        one["groups"].push_back({{"low_edge", group.low_edge},
                                 {"high_edge", group.high_edge},
                                 {"mean", group.mean},
                                 {"n", group.cases},
                                 {"outcomes", group.hets},
                                 {"observed", group.observed.value},
                                 {"interval", json_of(group.observed.interval)}});
      }
      out.push_back(std::move(one));
    }
    return out;
  }

  [[nodiscard]] ordered_json roc() const {
    auto out = ordered_json::array();
    for (const auto& of : audit_.roc) {
      ordered_json one = slice_json(of.slice);
      one["points"] = ordered_json::array();
      for (const auto& point : of.points) {
        one["points"].push_back({{"threshold", point.threshold ? ordered_json(*point.threshold)
                                                               : ordered_json(nullptr)},
                                 {"false_positive", point.false_positive},
                                 {"true_positive", point.true_positive}});
      }
      out.push_back(std::move(one));
    }
    return out;
  }

  [[nodiscard]] ordered_json net_benefit() const {
    auto out = ordered_json::array();
    for (const auto& at : audit_.decisions) {
      out.push_back({{"scheme", code_of(at.scheme)},
                     {"threshold", at.threshold},
                     {"pedigree", at.pedigree},
                     {"scored", at.scored},
                     {"all", at.all},
                     {"none", 0}});
    }
    return out;
  }

  [[nodiscard]] ordered_json drift() const {
    auto out = ordered_json::array();
    for (const auto& at : audit_.drift) {
      out.push_back({{"scheme", code_of(at.scheme)},
                     {"period", at.month},
                     {"n", at.cases},
                     {"expected", at.expected},
                     {"observed", at.hets}});
    }
    return out;
  }

  [[nodiscard]] ordered_json worst() const {
    auto out = ordered_json::array();
    for (const auto& miss : audit_.worst) {
      const ordered_json of = forecast_json(audit_.forecasts.forecasts[miss.forecast]);
      out.push_back({{"animal", of["animal"]},
                     {"locus", of["locus"]},
                     {"allele", of["allele"]},
                     {"probability", of["probability"]},
                     {"outcome", of["outcome"]},
                     {"bits", miss.bits}});
    }
    return out;
  }

  [[nodiscard]] static ordered_json bands_json(const std::vector<audit::Band>& bands) {
    auto out = ordered_json::array();
    for (const auto& band : bands) {
      out.push_back({{"low", band.low},
                     {"high", band.high},
                     {"n", band.cases},
                     {"proved", band.hets},
                     {"observed", band.proved.value},
                     {"interval", json_of(band.proved.interval)}});
    }
    return out;
  }

  [[nodiscard]] ordered_json listings() const { return bands_json(audit_.bands); }

  [[nodiscard]] ordered_json claims(const std::vector<audit::Claimed>& made) const {
    const audit::ClaimCheck& check = audit_.claims;
    auto resolved = ordered_json::array();
    for (const auto& one : check.resolved) {
      const audit::Claimed& claim = made[one.claim];
      const audit::Truth& truth = audit_.forecasts.truths[one.truth];
      ordered_json row = {{"code", claim.code}, {"on", claim.on.text()}};
      row.update(event_json(claim.event));
      row["low"] = claim.low;
      row["high"] = claim.high;
      row["known_on"] = truth.known_on->text();
      row["kind"] = code_of(truth.kind);
      row["outcome_probability"] = truth.probability;
      resolved.push_back(std::move(row));
    }
    return {{"made", check.made},
            {"known_already", check.known_already},
            {"open", check.open},
            {"expected", check.expected},
            {"observed", check.observed},
            {"brier", check.brier ? ordered_json(*check.brier) : ordered_json(nullptr)},
            {"bands", bands_json(check.bands)},
            {"resolved", std::move(resolved)}};
  }

  [[nodiscard]] ordered_json tested() const {
    auto out = ordered_json::array();
    for (const auto& of : audit_.selections) {
      ordered_json one = event_json({0, of.locus, of.allele});
      one["tested"] = of.tested;
      one["untested"] = of.untested;
      one["low_score_tested"] = of.low_score_tested;
      one["selection"] = of.louder ? ordered_json(of.louder->value) : ordered_json(nullptr);
      one["interval"] = of.louder ? json_of(of.louder->interval) : ordered_json(nullptr);
      one["verdict"] = of.verdict == audit::Selected::looks_selected ? "looks-selected"
                       : of.verdict == audit::Selected::looks_random ? "looks-random"
                                                                     : "too-few";
      one["text"] = how_tested(of);
      out.push_back(std::move(one));
    }
    return out;
  }

  [[nodiscard]] ordered_json animals() const {
    auto out = ordered_json::array();
    for (const auto& of : audit_.waterfalls) {
      ordered_json one = event_json(of.event);
      one["steps"] = ordered_json::array();
      one["steps"].push_back({{"label", "pedigree and sex"},
                              {"factor", nullptr},
                              {"probability_after", of.account.start}});
      for (const auto& step : of.account.steps) {
        one["steps"].push_back({{"label", words_of(colony_, step.observations, !step.own)},
                                {"factor", std::isfinite(step.factor) ? ordered_json(step.factor)
                                                                      : ordered_json(nullptr)},
                                {"probability_after", step.after}});
      }
      out.push_back(std::move(one));
    }
    return out;
  }

 private:
  [[nodiscard]] ordered_json event_json(const audit::Event& event) const {
    const auto& locus = model_.loci()[event.locus];
    return {{"animal", colony_.animals().empty() ? "" : colony_.animals()[event.animal].id},
            {"locus", locus.id()},
            {"allele", locus.alleles()[event.allele]}};
  }

  [[nodiscard]] static ordered_json slice_json(const audit::Slice& slice) {
    return {{"basis", code_of(slice.basis)}, {"scheme", code_of(slice.scheme)}};
  }

  [[nodiscard]] ordered_json forecast_json(const audit::Forecast& forecast) const {
    const audit::Truth& truth = audit_.forecasts.truths[forecast.truth];
    const auto& animal = colony_.animals()[truth.event.animal];
    const auto& locus = model_.loci()[truth.event.locus];
    return {{"animal", animal.id},
            {"clutch", animal.clutch ? ordered_json(colony_.clutches()[*animal.clutch].id)
                                     : ordered_json(nullptr)},
            {"locus", locus.id()},
            {"allele", locus.alleles()[truth.event.allele]},
            {"on", text_or_null(colony::Date::of_days(truth.known_on->days() - 1))},
            {"known_on", truth.known_on->text()},
            {"kind", code_of(truth.kind)},
            {"basis", code_of(forecast.basis)},
            {"scheme", code_of(forecast.scheme)},
            {"probability", forecast.probability},
            {"outcome", truth.so() ? 1 : 0},
            {"outcome_probability", truth.probability},
            {"scored", static_cast<bool>(audit_.forecasts.scored[truth.event.animal])}};
  }

  [[nodiscard]] static ordered_json left_out(const audit::Flow& flow) {
    static constexpr std::pair<const char*, const char*> reasons[] = {
        {"known-from-the-start", "known by descent alone, or by records without a day"},
        {"known-before-hatching", "its parents made it certain before it hatched"},
        {"others-tell", "the records of that day contradict one another"}};
    auto out = ordered_json::array();
    for (std::size_t r = 0; r < 3; ++r) {
      if (flow.left_out[r] == 0) continue;
      out.push_back({{"reason", reasons[r].first},
                     {"text", reasons[r].second},
                     {"animals", flow.left_out[r]}});
    }
    return out;
  }

  const colony::Colony& colony_;
  const colony::Model& model_;
  const audit::Audit& audit_;
};

ordered_json without_animal(ordered_json list) {
  for (auto& one : list) one.erase("animal");
  return list;
}

ordered_json warnings_json(const audit::Audit& audit) {
  auto out = ordered_json::array();
  for (const auto& warning : audit.warnings) {
    out.push_back({{"code", warning.code}, {"text", warning.text}});
  }
  return out;
}

}  // namespace

ordered_json audit_document(const colony::Colony& colony, const audit::Audit& audit,
                            const audit::Settings& settings) {
  const Document parts(colony, audit);
  ordered_json out = {{"format", "likelihet-audit"}, {"version", 1}};
  out["as_of"] = text_or_null(settings.truth.as_of);
  out["settings"] = {{"known", settings.truth.yes},
                     {"known_not", settings.truth.no},
                     {"seed", settings.scores.seed},
                     {"resamples", settings.scores.resamples},
                     {"thresholds", settings.scores.thresholds}};
  out["warnings"] = warnings_json(audit);
  out["flow"] = without_animal(parts.flow());
  out["forecasts"] = parts.forecasts();
  out["scores"] = parts.scores();
  out["reliability"] = parts.reliability();
  out["roc"] = parts.roc();
  out["net_benefit"] = parts.net_benefit();
  out["drift"] = parts.drift();
  out["worst"] = parts.worst();
  out["listings"] = parts.listings();
  out["claims"] = parts.claims(settings.claims);
  out["markers"] = audit_markers_json(colony, audit);
  out["pairs"] = audit_pairs_json(colony, audit);
  out["multiplicity"] = {{"markers", audit.markers.size()}, {"method", "Benjamini-Hochberg"}};
  out["scorers"] = audit_scorers_json(colony, audit);
  out["agreement"] = audit_agreement_json(colony, audit);
  out["tested"] = without_animal(parts.tested());
  out["animals"] = parts.animals();
  out["conflicts"] = ordered_json::array();
  for (const auto& surprise : audit.conflicts) {
    out["conflicts"].push_back({{"observation", colony.observations()[surprise.observation].id},
                                {"probability", surprise.probability},
                                {"why", surprise.why}});
  }
  return out;
}

}  // namespace likelihet::cli
