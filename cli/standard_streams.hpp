// Standard output and standard error, every failure of which is told.
#pragma once

#include <string_view>

namespace likelihet::cli {

/// Makes descriptors 0 to 2 be taken, so that a book opened later can't become standard output
/// where that was closed, and lets a write to a closed pipe fail instead of ending the program.
void guard_standard_streams();

enum class Written {
  all,
  reader_gone,  ///< whoever read the pipe has seen enough (`| head`)
  failed,       ///< a full disk, a closed descriptor
};
Written write_standard_output(std::string_view text);
Written write_standard_error(std::string_view text);

}  // namespace likelihet::cli
