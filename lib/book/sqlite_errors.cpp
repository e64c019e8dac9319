// Which of SQLite's result codes means what, and the sentence for it.
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
      return "the file is no book";
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

BookError book_error(const std::filesystem::path& file, const SQLite::Exception& error) {
  const BookTrouble trouble = trouble_of(error.getErrorCode());
  return {trouble, file.string() + ": " + advice(trouble) + " (SQLite: " + error.what() + ")"};
}

BookError damaged(const std::filesystem::path& file, const std::string& what) {
  return {BookTrouble::damaged, file.string() + ": " + what + "; " + advice(BookTrouble::damaged)};
}

}  // namespace likelihet::book
