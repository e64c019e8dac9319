// What a published number was derived from, in one digest that no other evidence has.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <likelihet/colony/model_description.hpp>
#include <likelihet/colony/policy.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::documents {

/// SHA-256 (FIPS 180-4, 2015), 64 hexadecimal digits.
std::string sha256(std::string_view bytes);

/// Tables that were learned and counted: the document that says how, and the draws.
struct LearnedEvidence {
  std::string_view document;
  const std::vector<double>& draws;
};

/// The digest of tables: of the document's length, the document, and the draws' bytes, lowest
/// first.
std::string tables_digest(const LearnedEvidence& learned);

/// The digest of all that a number may rest on: model, records with their times of entry, policy,
/// and the digest of the tables counted (or nothing). One byte of any of them changes it. Each part
/// is preceded by its length, so that no two divisions give the same text.
std::string evidence_digest(const colony::ModelDescription& model, const colony::Records& records,
                            const colony::Policy& policy, std::string_view tables);

}  // namespace likelihet::documents
