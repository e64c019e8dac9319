// Numbers to bytes and back, the same on every machine.
#include <bit>
#include <cstdint>

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>

#include <likelihet/book/learned_rows.hpp>

namespace likelihet::book {
namespace {

std::string bytes_of(const std::vector<double>& numbers) {
  std::string bytes;
  bytes.reserve(numbers.size() * sizeof(double));
  for (double number : numbers) {
    const auto bits = std::bit_cast<std::uint64_t>(number);
    for (unsigned shift = 0; shift < 64; shift += 8) {
      bytes += static_cast<char>((bits >> shift) & 0xFFU);
    }
  }
  return bytes;
}

std::vector<double> numbers_of(const std::string& bytes) {
  std::vector<double> numbers;
  numbers.reserve(bytes.size() / sizeof(double));
  for (std::size_t at = 0; at + sizeof(double) <= bytes.size(); at += sizeof(double)) {
    std::uint64_t bits = 0;
    for (unsigned i = 0; i < sizeof(double); ++i) {
      bits |= std::uint64_t{static_cast<unsigned char>(bytes[at + i])} << (8 * i);
    }
    numbers.push_back(std::bit_cast<double>(bits));
  }
  return numbers;
}

}  // namespace

std::optional<LearnedRecord> read_learned(const SQLite::Database& database) {
  SQLite::Statement query(database, "SELECT digest, document, draws FROM learned");
  if (!query.executeStep()) return std::nullopt;
  return LearnedRecord{query.getColumn(0).getString(), query.getColumn(1).getString(),
                       numbers_of(query.getColumn(2).getString())};
}

void replace_learned(const SQLite::Database& database, const LearnedRecord& learned) {
  SQLite::Statement insert(
      database,
      "INSERT INTO learned (only, digest, document, draws) VALUES (1, ?, ?, ?) "
      "ON CONFLICT (only) DO UPDATE SET digest = excluded.digest, document = excluded.document, "
      "draws = excluded.draws");
  const std::string bytes = bytes_of(learned.draws);
  insert.bindNoCopy(1, learned.digest);
  insert.bindNoCopy(2, learned.document);
  insert.bindNoCopy(3, bytes.data(), static_cast<int>(bytes.size()));
  insert.exec();
}

}  // namespace likelihet::book
