// Reading a book that this user may not write, without leaving a file beside it.
#pragma once

#include <chrono>
#include <filesystem>
#include <string>

#include <SQLiteCpp/Database.h>

namespace likelihet::book {

/// The name that SQLite gets: absolute, so that none reads as ":memory:" or "file:...".
std::string name_of(const std::filesystem::path& file);

/// A connection that reads and creates nothing: files beside a book that another user made would
/// keep its owner out of it. Where the book has a write-ahead log in use, its shared memory is read
/// as it is; without one the book is whole in its one file, and a copy in memory is read. Throws
/// BookError{storage} where changes lie in a log that cannot be taken up without writing, and
/// SQLite::Exception (SQLite documentation, "Write-Ahead Logging", read-only databases, and "URI
/// Filenames", readonly_shm).
SQLite::Database connect_read_only(const std::filesystem::path& file,
                                   std::chrono::milliseconds patience);

}  // namespace likelihet::book
