// Reads what a book holds, documents into values.
#include <likelihet/book/book_state.hpp>
#include <likelihet/book/claim_rows.hpp>
#include <likelihet/book/learned_rows.hpp>
#include <likelihet/book/ledger_rows.hpp>
#include <likelihet/book/records_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::book {

using colony::Faults;
using colony::Model;

std::string first_of(const Faults& faults) {
  return faults.empty() ? "" : ": " + faults.front().place + ": " + faults.front().what;
}

SQLite::TransactionBehavior behaviour(Mode mode) {
  return mode == Mode::commit ? SQLite::TransactionBehavior::IMMEDIATE
                              : SQLite::TransactionBehavior::DEFERRED;
}

std::optional<Migrated> Book::migrated() const {
  return state_->connection().migrated();
}

std::shared_ptr<const Model> Book::State::model() {
  const auto text = read_model_text(database());
  if (!text) {
    throw damaged(file_, "the book has no model");
  }
  if (!model_ || *text != model_text_) {
    auto model = Model::make(model_of(*text));
    if (const auto* faults = std::get_if<Faults>(&model)) {
      throw damaged(file_, "the book's model is not sound" + first_of(*faults));
    }
    model_ = std::make_shared<const Model>(std::get<Model>(std::move(model)));
    model_text_ = *text;
  }
  return model_;
}

colony::Policy Book::State::policy() {
  return policy_of(read_policy_text(database()));
}

colony::Records Book::State::records() {
  return {read_animals(database(), file_), read_clutches(database(), file_),
          read_observations(database(), file_)};
}

colony::Colony Book::State::colony_of(const colony::Records& records) {
  auto made = colony::Colony::make(model(), records);
  if (const auto* faults = std::get_if<Faults>(&made)) {
    throw damaged(file_, "the book's records do not fit" + first_of(*faults));
  }
  return std::get<colony::Colony>(std::move(made));
}

Snapshot Book::State::snapshot() {
  Evidence evidence{last_entry(database()), model()->description(), records(), policy()};
  colony::Colony colony = colony_of(evidence.records);
  return {std::move(evidence), std::move(colony), read_learned(database()),
          read_claims(database(), file_)};
}

colony::ModelDescription Book::State::model_of(const std::string& text) const {
  auto description = documents::read_model(text);
  if (const auto* faults = std::get_if<Faults>(&description)) {
    throw damaged(file_, "the book's model cannot be read" + first_of(*faults));
  }
  return std::get<colony::ModelDescription>(std::move(description));
}

colony::Policy Book::State::policy_of(const std::optional<std::string>& text) const {
  if (!text) return {};
  auto policy = documents::read_policy(*text);
  if (const auto* faults = std::get_if<Faults>(&policy)) {
    throw damaged(file_, "the book's policy cannot be read" + first_of(*faults));
  }
  return std::get<colony::Policy>(std::move(policy));
}

}  // namespace likelihet::book
