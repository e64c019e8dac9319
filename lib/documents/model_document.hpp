// The model document ("likelihet-model", version 1) in and out.
#pragma once

#include <string>
#include <string_view>
#include <variant>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model_description.hpp>

namespace likelihet::documents {

/// Reads a model document (RFC 8259, UTF-8). All faults of form are reported together: text that is
/// no JSON (line and column in `what`), duplicate or unknown fields, wrong types, missing fields,
/// numbers out of a double's range, each with its JSON Pointer. What the values mean together is
/// checked by colony::Model::make. Nesting over 64 levels and texts over 1 GiB are refused. Fields
/// that may be absent are absent in the description too: defaults are filled in by
/// colony::Model::make, so that writing it back adds nothing.
std::variant<colony::ModelDescription, colony::Faults> read_model(std::string_view text);

/// Writes it back: two-space indents, fields in the order of docs/documents.md, a final newline;
/// numbers read back as the same double. Empty lists are left out, but for `loci`. The same
/// description always gives the same text, which is how a book tells whether its model changed.
std::string write_model(const colony::ModelDescription& model);

}  // namespace likelihet::documents
