// Turns SQLite's errors into BookError, so that nothing of SQLite leaves the layer.
#pragma once

#include <filesystem>
#include <utility>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <likelihet/book/book_error.hpp>

namespace likelihet::book {

/// What a result code of SQLite (extended or not) means for a book. By the low byte, the primary
/// code (SQLite documentation, "Result and Error Codes"). What a sound book cannot raise counts as
/// damage.
BookTrouble trouble_of(int result_code);

/// Whether the operating system failed to read the book's file or its log in this connection's last
/// reading: SQLite then reports a page that it could not get as a damaged one.
bool reading_failed(SQLite::Database& database);

/// The BookError for an error of SQLite's while working on `file`; where the disk could not be
/// read, what looks like damage is told as a failed reading.
BookError book_error(const std::filesystem::path& file, const SQLite::Exception& error,
                     bool disk_failed = false);

/// A BookError{storage}: the disk could not be read, which says nothing of the book.
BookError unread(const std::filesystem::path& file, const std::string& detail);

/// A BookError{damaged} that says what is damaged and what to do.
BookError damaged(const std::filesystem::path& file, const std::string& what);

/// Runs `work` and passes on what it returns; SQLite's errors come out as BookError. BookErrors and
/// everything else pass through as they are.
template <class Work>
auto translated(const std::filesystem::path& file, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw book_error(file, error);
  }
}

/// As translated(), and tells a disk that cannot be read from a damaged book.
template <class Work>
auto guarded(const std::filesystem::path& file, SQLite::Database& database, Work&& work) {
  try {
    return std::forward<Work>(work)();
  } catch (const SQLite::Exception& error) {
    throw book_error(file, error, reading_failed(database));
  }
}

}  // namespace likelihet::book
