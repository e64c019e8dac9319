// Looking faults up by their place.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <gmock/gmock.h>
#include <support/small_model.hpp>

#include <likelihet/colony/fault.hpp>

namespace likelihet::support {

/// The faults of a model description or of records; none if it is sound.
inline colony::Faults faults_of(const colony::ModelDescription& description) {
  auto made = colony::Model::make(description);
  const auto* faults = std::get_if<colony::Faults>(&made);
  return faults == nullptr ? colony::Faults{} : *faults;
}
inline colony::Faults faults_of(const std::shared_ptr<const colony::Model>& model,
                                const colony::Records& records) {
  auto made = colony::Colony::make(model, records);
  const auto* faults = std::get_if<colony::Faults>(&made);
  return faults == nullptr ? colony::Faults{} : *faults;
}

/// The places of all faults, in their order.
inline std::vector<std::string> places(const colony::Faults& faults) {
  std::vector<std::string> result;
  for (const colony::Fault& fault : faults) result.push_back(fault.place);
  return result;
}

/// A single fault at this place whose `what` and `mend` hold these words.
inline testing::Matcher<const colony::Faults&> one_fault(const std::string& place,
                                                         const std::string& what,
                                                         const std::string& mend) {
  using colony::Fault;
  return testing::ElementsAre(
      testing::AllOf(testing::Field("place", &Fault::place, place),
                     testing::Field("what", &Fault::what, testing::HasSubstr(what)),
                     testing::Field("mend", &Fault::mend, testing::HasSubstr(mend))));
}

}  // namespace likelihet::support
