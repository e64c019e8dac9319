// The policy that a book goes by.
#pragma once

#include <likelihet/book/book.hpp>
#include <likelihet/colony/policy.hpp>

namespace likelihet::cli {

/// The book's own policy; where it has none, the default.
colony::Policy policy_of(const book::Book& book);

}  // namespace likelihet::cli
