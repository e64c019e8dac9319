// The faults found so far, and the checks that models and colonies share. Private to the layer.
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
  static constexpr std::size_t most_kept = 1000;

  /// The four parts of every message: where, what is wrong with the value found, what is allowed.
  void add(std::string place, std::string what, std::string mend);
  /// If no more faults are kept: counts one and says so. Spares the work of wording it.
  bool counted_only();
  [[nodiscard]] bool empty() const { return faults_.empty(); }
  /// All that were found, kept or not.
  [[nodiscard]] std::size_t count() const { return faults_.size() + left_out_; }

  /// suggestion() of nearest.hpp, as long as searching stays cheap: after about two million
  /// comparisons only the number of known ones is told.
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

/// 1 to 200 bytes and no control character.
bool good_id(std::string_view id);

/// Adds a fault unless `id` has 1 to 200 bytes and no control character. `name` is what is named,
/// such as "locus".
void check_id(std::string_view id, const std::string& name, const std::string& place,
              FaultList& faults);

/// Adds a fault unless `value` is in [0, 1].
void check_unit_interval(double value, const std::string& name, const std::string& place,
                         FaultList& faults);

/// Adds a fault unless `value` is finite and 0 or more.
void check_not_negative(double value, const std::string& name, const std::string& place,
                        FaultList& faults);

/// Adds a fault unless `sum`, of probabilities that are each in [0, 1], is 1 within 1e-9.
void check_sums_to_one(double sum, const std::string& name, const std::string& place,
                       FaultList& faults);

/// Whether a sum of probabilities is 1 within the 1e-9 that documents may be off by rounding.
bool is_one(double sum);

}  // namespace likelihet::colony
