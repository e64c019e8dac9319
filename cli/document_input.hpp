// Documents and tables that the user names, read into values or refused with their faults. What a
// file holds is told by its content and name together, so that `import` needs no option for the
// common cases.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include <likelihet/colony/model.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/colony/records.hpp>
#include <likelihet/documents/csv_records.hpp>

namespace likelihet::cli {

/// The model of a model document; throws Failure{input} with every fault. Faults of form first;
/// those of meaning only where there are none.
colony::Model model_of(const std::string& text);

/// Records, or the model or policy that is to replace the book's. Records are added.
using Imported = std::variant<colony::Records, colony::Model, colony::Policy>;

/// Reads the content of a file: a table where `kind` is given or the name ends in .csv or .tsv, or
/// where standard input does not begin as JSON; else a JSON document. Throws Failure{input}.
/// Without `kind` a table's columns tell what its rows are: marker, assay, a clutch's own, else id.
/// `name` stands in the faults' places; "-" is standard input.
Imported imported(const std::string& text, const std::string& name,
                  std::optional<documents::CsvKind> kind);

}  // namespace likelihet::cli
