// Opening the keeper's book, and telling what that changed.
#pragma once

#include <string>

#include <likelihet/book/book.hpp>

namespace likelihet::cli {

/// Book::open(). Says in one line on standard error where a book of an earlier version was brought
/// up to date, and where the copy of it lies.
book::Book open_book(const std::string& file);

}  // namespace likelihet::cli
