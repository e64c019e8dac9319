// The faults found so far, as readers and validators collect them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <likelihet/colony/fault.hpp>

namespace likelihet::colony {

/// Keeps the first 1000 faults and counts the rest: a table read with the wrong columns has one a
/// row, and nobody reads them all.
class FaultList {
 public:
  /// The summary of the rest comes on top of these.
  static constexpr std::size_t most_kept = 1000;

  /// The four parts of every message: where, what is wrong with the value found, what is allowed.
  /// Beyond most_kept the words are thrown away: ask counted_only() or full() first where making
  /// them costs.
  void add(std::string place, std::string what, std::string mend);
  /// If no more faults are kept: counts one and says so. Spares the work of wording it. False: the
  /// caller must add() its fault. True: the fault has been counted already.
  bool counted_only();
  /// Whether further faults are only counted, so that their words need not be made.
  [[nodiscard]] bool full() const { return faults_.size() >= most_kept; }
  [[nodiscard]] bool empty() const { return faults_.empty(); }
  /// All that were found, kept or not.
  [[nodiscard]] std::size_t count() const { return faults_.size() + left_out_; }

  /// suggestion() of nearest.hpp, as long as searching stays cheap: after about two million
  /// comparisons only the number of known ones is told. Empty once faults are only counted.
  std::string suggest(std::string_view word, const std::vector<std::string>& known);
  /// The same for records or elements of a model, which have an `id`.
  template <class List>
  std::string suggest_id(std::string_view word, const List& list) {
    std::vector<std::string> known;
    if (list.size() > comparisons_left_) return many_known(list.size());
    for (const auto& element : list) {
      if constexpr (requires { element.id(); }) {
        known.push_back(element.id());
      } else {
        known.push_back(element.id);
      }
    }
    return suggest(word, known);
  }

  /// All faults; the last says how many more there were.
  [[nodiscard]] Faults take();

 private:
  static std::string many_known(std::size_t count);

  Faults faults_;
  std::size_t left_out_ = 0;
  std::size_t comparisons_left_ = 2'000'000;
};

}  // namespace likelihet::colony
