// An open book: reads its records, and changes it in transactions that hold or leave no trace.
#include <utility>

#include <SQLiteCpp/Transaction.h>

#include <likelihet/book/book.hpp>
#include <likelihet/book/book_error.hpp>
#include <likelihet/book/book_state.hpp>
#include <likelihet/book/checking.hpp>
#include <likelihet/book/learned_rows.hpp>
#include <likelihet/book/ledger_rows.hpp>
#include <likelihet/book/merging.hpp>
#include <likelihet/book/records_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::book {

using colony::Colony;
using colony::Faults;
using colony::Model;
using colony::Records;
using std::filesystem::path;

namespace {

/// Faults of the policy that the book holds, when a new model does not fit it.
Faults in_the_book(Faults faults) {
  for (colony::Fault& fault : faults) {
    fault.place = "book: policy, " + fault.place;
    fault.mend = "replace the policy first: " + fault.mend;
  }
  return faults;
}

}  // namespace

Book::Book(std::unique_ptr<State> state) : state_(std::move(state)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Book Book::create(const path& file, const Model& model) {
  return Opener::create(file, model, Settings());
}

Book Book::open(const path& file) {
  return Opener::open(file, Settings());
}

Book Opener::create(const path& file, const Model& model, Settings settings) {
  return translated(file, [&] {
    Connection connection = Connection::create(
        file, settings, documents::write_model(model.description()), model.description().name);
    return Book(std::make_unique<Book::State>(file, std::move(settings), std::move(connection)));
  });
}

Book Opener::open(const path& file, Settings settings) {
  return translated(file, [&] {
    Connection connection = Connection::open(file, settings);
    Book book(std::make_unique<Book::State>(file, std::move(settings), std::move(connection)));
    // A book that cannot be used is refused here.
    book.state_->guarded([&] { return book.state_->model(); });
    return book;
  });
}

std::shared_ptr<const Model> Book::model() const {
  return state_->guarded([&] { return state_->model(); });
}

Records Book::records() const {
  return state_->guarded([&] {
    const Reading reading(state_->database());
    return state_->records();
  });
}

Colony Book::colony() const {
  return state_->guarded([&] {
    const Reading reading(state_->database());
    return state_->colony_of(state_->records());
  });
}

Snapshot Book::snapshot() const {
  return state_->guarded([&] {
    const Reading reading(state_->database());
    return state_->snapshot();
  });
}

std::variant<Change, Faults> Book::replace_model(const Model& model, Mode mode) {
  return state_->guarded([&]() -> std::variant<Change, Faults> {
    SQLite::Transaction transaction(state_->database(), behaviour(mode));
    const std::string text = documents::write_model(model.description());
    const auto old = read_model_text(state_->database());
    Change change;
    if (old == text) {
      return change;
    }
    auto made = Colony::make(std::make_shared<const Model>(model), state_->records());
    if (auto* faults = std::get_if<Faults>(&made)) {
      return std::move(*faults);
    }
    if (Faults faults = colony::policy_faults(state_->policy(), model); !faults.empty()) {
      return in_the_book(std::move(faults));
    }
    if (mode == Mode::commit) {
      LedgerWriter(state_->database(), state_->settings().clock())
          .add("model replaced", model.description().name, old);
      update_model(state_->database(), text);
      transaction.commit();
    }
    change.model_replaced = true;
    return change;
  });
}

std::optional<LearnedRecord> Book::learned() const {
  return state_->guarded([&] { return read_learned(state_->database()); });
}

void Book::keep_learned(const LearnedRecord& learned) {
  state_->guarded([&] {
    SQLite::Transaction transaction(state_->database(), SQLite::TransactionBehavior::IMMEDIATE);
    LedgerWriter(state_->database(), state_->settings().clock()).add("learned", learned.digest);
    replace_learned(state_->database(), learned);
    transaction.commit();
  });
}

std::vector<LedgerEntry> Book::ledger() const {
  return state_->guarded([&] { return read_ledger(state_->database(), state_->file()); });
}

Faults Book::check() const {
  Faults faults;
  try {
    state_->guarded([&] {
      const Reading reading(state_->database());
      faults = check_storage(state_->database(), state_->settings().migrations);
      Faults more = check_ledger(state_->database());
      faults.insert(faults.end(), more.begin(), more.end());
      auto made = Colony::make(state_->model(), state_->records());
      if (auto* misfits = std::get_if<Faults>(&made)) {
        faults.insert(faults.end(), misfits->begin(), misfits->end());
      }
      if (const auto learned = read_learned(state_->database()); learned && !learned->sound) {
        faults.push_back({"book: learned tables", "they are not what was learned",
                          "run 'likelihet learn' again; until then the model's own are used"});
      }
      more = in_the_book(colony::policy_faults(state_->policy(), *state_->model()));
      faults.insert(faults.end(), more.begin(), more.end());
    });
    if (!faults.empty() && reading_failed(state_->database())) {
      throw unread(state_->file(), faults.front().what);
    }
  } catch (const BookError& error) {
    if (error.trouble() != BookTrouble::damaged) {
      throw;
    }
    faults.push_back({"book: file", error.what(), "work on from a copy made before"});
  }
  return faults;
}

}  // namespace likelihet::book
