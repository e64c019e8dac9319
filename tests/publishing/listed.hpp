// Listings of small colonies, asked for by ids.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <support/small_model.hpp>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// The colony of these records and the listings of its animals; throws where it has none.
class Listed {
 public:
  Listed(const colony::ModelDescription& model, const support::RecordsBuilder& records,
         colony::Policy policy = {})
      : Listed(std::make_shared<const colony::Colony>(
                   support::colony_of(support::made(model), records.records)),
               std::move(policy)) {}
  explicit Listed(std::shared_ptr<const colony::Colony> colony, colony::Policy policy = {})
      : colony_(std::move(colony)), policy_(std::move(policy)) {
    ground_.colony = colony_.get();
    ground_.policy = &policy_;
  }
  Listed(const Listed&) = delete;
  Listed& operator=(const Listed&) = delete;

  /// To be changed before anything is asked.
  Ground& ground() { return ground_; }
  [[nodiscard]] const Ground& ground() const { return ground_; }
  [[nodiscard]] const colony::Colony& colony() const { return *colony_; }

  [[nodiscard]] std::vector<Listing> all_of(const std::vector<std::string>& ids) const {
    std::vector<std::size_t> animals;
    for (const std::string& id : ids) animals.push_back(colony_->find_animal(id).value());
    auto found = listings(ground_, animals);
    if (auto* made = std::get_if<std::vector<Listing>>(&found)) return std::move(*made);
    throw std::runtime_error("no listings");
  }
  [[nodiscard]] Listing of(const std::string& id) const { return all_of({id}).front(); }
  [[nodiscard]] Statement at(const std::string& id, const std::string& locus = "tarnbrook",
                             std::uint16_t allele = 1) const {
    const std::size_t wanted = colony_->model().find_locus(locus).value();
    for (Statement& one : of(id).statements) {
      if (one.locus == wanted && one.allele == allele) return std::move(one);
    }
    throw std::runtime_error("no statement");
  }
  [[nodiscard]] std::vector<std::string> rests_on(const Statement& statement) const {
    std::vector<std::string> ids;
    for (const std::size_t o : statement.rests_on) ids.push_back(colony_->observations()[o].id);
    return ids;
  }

 private:
  std::shared_ptr<const colony::Colony> colony_;
  colony::Policy policy_;
  Ground ground_;
};

/// A dam and a sire sold as these odds of one copy at tarnbrook, trusted wholly, both plain.
inline support::RecordsBuilder pair_sold_as(double dam, double sire) {
  support::RecordsBuilder records;
  const auto claim = [](double het) {
    return colony::Named<double>{{"+/+", 1 - het}, {"+/e", het}};
  };
  records.founder("F", genetics::Sex::female).bought_as("tarnbrook", claim(dam));
  records.founder("M", genetics::Sex::male).bought_as("tarnbrook", claim(sire));
  records.clutch("C", "F", {"M"});
  return records;
}

}  // namespace likelihet::publishing
