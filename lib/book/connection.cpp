// Making, opening and migrating a book's file.
#include <algorithm>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <utility>

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <likelihet/book/book_error.hpp>
#include <likelihet/book/connection.hpp>
#include <likelihet/book/copying.hpp>
#include <likelihet/book/file_kind.hpp>
#include <likelihet/book/ledger_rows.hpp>
#include <likelihet/book/read_only.hpp>
#include <likelihet/book/schema.hpp>
#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book {
namespace {

namespace fs = std::filesystem;
using SQLite::TransactionBehavior;

void set_safeguards(SQLite::Database& database, const Settings& settings) {
  sqlite3* const handle = database.getHandle();
  sqlite3_extended_result_codes(handle, 1);
  sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  database.exec("PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON");
  database.exec("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
  if (settings.page_limit) {
    database.exec("PRAGMA max_page_count = " + std::to_string(*settings.page_limit));
  }
}

SQLite::Database connect(const std::string& name, int flags, const Settings& settings) {
  SQLite::Database database(name, flags, static_cast<int>(settings.patience.count()));
  set_safeguards(database, settings);
  return database;
}

/// Connects for reading and writing, or for reading alone where the file is write-protected.
SQLite::Database connect_to_existing(const fs::path& file, const Settings& settings) {
  if (::access(file.c_str(), W_OK) != 0) {
    SQLite::Database database = connect_read_only(file, settings.patience);
    set_safeguards(database, settings);
    return database;
  }
  SQLite::Database database(name_of(file), SQLite::OPEN_READWRITE,
                            static_cast<int>(settings.patience.count()));
  const auto prepare = [&] {
    set_safeguards(database, settings);
    schema_version(database);
  };
  guarded(file, database, prepare);
  return database;
}

/// Takes the file's name without ever overwriting: O_EXCL also refuses a dangling symbolic link.
void claim(const fs::path& file) {
  const int descriptor = ::open(file.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666);
  if (descriptor >= 0) {
    ::close(descriptor);
    return;
  }
  const int error = errno;
  if (error == EEXIST) {
    throw BookError(BookTrouble::exists, file.string() +
                                             ": there is such a file already, and it is not "
                                             "overwritten; choose another name");
  }
  throw BookError(BookTrouble::storage, file.string() + ": cannot be made (" +
                                            std::generic_category().message(error) +
                                            "); check the directory and its permissions");
}

void remove_claimed(const fs::path& file) {
  std::error_code ignored;
  for (const char* suffix : {"-journal", "-wal", "-shm", ""}) {
    fs::remove(file.string() + suffix, ignored);
  }
}

void fill_new(SQLite::Database& database, const Settings& settings, const std::string& model_text,
              const std::string& model_name) {
  SQLite::Transaction making(database, TransactionBehavior::IMMEDIATE);
  database.exec("PRAGMA application_id = " + std::to_string(application_id));
  migrate(database, settings.migrations);
  insert_model(database, model_text);
  LedgerWriter(database, settings.clock()).add("book made", model_name);
  making.commit();
}

/// A write-ahead log lets readers go on while one writes. Some file systems cannot have it; SQLite
/// then answers with the mode it kept, a rollback journal, which is as safe.
void prefer_write_ahead_log(SQLite::Database& database) {
  database.execAndGet("PRAGMA journal_mode = WAL");
}

// A step builds on all that the version says is there; a file that lacks some of it is not touched.
void require_parts_of(const SQLite::Database& database, const fs::path& file,
                      const Settings& settings, int version) {
  std::vector<Migration> until = settings.migrations;
  std::erase_if(until, [&](const Migration& step) { return step.to > version; });
  const auto present = schema_parts(database);
  for (const SchemaPart& part : expected_parts(until)) {
    if (std::find(present.begin(), present.end(), part) == present.end()) {
      throw damaged(file, "the book lacks its " + part.kind + " " + part.name);
    }
  }
}

std::optional<Migrated> bring_up_to_date(SQLite::Database& database, const fs::path& file,
                                         const Settings& settings) {
  const int newest = newest_version(settings.migrations);
  if (schema_version(database) == newest) {
    return std::nullopt;
  }
  SQLite::Transaction migrating(database, TransactionBehavior::IMMEDIATE);
  const int version = schema_version(database);  // another process may have migrated it since
  if (version > newest) {  // only in the log that lay beside the file; leave it there
    sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    throw newer_version(file, version, newest);
  }
  if (version < 1) {
    if (schema_parts(database).empty()) {
      // A kill while the book was made: SQLite has just taken back what was half written.
      throw BookError(BookTrouble::not_a_book,
                      file.string() +
                          ": the making of this book was cut short and it holds nothing; "
                          "remove the file and make the book again");
    }
    throw damaged(file, "the book has no version");
  }
  if (version == newest) return std::nullopt;
  require_parts_of(database, file, settings, version);
  Migrated done{version, newest, copy_before_migration(file, newest)};
  try {
    migrate(database, settings.migrations);
    migrating.commit();
  } catch (...) {
    std::error_code ignored;
    fs::remove(done.copy, ignored);  // the book is as it was: each try would leave another
    throw;
  }
  return done;
}

}  // namespace

Connection Connection::create(const fs::path& file, const Settings& settings,
                              const std::string& model_text, const std::string& model_name) {
  claim(file);
  try {
    SQLite::Database database = connect(name_of(file), SQLite::OPEN_READWRITE, settings);
    fill_new(database, settings, model_text, model_name);
    prefer_write_ahead_log(database);
    return Connection(std::move(database));
  } catch (...) {
    remove_claimed(file);  // the connection is closed by now
    throw;
  }
}

SQLite::Database Connection::raw(const fs::path& file, const Settings& settings) {
  return connect_to_existing(file, settings);
}

Connection Connection::open(const fs::path& file, const Settings& settings) {
  require_book(file, newest_version(settings.migrations));
  SQLite::Database database = connect_to_existing(file, settings);
  auto migrated =
      guarded(file, database, [&] { return bring_up_to_date(database, file, settings); });
  return Connection(std::move(database), std::move(migrated));
}

}  // namespace likelihet::book
