// The rules for what may be replaced. A keeper's records are worth more than any result.
#include "output_target.hpp"

#include <array>
#include <cerrno>
#include <filesystem>
#include <string_view>
#include <system_error>

#include "failure.hpp"
#include <fcntl.h>
#include <unistd.h>

namespace likelihet::cli {
namespace {

constexpr std::string_view sqlite_header("SQLite format 3\0", 16);

enum class Looks { book, other, unreadable };

/// Waits on nothing: the file may have become a pipe.
Looks looks_of(const std::string& name) {
  const int file = open(name.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
  if (file < 0) return errno == ENOENT ? Looks::other : Looks::unreadable;
  std::array<char, sqlite_header.size()> bytes{};
  const ssize_t got = read(file, bytes.data(), bytes.size());
  close(file);
  if (got < 0) return Looks::unreadable;
  return std::string_view(bytes.data(), static_cast<std::size_t>(got)) == sqlite_header
             ? Looks::book
             : Looks::other;
}

bool same_file(const std::string& one, const std::string& other) {
  struct stat a {};
  struct stat b {};
  return stat(one.c_str(), &a) == 0 && stat(other.c_str(), &b) == 0 && a.st_dev == b.st_dev &&
         a.st_ino == b.st_ino;
}

Failure kept(const std::string& name, const std::string& what, const std::string& mend) {
  return {ExitStatus::input, name, what, mend};
}

constexpr const char* another_name = "name another file; a book is never written over";

void refuse_books(const std::string& name, const OutputRules& rules) {
  if (!rules.book.empty() && same_file(name, rules.book)) {
    throw kept(name, "is the book itself", another_name);
  }
  switch (looks_of(name)) {
    case Looks::book:
      throw kept(name, "is a book or another SQLite file", another_name);
    case Looks::unreadable:
      throw kept(name, "cannot be read, so it may be a book", another_name);
    case Looks::other:
      break;
  }
}

/// SQLite would take such a file for what it has yet to write into the book.
void refuse_logs(const std::string& name) {
  for (const std::string_view suffix : {"-wal", "-journal", "-shm"}) {
    if (!name.ends_with(suffix)) continue;
    const std::string book = name.substr(0, name.size() - suffix.size());
    if (looks_of(book) == Looks::book) {
      throw kept(name, "belongs to the book " + book, another_name);
    }
  }
}

void require_folder(const std::string& name, const OutputPlace& place) {
  const int folder = open(place.folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (folder >= 0) {
    close(folder);
    return;
  }
  throw Failure(ExitStatus::failed, name,
                "could not be written: " + std::generic_category().message(errno),
                "check that the folder exists and has free space");
}

Failure no_file(const std::string& name) {
  return {ExitStatus::usage, name, "is not a file that can be written", "name a file, new or old"};
}

}  // namespace

OutputPlace place_of(const std::string& name) {
  if (name.empty()) {
    throw Failure(ExitStatus::usage, "command line", "an empty text names no file",
                  "name a file, or '-' for standard output");
  }
  const auto slash = name.rfind('/');
  OutputPlace place{".", name};
  if (slash != std::string::npos) {
    place = {slash == 0 ? "/" : name.substr(0, slash), name.substr(slash + 1)};
  }
  if (place.file.empty() || place.file == "." || place.file == "..") throw no_file(name);
  return place;
}

std::optional<struct stat> replaced_at(const std::string& name, const OutputRules& rules) {
  const OutputPlace place = place_of(name);
  require_folder(name, place);
  refuse_logs(name);
  struct stat there {};
  if (lstat(name.c_str(), &there) != 0) return std::nullopt;
  if (S_ISLNK(there.st_mode)) {
    refuse_books(name, rules);
    throw kept(name, "is a symbolic link, and nothing is written through one",
               "name the file itself, or '-' for standard output");
  }
  if (!S_ISREG(there.st_mode)) throw no_file(name);
  refuse_books(name, rules);
  if (!rules.force) {
    throw kept(name, "is there already", "choose another name, or replace it with --force");
  }
  return there;
}

bool same_place(const std::string& one, const std::string& other) {
  if (same_file(one, other)) return true;
  const OutputPlace a = place_of(one);
  const OutputPlace b = place_of(other);
  return a.file == b.file && same_file(a.folder, b.folder);
}

}  // namespace likelihet::cli
