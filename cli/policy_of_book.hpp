// What the keeper has decided, as far as the book holds it.
#pragma once

#include <likelihet/book/book.hpp>
#include <likelihet/colony/policy.hpp>

namespace likelihet::cli {

/// The policy that commands go by. Books hold none: it is the default one.
colony::Policy policy_of(const book::Book& book);

}  // namespace likelihet::cli
