// The policy of a book.
#include "policy_of_book.hpp"

namespace likelihet::cli {

colony::Policy policy_of(const book::Book& /*book*/) {
  return {};
}

}  // namespace likelihet::cli
