// What makes an audit hard to trust, in words.
#pragma once

#include <string>
#include <vector>

namespace likelihet::audit {

struct Audit;

struct Warning {
  std::string code;  ///< stable, for programs
  std::string text;  ///< one sentence or two, for people
};

/// No outcome, outcomes of one kind, few outcomes, few clutches, several kinds of outcome together,
/// results that left the truth open, testing that looks selected with few low scores among the
/// tested, no blind reading, seasons that were not blind. In that order.
std::vector<Warning> warnings_of(const Audit& audit);

}  // namespace likelihet::audit
