// A line on the terminal that says how far a long computation is.
#pragma once

#include <string>

namespace likelihet::cli {

/// Rewrites one line of standard error, where that is a terminal; elsewhere it writes nothing.
class ProgressLine {
 public:
  ProgressLine();
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  /// `done` in [0, 1].
  void show(double done, const std::string& words);

 private:
  bool terminal_;
  bool shown_ = false;
};

}  // namespace likelihet::cli
