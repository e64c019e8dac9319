// What listings of a book are made from, kept together while they are made.
#pragma once

#include <vector>

#include "arguments.hpp"
#include "learned_tables.hpp"

#include <likelihet/book/book.hpp>
#include <likelihet/publishing/listing.hpp>

namespace likelihet::cli {

/// One state of a book: its colony, policy and learned tables where they are fresh and no earlier
/// day is asked for. Not movable: ground() points into it.
class BookGround {
 public:
  BookGround(book::Snapshot book, const odds::Options& options);
  BookGround(const BookGround&) = delete;
  BookGround& operator=(const BookGround&) = delete;

  [[nodiscard]] const colony::Colony& colony() const { return book_.colony; }
  [[nodiscard]] const publishing::Ground& ground() const { return ground_; }
  [[nodiscard]] TablesUsed tables_used() const { return tables_.used; }
  [[nodiscard]] bool learned() const { return ground_.learned != nullptr; }
  /// The evidence that all of it is made from, and the ledger's last number then.
  [[nodiscard]] const book::Evidence& evidence() const { return book_.evidence; }
  [[nodiscard]] const book::Snapshot& book() const { return book_; }

 private:
  book::Snapshot book_;
  Chosen tables_;
  publishing::Ground ground_;
};

}  // namespace likelihet::cli
