// Adding animals and clutches from a command line's values. The compact forms are checked for form
// alone; ids and numbers are checked with the book, as those of a document are.
#pragma once

#include <optional>
#include <string>

#include "shell.hpp"

#include <likelihet/colony/records.hpp>

namespace likelihet::cli {

/// Adds the records to the book, or throws Failure{input} with their faults. What the book has
/// already is left alone or completed, and the reply counts it. Throws BookError too.
Reply add_records(const std::string& book, const colony::Records& records, const Shell& shell);

/// "ID:SHARE" or "ID", parted at the last colon that a number follows. Never throws: an id may hold
/// a colon, so what is no share is part of the id.
colony::SireRecord sire_of(const std::string& text);

/// "LOCUS:KEY=P,KEY=P@TRUST", the trust being optional. Throws Failure{usage} for another form.
/// Parted at the first colon, the last "@", commas, and the last "=" of each part: a locus with a
/// colon in its name needs a document.
colony::BoughtAsRecord bought_as_of(const std::string& text);

}  // namespace likelihet::cli
