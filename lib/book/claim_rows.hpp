// The rows of the policy and of claims.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <SQLiteCpp/Database.h>

#include <likelihet/book/claim.hpp>

namespace likelihet::book {

/// The text of the policy document; nothing where the book never had one.
std::optional<std::string> read_policy_text(const SQLite::Database& database);
/// The ledger must hold the old text first, where there was one.
void write_policy_text(const SQLite::Database& database, const std::string& text);

/// In the order in which they were made, each with its end.
std::vector<ClaimRecord> read_claims(const SQLite::Database& database,
                                     const std::filesystem::path& file);
/// The caller holds the write lock.
void insert_claim(const SQLite::Database& database, const ClaimRecord& claim);
void insert_claim_end(const SQLite::Database& database, const std::string& code,
                      const ClaimEnd& end);

/// Tables by their digest; nothing where no claim counted them. `digest` of the result is that of
/// the tables, not of what taught them.
std::optional<LearnedRecord> read_counted_tables(const SQLite::Database& database,
                                                 const std::string& digest);
/// Once: those that are there already stay.
void keep_counted_tables(const SQLite::Database& database, const std::string& digest,
                         const LearnedRecord& tables);

}  // namespace likelihet::book
