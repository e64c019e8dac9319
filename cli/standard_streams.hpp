// Standard output and standard error, every failure of which is told.
#pragma once

#include <string_view>

namespace likelihet::cli {

/// Makes descriptors 0 to 2 be taken, so that a book opened later can't become standard output
/// where that was closed, and lets a write to a closed pipe fail instead of ending the program.
/// Call it before anything is opened. A stream that was closed stays unusable: it is opened the
/// wrong way round.
void guard_standard_streams();

/// A reader that went away is no fault to tell, though nothing more can be said to it.
enum class Written {
  all,
  reader_gone,  ///< whoever read the pipe has seen enough (`| head`)
  failed,       ///< a full disk, a closed descriptor
};
/// Unbuffered, in as few writes as the system takes; goes on after a signal.
Written write_standard_output(std::string_view text);
Written write_standard_error(std::string_view text);

}  // namespace likelihet::cli
