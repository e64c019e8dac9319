// What is wrong with an input, where, and how to mend it. Faults are values, not exceptions: one
// reading of a document tells all of them.
#pragma once

#include <string>
#include <vector>

namespace likelihet::colony {

/// One fault in a document, a table or a command's values. `mend` may be empty where `what` says it
/// all.
struct Fault {
  std::string place;  ///< JSON Pointer (RFC 6901), "FILE row R column C", or "book: animal F01"
  std::string what;   ///< what is wrong, with the value found
  std::string mend;   ///< how fix: what is allowed, or the nearest known id

  friend bool operator==(const Fault&, const Fault&) = default;
};

/// In the order in which they were found, mostly that of the input. Empty: nothing is wrong.
using Faults = std::vector<Fault>;

}  // namespace likelihet::colony
