// Adding animals and clutches from a command line's values.
#pragma once

#include <optional>
#include <string>

#include "shell.hpp"

#include <likelihet/colony/records.hpp>

namespace likelihet::cli {

/// Adds the records to the book, or throws Failure{input} with their faults.
Reply add_records(const std::string& book, const colony::Records& records, const Shell& shell);

/// "ID:SHARE" or "ID", parted at the last colon that a number follows.
colony::SireRecord sire_of(const std::string& text);

/// "LOCUS:KEY=P,KEY=P@TRUST", the trust being optional. Throws Failure{usage} for another form.
colony::BoughtAsRecord bought_as_of(const std::string& text);

}  // namespace likelihet::cli
