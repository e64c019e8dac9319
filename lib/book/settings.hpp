// What a book takes from its surroundings: the clock, its patience, a size limit, the migrations.
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <vector>

#include <likelihet/book/book.hpp>
#include <likelihet/book/schema.hpp>
#include <likelihet/colony/date.hpp>

namespace likelihet::book {

/// The present moment in UTC, to the second, as RFC 3339 writes it ("2024-07-03T18:30:00Z"). Throws
/// std::runtime_error outside the years 0001 to 9999.
colony::Timestamp now_in_utc();

/// The defaults are what Book::create and Book::open use; tests put in their own. Copied into the
/// book that is opened with them.
struct Settings {
  /// Asked once for each change, so that all it adds has one time.
  std::function<colony::Timestamp()> clock = now_in_utc;
  /// How long to wait for another process before BookError{locked}.
  std::chrono::milliseconds patience{2000};
  /// The file may not grow over so many pages; BookError{storage} beyond it.
  std::optional<std::int64_t> page_limit;
  /// Every version of the schema, lowest first; the last is the one in use.
  std::vector<Migration> migrations = schema_migrations();
};

/// Makes and opens books with settings of one's own; otherwise as Book::create and Book::open.
struct Opener {
  static Book create(const std::filesystem::path& file, const colony::Model& model,
                     Settings settings);
  static Book open(const std::filesystem::path& file, Settings settings);
};

}  // namespace likelihet::book
