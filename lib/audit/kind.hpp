// Kinds of outcome.
#pragma once

#include <cstdint>

namespace likelihet::audit {

/// What made the truth known: a result on the animal, its offspring, what it looks like, or records
/// of relatives that are not its offspring. Different references, kept apart (docs/method.md).
enum class Kind : std::uint8_t { test, breeding, visual, relatives };

/// Its word in documents.
const char* code_of(Kind kind);

}  // namespace likelihet::audit
