// A short fingerprint of documents, to see whether they changed.
#pragma once

#include <string>

#include <likelihet/colony/model.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

/// Sixteen hexadecimal digits of the model's and the records' documents, as they would be written:
/// CRC-64 of ECMA-182 (1992), reflected. Tells accidental change, not forgery. Times of entry that
/// an export would write are part of it.
std::string digest(const colony::ModelDescription& model, const colony::Records& records);

}  // namespace likelihet::documents
