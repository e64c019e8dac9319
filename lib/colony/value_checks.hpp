// The checks of ids and numbers that models and colonies share. Private to the layer. What each
// says is worded for any document or table; `place` and `name` make it particular.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include <likelihet/colony/fault_list.hpp>

namespace likelihet::colony {

/// 1 to 200 bytes and no control character. Control characters are C0, DEL and, in UTF-8, C1. An id
/// may hold any other character, a space or a quote too.
bool good_id(std::string_view id);

/// Adds a fault unless `id` has 1 to 200 bytes and no control character. `name` is what is named,
/// such as "locus".
void check_id(std::string_view id, const std::string& name, const std::string& place,
              FaultList& faults);

/// Adds a fault unless `value` is in [0, 1]. NaN is a fault, here and below.
void check_unit_interval(double value, const std::string& name, const std::string& place,
                         FaultList& faults);

/// Adds a fault unless `value` is finite and 0 or more.
void check_not_negative(double value, const std::string& name, const std::string& place,
                        FaultList& faults);

/// The most that a belief may be worth, in observations: beyond it nothing a book holds could move
/// it, and the quantiles of its distribution are lost to rounding.
inline constexpr double most_worth = 1e9;
/// Viabilities above 0 are within these, so that no sum over genotypes is lost.
inline constexpr double least_viability = 1e-250;
inline constexpr double most_viability = 1e9;
/// The most offspring of one appearance that one brood may count.
inline constexpr std::int64_t most_counted = 1'000'000;

/// Adds a fault if `value` is above `most`; what is not a number is left to the checks above.
void check_at_most(double value, double most, const std::string& name, const std::string& place,
                   FaultList& faults);

/// Adds a fault unless `sum`, of probabilities that are each in [0, 1], is 1 within 1e-9.
void check_sums_to_one(double sum, const std::string& name, const std::string& place,
                       FaultList& faults);

/// Whether a sum of probabilities is 1 within the 1e-9 that documents may be off by rounding.
bool is_one(double sum);

}  // namespace likelihet::colony
