// Whether markers have earned a say in what is published. Private to the layer.
#pragma once

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

#include <likelihet/publishing/listing.hpp>

namespace likelihet::publishing {

/// How the forecasts at one locus came true, out of those of the audit: as they stood, of animals
/// on which markers were read.
Record record_of(const colony::Colony& colony, const audit::Forecasts& forecasts,
                 std::size_t locus);

/// What a record lacks of what the policy asks, each as words with its figures; empty: markers
/// count.
std::vector<std::string> lacking(const Record& record, const colony::MarkerPolicy& policy);

/// "12 of 20 outcomes known", and by what: "5 by test, 7 by breeding". Kinds are told apart.
std::string kinds_in_words(const Record& record);

/// How past percentages came true, as one sentence.
std::string record_in_words(const colony::Colony& colony, std::size_t locus, const Record& record);

}  // namespace likelihet::publishing
