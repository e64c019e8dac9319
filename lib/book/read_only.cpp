// Opens a book for reading alone.
#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <optional>
#include <system_error>
#include <vector>

#include <sqlite3.h>

#include <likelihet/base/hexadecimal.hpp>
#include <likelihet/book/book_error.hpp>
#include <likelihet/book/read_only.hpp>

namespace likelihet::book {
namespace {

namespace fs = std::filesystem;

constexpr int most_tries = 5;
/// Offsets of the write and read version (SQLite documentation, "Database File Format", 1.3.3).
constexpr std::array<std::size_t, 2> journal_versions{18, 19};
constexpr char rollback_journal = 1;
constexpr char write_ahead_log = 2;

bool has_pages(const fs::path& file) {
  std::error_code error;
  const std::uintmax_t size = fs::file_size(file, error);
  return !error && size > 0;
}

bool keeps_log(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  stream.seekg(static_cast<std::streamoff>(journal_versions.back()));
  return stream.get() == write_ahead_log;
}

/// A URI that opens the file for reading, its shared memory too.
std::string read_only_uri(const fs::path& file) {
  std::string uri = "file:";
  for (const char letter : name_of(file)) {
    const auto byte = static_cast<unsigned char>(letter);
    if (letter == '%' || letter == '?' || letter == '#') {
      uri += '%' + base::hexadecimal(byte, 2);
    } else {
      uri += letter;
    }
  }
  return uri + "?mode=ro&readonly_shm=1";
}

/// When and how large: what a checkpoint changes.
std::pair<fs::file_time_type, std::uintmax_t> mark_of(const fs::path& file) {
  return {fs::last_write_time(file), fs::file_size(file)};
}

/// The file's bytes where nobody wrote meanwhile: whoever writes keeps a log beside it while at it.
std::optional<std::string> whole_file(const fs::path& file) {
  const auto before = mark_of(file);
  std::ifstream stream(file, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  const bool alone = !has_pages(file.string() + "-wal") && mark_of(file) == before;
  if (stream.bad() || !alone || bytes.size() != before.second) return std::nullopt;
  return bytes;
}

/// In memory there is no log, so the copy's header says that it has none.
SQLite::Database copied(std::string bytes, std::chrono::milliseconds patience) {
  for (const std::size_t at : journal_versions) bytes[at] = rollback_journal;
  SQLite::Database database(":memory:", SQLite::OPEN_READWRITE, static_cast<int>(patience.count()));
  auto* const memory = static_cast<unsigned char*>(sqlite3_malloc64(bytes.size()));
  if (memory == nullptr) throw std::bad_alloc();
  std::copy(bytes.begin(), bytes.end(), memory);
  const auto size = static_cast<sqlite3_int64>(bytes.size());
  const int code =
      sqlite3_deserialize(database.getHandle(), "main", memory, size, size,
                          SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_READONLY);
  if (code != SQLITE_OK) throw SQLite::Exception(database.getHandle(), code);
  return database;
}

}  // namespace

std::string name_of(const fs::path& file) {
  return fs::absolute(file).string();
}

SQLite::Database connect_read_only(const fs::path& file, std::chrono::milliseconds patience) {
  const int milliseconds = static_cast<int>(patience.count());
  if (!keeps_log(file)) return {name_of(file), SQLite::OPEN_READONLY, milliseconds};
  for (int attempt = 0; attempt < most_tries; ++attempt) {
    if (fs::exists(file.string() + "-shm")) {
      SQLite::Database database(read_only_uri(file), SQLite::OPEN_READONLY | SQLite::OPEN_URI,
                                milliseconds);
      if (database.tryExec("SELECT 1 FROM sqlite_schema") == SQLITE_OK) return database;
    } else if (auto bytes = whole_file(file)) {
      return copied(std::move(*bytes), patience);
    }
  }
  throw BookError(BookTrouble::storage,
                  file.string() +
                      ": its last changes lie in a log beside it, which only a user who may "
                      "write it can take up; let its owner open it once");
}

}  // namespace likelihet::book
