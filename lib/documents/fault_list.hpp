// Faults as a reader collects them: all of them counted, the first thousand kept.
#pragma once

#include <cstddef>
#include <string>

#include <likelihet/colony/fault.hpp>

namespace likelihet::documents {

/// A broken table can have a fault a cell; nobody reads a million, so the first are kept and the
/// rest counted.
class FaultList {
 public:
  static constexpr std::size_t limit = 1000;

  /// Counts it, and keeps it while there is room.
  void add(std::string place, std::string what, std::string mend);
  [[nodiscard]] bool empty() const { return count_ == 0; }
  /// True once further faults are only counted, so that their words need not be made.
  [[nodiscard]] bool full() const { return count_ >= limit; }
  /// At most `limit` faults; where there were more, the last says how many it stands for.
  [[nodiscard]] colony::Faults take();

 private:
  colony::Faults kept_;
  std::size_t count_ = 0;
};

}  // namespace likelihet::documents
