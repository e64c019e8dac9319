// Reads a database header by hand (SQLite database file format, section 1.3), before SQLite could
// wait on a FIFO or roll a stranger's database back.
#include <array>
#include <cstdint>
#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include <likelihet/book/book_error.hpp>
#include <likelihet/book/file_kind.hpp>
#include <likelihet/book/schema.hpp>
#include <likelihet/book/sqlite_errors.hpp>

namespace likelihet::book {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t header_size = 100;
constexpr std::size_t user_version_at = 60;
constexpr std::size_t application_id_at = 68;
constexpr std::string_view magic("SQLite format 3\0", 16);

BookError no_book(const fs::path& file, const std::string& what) {
  return {BookTrouble::not_a_book,
          file.string() + ": " + what + ", no book; name a file that 'init' made"};
}

std::uint32_t big_endian(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
  }
  return value;
}

void require_regular(const fs::path& file) {
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (status.type() == fs::file_type::not_found) {
    throw BookError(BookTrouble::missing,
                    file.string() + ": no such file; check the name, or make a book with 'init'");
  }
  if (error || status.type() == fs::file_type::none) {
    throw BookError(BookTrouble::storage, file.string() + ": cannot be looked at (" +
                                              error.message() + "); check the permissions");
  }
  if (status.type() == fs::file_type::directory) {
    throw no_book(file, "it is a directory");
  }
  if (status.type() != fs::file_type::regular) {
    throw no_book(file, "it is a device, socket or pipe");
  }
}

std::string read_header(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::array<char, header_size> bytes{};
  if (!stream.is_open()) {
    throw BookError(BookTrouble::storage,
                    file.string() + ": cannot be read; check its permissions");
  }
  stream.read(bytes.data(), header_size);
  if (stream.bad()) {
    throw BookError(BookTrouble::storage, file.string() + ": cannot be read; check the disk");
  }
  return {bytes.data(), static_cast<std::size_t>(stream.gcount())};
}

}  // namespace

BookError newer_version(const fs::path& file, int found, int newest) {
  return {BookTrouble::newer_version,
          file.string() + ": a newer likelihet wrote this book (version " + std::to_string(found) +
              ", known here up to " + std::to_string(newest) +
              "); update the program. The book was left as it is"};
}

void require_book(const fs::path& file, int newest) {
  require_regular(file);
  const std::string header = read_header(file);
  if (header.empty()) {
    throw no_book(file, "it is empty");
  }
  if (header.substr(0, magic.size()) != magic) {
    throw no_book(file, "it is not an SQLite database");
  }
  if (header.size() < header_size) {
    throw damaged(file, "the file is cut off");
  }
  if (big_endian(header, application_id_at) != application_id) {
    throw no_book(file, "it is another program's database");
  }
  const auto version = static_cast<std::int32_t>(big_endian(header, user_version_at));
  if (version > newest) {
    throw newer_version(file, version, newest);
  }
}

}  // namespace likelihet::book
