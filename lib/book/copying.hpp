// A copy of a book in another file, safe to make while others write to it, and checked.
#pragma once

#include <atomic>
#include <filesystem>

namespace likelihet::book {

enum class CopyEnd {
  done,
  stopped,  ///< `stop` was set; nothing is left of the copy
};

/// Copies one state of the book to a new file, by SQLite's backup interface, and looks that SQLite
/// finds the copy sound and that it holds the same as the book. The copy gets its name at the end
/// alone, is readable by no more people than the book, and is of the book's version: nothing is
/// migrated. Throws BookError as opening a book does; {exists} for any file at `to`, a link too;
/// {storage} where it cannot be written; {damaged} where the copy is not sound or not the same.
/// After an exception nothing is left at `to` or beside it.
CopyEnd copy_book(const std::filesystem::path& book, const std::filesystem::path& to,
                  const std::atomic<bool>* stop = nullptr);

/// Copies it to BOOK.before-vN, or to BOOK.before-vN-2 and so on where there is such a file; `next`
/// is N. Returns the copy's name.
std::filesystem::path copy_before_migration(const std::filesystem::path& book, int next);

}  // namespace likelihet::book
