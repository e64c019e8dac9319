// Adding records to a book: what they change, checked with all the book holds before any is
// written.
#include <optional>
#include <utility>

#include <SQLiteCpp/Transaction.h>

#include <likelihet/book/book_state.hpp>
#include <likelihet/book/ledger_rows.hpp>
#include <likelihet/book/merging.hpp>
#include <likelihet/book/records_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book {

using colony::Colony;
using colony::Faults;

namespace {

void write_animals(const SQLite::Database& database, const Merged& merged, LedgerWriter& ledger) {
  AnimalWriter writer(database);
  const auto& animals = merged.records.animals;
  for (const Completion& completion : merged.animals) {
    writer.complete(animals[completion.at], completion.known);
    ledger.add("animal completed", animals[completion.at].id, completion.fields);
  }
  for (std::size_t i = merged.old_animals; i < animals.size(); ++i) {
    writer.add(animals[i]);
    ledger.add("animal added", animals[i].id);
  }
}

void write_clutches(const SQLite::Database& database, const Merged& merged, LedgerWriter& ledger) {
  ClutchWriter writer(database);
  const auto& clutches = merged.records.clutches;
  for (const Completion& completion : merged.clutches) {
    writer.complete(clutches[completion.at], completion.known == 0);
    ledger.add("clutch completed", clutches[completion.at].id, completion.fields);
  }
  for (std::size_t i = merged.old_clutches; i < clutches.size(); ++i) {
    writer.add(clutches[i]);
    ledger.add("clutch added", clutches[i].id);
  }
}

void write_observations(const SQLite::Database& database, const Merged& merged,
                        LedgerWriter& ledger) {
  ObservationWriter writer(database);
  const auto& observations = merged.records.observations;
  for (std::size_t i = merged.old_observations; i < observations.size(); ++i) {
    writer.add(observations[i]);
    ledger.add("observation added", observations[i].id);
  }
}

void write_merged(const SQLite::Database& database, const Merged& merged,
                  const colony::Timestamp& at) {
  LedgerWriter ledger(database, at);
  write_animals(database, merged, ledger);
  write_clutches(database, merged, ledger);
  write_observations(database, merged, ledger);
}

/// Records put on top of the book's, and the colony of them all where nothing is wrong.
struct OnTop {
  Merged merged;
  Faults faults;
  std::optional<Colony> colony;
};

OnTop on_top(std::shared_ptr<const colony::Model> model, colony::Records known,
             const colony::Records& added, const colony::Timestamp& now) {
  OnTop out{merge(std::move(known), added, now), {}, {}};
  out.faults = out.merged.take_faults();
  auto made = Colony::make(std::move(model), out.merged.records);
  if (auto* misfits = std::get_if<Faults>(&made)) {
    out.faults.insert(out.faults.end(), misfits->begin(), misfits->end());
  } else {
    out.colony = std::get<Colony>(std::move(made));
  }
  return out;
}

std::string free_id(const Colony& colony) {
  std::size_t number = colony.observations().size() + 1;
  const auto id = [&] { return "o" + std::to_string(number); };
  while (colony.find_observation(id())) ++number;
  return id();
}

}  // namespace

std::variant<Change, Faults> Book::add(const colony::Records& records, Mode mode) {
  return state_->guarded([&]() -> std::variant<Change, Faults> {
    SQLite::Transaction transaction(state_->database(), behaviour(mode));
    const colony::Timestamp now = state_->settings().clock();
    const OnTop whole = on_top(state_->model(), state_->records(), records, now);
    if (!whole.faults.empty()) return whole.faults;
    if (mode == Mode::commit) {
      write_merged(state_->database(), whole.merged, now);
      transaction.commit();
    }
    return whole.merged.change();
  });
}

std::variant<Recorded, Faults> Book::record(colony::ObservationRecord observation) {
  return state_->guarded([&]() -> std::variant<Recorded, Faults> {
    SQLite::Transaction transaction(state_->database(), SQLite::TransactionBehavior::IMMEDIATE);
    const colony::Timestamp now = state_->settings().clock();
    colony::Records known = state_->records();
    Colony before = state_->colony_of(known);
    if (observation.id.empty()) observation.id = free_id(before);
    OnTop whole = on_top(state_->model(), std::move(known), {{}, {}, {observation}}, now);
    if (!whole.faults.empty()) return std::move(whole.faults);
    Recorded recorded{observation.id, whole.merged.change(), std::move(before),
                      std::move(whole.colony.value())};
    write_merged(state_->database(), whole.merged, now);
    transaction.commit();
    return recorded;
  });
}

}  // namespace likelihet::book
