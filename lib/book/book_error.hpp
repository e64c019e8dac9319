// Why a book could not be opened, read or written.
#pragma once

#include <stdexcept>
#include <string>

namespace likelihet::book {

/// What a caller may want to act on; the message says the rest.
enum class BookTrouble {
  missing,        ///< no such file
  exists,         ///< init would overwrite a file
  not_a_book,     ///< a directory, a socket, no SQLite file, or another program's database
  newer_version,  ///< written by a newer likelihet; left untouched
  damaged,        ///< SQLite or our own checks find it corrupt
  locked,         ///< another process is writing, and went on past the waiting time
  storage,        ///< disk full, read-only, no permission, input/output error
};

/// The message names the file, what is wrong, and what to do. What the layer throws; SQLite's own
/// exceptions do not leave it. After it the book is as it was before the call.
class BookError : public std::runtime_error {
 public:
  BookError(BookTrouble trouble, const std::string& message)
      : std::runtime_error(message), trouble_(trouble) {}
  [[nodiscard]] BookTrouble trouble() const { return trouble_; }

 private:
  BookTrouble trouble_;
};

}  // namespace likelihet::book
