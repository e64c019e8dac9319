// Looks a book's policy up.
#include "policy_of.hpp"

namespace likelihet::cli {

colony::Policy policy_of(const book::Book& /*book*/) {
  return {};
}

}  // namespace likelihet::cli
