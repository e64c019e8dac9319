// Turns SQLite's errors into BookError, so that nothing of SQLite leaves the layer.
#pragma once

#include <filesystem>
#include <utility>

#include <SQLiteCpp/Exception.h>

#include <likelihet/book/book_error.hpp>

namespace likelihet::book {

/// What a result code of SQLite (extended or not) means for a book. By the low byte, the primary
/// code (SQLite documentation, "Result and Error Codes"). What a sound book cannot raise counts as
/// damage.
BookTrouble trouble_of(int result_code);

/// The BookError for an error of SQLite's while working on `file`.
BookError book_error(const std::filesystem::path& file, const SQLite::Exception& error);

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

}  // namespace likelihet::book
