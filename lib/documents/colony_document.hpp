// The colony document ("likelihet-colony", version 1) in and out. Form only: words, types and
// fields. A document of any size up to 1 GiB is read whole.
#pragma once

#include <string>
#include <string_view>
#include <variant>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

/// Which document a text says that it is, by its "format". Decided by the text alone, never by a
/// file's name.
enum class Format { model, colony, policy, unknown };

/// Reads no further than "format", so that a document that is broken later on is still reported as
/// the document that it is; `unknown` where there is none, or none of ours. The first "format" of
/// the outermost object counts. Costs as much as the text before it is long.
Format format_of(std::string_view text);

/// Reads a colony document; faults as for read_model. Each record's place is its JSON Pointer. What
/// the records mean together is checked by colony::Colony::make. Either all records or faults,
/// never some of both. Ids are taken as they are; `entered` is never set.
std::variant<colony::Records, colony::Faults> read_colony(std::string_view text);

/// Writes one: a record a line, in their order; `entered` is written as `recorded` where an
/// observation has neither `on` nor `recorded`, and left out elsewhere. What is written reads back
/// equal but for times of entry. All three lists are there, empty or not, and a score without a
/// level has a null one.
std::string write_colony(const colony::Records& records);

}  // namespace likelihet::documents
