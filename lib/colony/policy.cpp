// Whether a policy is within its ranges and fits a model.
#include <cmath>
#include <set>

#include <likelihet/colony/fault_list.hpp>
#include <likelihet/colony/genotype_key.hpp>
#include <likelihet/colony/place.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/colony/value_checks.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

namespace {

void check_markers(const MarkerPolicy& markers, FaultList& faults) {
  const Pointer place = Pointer() / "marks";
  if (markers.forecasts < 1) {
    faults.add((place / "forecasts").text(), "it is 0",
               "give 1 or more: a marker without any outcome has shown nothing");
  }
  if (!std::isfinite(markers.skill_above) || markers.skill_above < 0 || markers.skill_above >= 1) {
    faults.add((place / "skill_above").text(), "it is " + number(markers.skill_above),
               "give a number from 0 and below 1");
  }
  if (!std::isfinite(markers.slope_at_least) || markers.slope_at_least <= 0 ||
      markers.slope_at_least > 1) {
    faults.add((place / "slope_at_least").text(), "it is " + number(markers.slope_at_least),
               "give a number above 0, at most 1");
  }
}

void check_prices(const std::vector<PricePolicy>& prices, const Model& model, FaultList& faults) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < prices.size(); ++i) {
    const Pointer place = Pointer() / "prices" / i;
    const std::string& assay = prices[i].assay;
    if (!model.find_assay(assay)) {
      faults.add((place / "assay").text(), "the model has no assay " + in_quotes(assay),
                 faults.suggest_id(assay, model.assays()));
    } else if (!seen.insert(assay).second) {
      faults.add((place / "assay").text(), in_quotes(assay) + " is given twice", "give it once");
    }
    check_not_negative(prices[i].price, "price", (place / "price").text(), faults);
  }
}

/// The locus, or a fault.
const genetics::Locus* has_locus(const std::string& id, const Pointer& place, const Model& model,
                                 FaultList& faults) {
  if (const auto position = model.find_locus(id)) return &model.loci()[*position];
  faults.add((place / "locus").text(), "the model has no trait " + in_quotes(id),
             faults.suggest_id(id, model.loci()));
  return nullptr;
}

void check_kept(const WorthPolicy& worth, const genetics::Locus& locus, const Pointer& place,
                FaultList& faults) {
  std::vector<std::string> keys;
  for (std::size_t g = 0; g < locus.size(); ++g) keys.push_back(locus.key(g));
  for (const auto& [key, value] : worth.kept) {
    const std::string here = (place / "kept" / key).text();
    if (!locus.find(key)) {
      faults.add(here, "locus " + in_quotes(worth.locus) + " has no genotype " + in_quotes(key),
                 key_mend(key, keys, faults));
    }
    check_not_negative(value, "worth", here, faults);
  }
}

void check_worth(const std::vector<WorthPolicy>& worth, const Model& model, FaultList& faults) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < worth.size(); ++i) {
    const Pointer place = Pointer() / "worth" / i;
    if (const auto* locus = has_locus(worth[i].locus, place, model, faults)) {
      check_kept(worth[i], *locus, place, faults);
      if (!seen.insert(worth[i].locus).second) {
        faults.add((place / "locus").text(), in_quotes(worth[i].locus) + " is given twice",
                   "give it once");
      }
    }
    check_not_negative(worth[i].sold, "sold", (place / "sold").text(), faults);
  }
}

void check_health(const std::vector<HealthPolicy>& health, const Model& model, FaultList& faults) {
  for (std::size_t i = 0; i < health.size(); ++i) {
    const Pointer place = Pointer() / "health" / i;
    has_locus(health[i].locus, place, model, faults);
    if (health[i].note.empty()) {
      faults.add((place / "note").text(), "it is empty", "say what is known, or remove the entry");
    }
    if (health[i].grade == Grade::study && !health[i].source) {
      faults.add((place / "source").text(), "a study is claimed and none is named",
                 "name the study, or give another grade");
    }
  }
}

}  // namespace

Faults policy_faults(const Policy& policy, const Model& model) {
  FaultList faults;
  check_markers(policy.markers, faults);
  if (!std::isfinite(policy.step) || policy.step <= 0 || policy.step > 0.25) {
    faults.add("/step", "it is " + number(policy.step), "give a number above 0, at most 0.25");
  }
  check_prices(policy.prices, model, faults);
  check_worth(policy.worth, model, faults);
  check_health(policy.health, model, faults);
  return faults.take();
}

std::optional<double> price_of(const Policy& policy, const Assay& assay) {
  for (const PricePolicy& price : policy.prices) {
    if (price.assay == assay.id) return price.price;
  }
  return assay.price;
}

}  // namespace likelihet::colony
