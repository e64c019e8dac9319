// Ctrl-C and its kin: what they leave behind is nothing.
#pragma once

#include <atomic>
#include <string>

#include "exit_status.hpp"

namespace likelihet::cli {

/// From now on SIGINT, SIGTERM and SIGHUP end the program at once with 128 + their number, after
/// removing the unfinished file if there is one. A book needs no more: a transaction cut short is
/// taken back by SQLite when the book is opened next. Call it before anything is opened.
void end_on_signals();

/// The name of a file being written, which a signal that ends the program removes. One at a time.
class UnfinishedFile {
 public:
  explicit UnfinishedFile(std::string name);
  ~UnfinishedFile();
  UnfinishedFile(const UnfinishedFile&) = delete;
  UnfinishedFile& operator=(const UnfinishedFile&) = delete;

 private:
  std::string name_;
};

/// While it lives the first of these signals sets a flag in place of ending the program; whoever
/// looks at the flag ends in good order. The second ends it at once.
class Interruption {
 public:
  Interruption();
  ~Interruption();
  Interruption(const Interruption&) = delete;
  Interruption& operator=(const Interruption&) = delete;

  [[nodiscard]] static const std::atomic<bool>& flag();
  /// What to end with once the flag is set.
  [[nodiscard]] static ExitStatus status();
};

}  // namespace likelihet::cli
