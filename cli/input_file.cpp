// Reads a file through the operating system, so that its kind is known before it is read.
#include "input_file.hpp"

#include <cerrno>
#include <cstddef>
#include <string>
#include <system_error>

#include "failure.hpp"
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

namespace likelihet::cli {
namespace {

constexpr std::size_t most_bytes = std::size_t{1} << 30;
constexpr std::size_t block = std::size_t{1} << 16;

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ > STDERR_FILENO) close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor(Descriptor&&) = delete;
  Descriptor& operator=(Descriptor&&) = delete;
  [[nodiscard]] int number() const { return number_; }

 private:
  int number_;
};

std::string reason(int error) {
  return std::generic_category().message(error);
}

Failure unreadable(const std::string& name, const std::string& what, const std::string& mend) {
  return {ExitStatus::input, name == "-" ? "standard input" : name, what, mend};
}

Failure too_long(const std::string& name) {
  return unreadable(name, "holds more than 1 GiB", "split it into smaller documents");
}

std::string kind_of(mode_t mode) {
  if (S_ISDIR(mode)) return "a folder";
  if (S_ISSOCK(mode)) return "a socket";
  if (S_ISFIFO(mode)) return "a pipe";
  return "a device";
}

void check_regular(const std::string& name, const struct stat& status) {
  if (!S_ISREG(status.st_mode)) {
    throw unreadable(name, fmt::format("is {}, not a file", kind_of(status.st_mode)),
                     "name a file, or '-' to read standard input");
  }
  if (static_cast<std::size_t>(status.st_size) > most_bytes) throw too_long(name);
}

Descriptor opened(const std::string& name) {
  struct stat status {};
  // A socket cannot be opened at all: its kind is asked of the name first.
  if (stat(name.c_str(), &status) == 0) check_regular(name, status);
  const int number = open(name.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
  if (number < 0) {
    throw unreadable(name, fmt::format("cannot be read ({})", reason(errno)),
                     "check the name and the file's permissions");
  }
  return Descriptor(number);
}

}  // namespace

std::string read_input(const std::string& name) {
  const Descriptor file = name == "-" ? Descriptor(STDIN_FILENO) : opened(name);
  if (name != "-") {
    struct stat status {};
    if (fstat(file.number(), &status) == 0) check_regular(name, status);
  }
  std::string text;
  std::size_t length = 0;
  for (;;) {
    text.resize(length + block);
    const ssize_t got = ::read(file.number(), text.data() + length, block);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      throw unreadable(name, fmt::format("cannot be read ({})", reason(errno)),
                       "check that it is a file with text in it");
    }
    if (got == 0) break;
    length += static_cast<std::size_t>(got);
    if (length > most_bytes) throw too_long(name);
  }
  text.resize(length);
  return text;
}

}  // namespace likelihet::cli
