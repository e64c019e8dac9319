// Looks at a file before SQLite does: whether it can be a book at all.
#pragma once

#include <filesystem>

#include <likelihet/book/book_error.hpp>

namespace likelihet::book {

/// Returns if `file` is a regular file that starts as a book of a version up to `newest` does;
/// reads its first 100 bytes and changes nothing. Throws BookError: missing; storage (no
/// permission); not_a_book (directory, socket, FIFO, device, empty or other file, another program's
/// database); newer_version; damaged (cut off within the header). The application id and the
/// version are read at offsets 68 and 60 (SQLite documentation, "Database File Format").
void require_book(const std::filesystem::path& file, int newest);

/// The BookError for a book of version `found` where versions up to `newest` are known. Made here
/// since a version may also turn up later, in a log beside the file.
BookError newer_version(const std::filesystem::path& file, int found, int newest);

}  // namespace likelihet::book
