// Builds small colony documents for worked examples and reads their odds.
#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <likelihet/colony/colony.hpp>
#include <likelihet/odds/odds.hpp>

namespace likelihet::published {

using Json = nlohmann::ordered_json;

/// "son" and 2 make "son2".
template <class Number>
std::string numbered(std::string prefix, Number number) {
  return prefix.append(std::to_string(number));
}

/// Half a unit of the last printed place.
double half_unit(int places);

/// A model with one recessive: locus "trait", alleles "+" and "a"; an animal without "+" shows
/// "affected", every other "clear". Founders of origin "population" have frequency q of "a".
Json recessive_model(double q = 0, const std::string& on = "autosome");

/// An assay of "trait" with these reports; `rows` has P(report) a genotype, in state order.
void add_assay(Json& model, const std::string& id, const std::vector<std::string>& reports,
               const std::vector<std::string>& keys, const std::vector<std::vector<double>>& rows);

/// A colony's odds, by ids and keys.
class Answer {
 public:
  Answer(colony::Colony colony, odds::ColonyOdds odds);

  [[nodiscard]] double posterior(const std::string& animal, const std::string& key,
                                 const std::string& locus = "trait") const;
  [[nodiscard]] double scored(const std::string& animal, const std::string& key,
                              const std::string& locus = "trait") const;
  [[nodiscard]] double pedigree(const std::string& animal, const std::string& key,
                                const std::string& locus = "trait") const;
  [[nodiscard]] double log_evidence() const { return odds_.log_evidence; }

 private:
  [[nodiscard]] double at(const std::string& animal, const std::string& key,
                          const std::string& locus,
                          std::vector<double> odds::LocusOdds::*layer) const;

  colony::Colony colony_;
  odds::ColonyOdds odds_;
};

/// Reads both documents; throws with the faults.
colony::Colony read(const std::string& model_text, const std::string& colony_text);

/// Reads both documents and computes the odds; throws with the faults or the contradiction.
Answer solve(const std::string& model_text, const std::string& colony_text);

/// Odds of "trait" that a founder is known by: one key for certain, or two.
Json surely(const std::string& key);
Json either(const std::string& key, double probability, const std::string& other);

/// A colony document in the making.
class WorkedColony {
 public:
  explicit WorkedColony(Json model) : model_(std::move(model)) {}

  /// A founder; with odds where something is known of it, else out of "population".
  WorkedColony& founder(const std::string& id, const Json& odds = nullptr);
  /// Young of a dam and a sire, one clutch of them; `sex` empty where it is not recorded.
  WorkedColony& young(const std::vector<std::string>& ids, const std::string& dam,
                      const std::string& sire, const std::string& sex = "");
  WorkedColony& child(const std::string& id, const std::string& dam, const std::string& sire,
                      const std::string& sex = "") {
    return young({id}, dam, sire, sex);
  }
  WorkedColony& sex(const std::string& id, const std::string& sex);
  WorkedColony& shows(const std::string& id, const std::string& appearance,
                      const std::string& locus = "trait");
  WorkedColony& score(const std::string& id, const std::string& marker, const std::string& level);
  WorkedColony& result(const std::string& id, const std::string& assay, const std::string& report);
  WorkedColony& brood(const std::string& id, const std::string& partner, int clear,
                      int affected = 0);
  [[nodiscard]] Answer solve() const;
  [[nodiscard]] colony::Colony colony() const;

 private:
  WorkedColony& observe(Json observation);
  [[nodiscard]] Json document() const;

  Json model_;
  Json animals_ = Json::array();
  Json clutches_ = Json::array();
  Json observations_ = Json::array();
};

}  // namespace likelihet::published
