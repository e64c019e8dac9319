// What an open book keeps: its connection, and the model read last. Private to the layer.
#pragma once

#include <memory>
#include <string>
#include <utility>

#include <SQLiteCpp/Transaction.h>

#include <likelihet/book/book.hpp>
#include <likelihet/book/connection.hpp>
#include <likelihet/book/settings.hpp>
#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book {

/// The first fault in one line, for a book that holds what does not fit.
std::string first_of(const colony::Faults& faults);

/// The connection, and the model read last. What the book holds is read again each time: another
/// process may have added to it.
class Book::State {
 public:
  State(std::filesystem::path file, Settings settings, Connection connection)
      : file_(std::move(file)),
        settings_(std::move(settings)),
        connection_(std::move(connection)) {}

  SQLite::Database& database() { return connection_.database(); }
  [[nodiscard]] const Connection& connection() const { return connection_; }
  [[nodiscard]] const std::filesystem::path& file() const { return file_; }
  [[nodiscard]] const Settings& settings() const { return settings_; }

  template <class Work>
  auto guarded(Work&& work) {
    return book::guarded(file_, database(), std::forward<Work>(work));
  }

  /// Throws BookError{damaged} where it is gone or cannot be read.
  std::shared_ptr<const colony::Model> model();
  /// The default where the book never had one; throws as model().
  colony::Policy policy();
  colony::Records records();
  /// The colony of model() and these records; throws BookError{damaged} where they do not fit.
  colony::Colony colony_of(const colony::Records& records);
  /// All of it as the open transaction sees it; throws as model() and colony_of().
  Snapshot snapshot();

  [[nodiscard]] colony::ModelDescription model_of(const std::string& text) const;
  [[nodiscard]] colony::Policy policy_of(const std::optional<std::string>& text) const;

 private:
  std::filesystem::path file_;
  Settings settings_;
  Connection connection_;
  std::shared_ptr<const colony::Model> model_;
  std::string model_text_;
};

/// IMMEDIATE to write, DEFERRED to rehearse: a rehearsal only reads, so that it works beside a
/// writer and on a file that is read-only.
SQLite::TransactionBehavior behaviour(Mode mode);

}  // namespace likelihet::book
