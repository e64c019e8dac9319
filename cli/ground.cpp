// Reads a book for listings.
#include "ground.hpp"

#include "failure.hpp"
#include "today.hpp"

namespace likelihet::cli {

namespace {

colony::Colony colony_of(const book::Evidence& evidence) {
  auto model = colony::Model::make(evidence.model);
  if (auto* faults = std::get_if<colony::Faults>(&model)) {
    throw Failure(ExitStatus::input, std::move(*faults));
  }
  auto colony = colony::Colony::make(
      std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model))),
      evidence.records);
  if (auto* faults = std::get_if<colony::Faults>(&colony)) {
    throw Failure(ExitStatus::input, std::move(*faults));
  }
  return std::get<colony::Colony>(std::move(colony));
}

}  // namespace

BookGround::BookGround(const book::Book& book, const odds::Options& options)
    : evidence_(book.evidence()),
      colony_(colony_of(evidence_)),
      tables_(choose_tables(book, "", options.as_of.has_value())) {
  ground_.colony = &colony_;
  ground_.policy = &evidence_.policy;
  if (tables_.used == TablesUsed::learned) ground_.learned = &tables_.draws;
  ground_.memory_bytes = options.memory_bytes;
  ground_.as_of = options.as_of;
  ground_.day = options.as_of ? *options.as_of : today();
}

}  // namespace likelihet::cli
