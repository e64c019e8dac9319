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

/// No outcome, few outcomes, outcomes of one kind, few clutches, several kinds of outcome together,
/// testing that looks selected with few low scores among the tested, no blind reading. In that
/// order.
std::vector<Warning> warnings_of(const Audit& audit);

}  // namespace likelihet::audit
