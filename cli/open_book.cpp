// Opening a book, with a line where it was migrated.
#include "open_book.hpp"

#include "printable.hpp"
#include "standard_streams.hpp"
#include <fmt/format.h>

namespace likelihet::cli {

book::Book open_book(const std::string& file) {
  auto book = book::Book::open(file);
  if (const auto done = book.migrated()) {
    write_standard_error(
        fmt::format("{} was brought from version {} to {}; as it was, it is in {}\n",
                    printable(file), done->from, done->to, printable(done->copy.string())));
  }
  return book;
}

}  // namespace likelihet::cli
