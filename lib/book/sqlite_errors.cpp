// Which of SQLite's result codes means what, and the sentence for it.
#include <cerrno>
#include <string>

#include <sqlite3.h>

#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book {
namespace {

std::string advice(BookTrouble trouble) {
  switch (trouble) {
    case BookTrouble::locked:
      return "another process is writing to the book; try again when it is done";
    case BookTrouble::storage:
      return "the book could not be read or written; check the free space, the permissions and "
             "the disk. The book is as it was before";
    case BookTrouble::not_a_book:
      return "the file is not a book";
    default:
      return "the book is damaged; work on from a copy made before";
  }
}

}  // namespace

BookTrouble trouble_of(int result_code) {
  switch (result_code & 0xff) {  // the low byte of an extended code is the primary one
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return BookTrouble::locked;
    case SQLITE_FULL:
    case SQLITE_READONLY:
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
    case SQLITE_NOLFS:
    case SQLITE_NOMEM:
    case SQLITE_TOOBIG:
    case SQLITE_PROTOCOL:
      return BookTrouble::storage;
    default:
      // SQLITE_CORRUPT and SQLITE_NOTADB; and SQLITE_ERROR, SQLITE_CONSTRAINT, SQLITE_MISMATCH,
      // which a book with tables of this version and records checked before cannot raise.
      return BookTrouble::damaged;
  }
}

bool reading_failed(SQLite::Database& database) {
  const auto failed = [](int error) { return error == EIO || error == ENXIO || error == ERANGE; };
  int error = 0;
  sqlite3* const handle = database.getHandle();
  if (sqlite3_file_control(handle, "main", SQLITE_FCNTL_LAST_ERRNO, &error) == SQLITE_OK &&
      failed(error)) {
    return true;
  }
  sqlite3_file* log = nullptr;
  if (sqlite3_file_control(handle, "main", SQLITE_FCNTL_JOURNAL_POINTER,
                           static_cast<void*>(&log)) != SQLITE_OK ||
      log == nullptr || log->pMethods == nullptr) {
    return false;
  }
  error = 0;
  return log->pMethods->xFileControl(log, SQLITE_FCNTL_LAST_ERRNO, &error) == SQLITE_OK &&
         failed(error);
}

BookError unread(const std::filesystem::path& file, const std::string& detail) {
  return {BookTrouble::storage, file.string() +
                                    ": the disk could not be read, which says nothing of the book; "
                                    "try again, and check the disk if it goes on (" +
                                    detail + ")"};
}

BookError book_error(const std::filesystem::path& file, const SQLite::Exception& error,
                     bool disk_failed) {
  if (disk_failed && trouble_of(error.getErrorCode()) == BookTrouble::damaged) {
    return unread(file, std::string("SQLite: ") + error.what());
  }
  const BookTrouble trouble = trouble_of(error.getErrorCode());
  return {trouble, file.string() + ": " + advice(trouble) + " (SQLite: " + error.what() + ")"};
}

BookError damaged(const std::filesystem::path& file, const std::string& what) {
  return {BookTrouble::damaged, file.string() + ": " + what + "; " + advice(BookTrouble::damaged)};
}

}  // namespace likelihet::book
