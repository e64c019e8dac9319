// Writes through the operating system, so that every failure is seen.
#include "standard_streams.hpp"

#include <cerrno>
#include <csignal>
#include <cstddef>

#include <fcntl.h>
#include <unistd.h>

namespace likelihet::cli {
namespace {

Written write_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    const ssize_t wrote = write(descriptor, text.data(), text.size());
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote <= 0) return errno == EPIPE ? Written::reader_gone : Written::failed;
    text.remove_prefix(static_cast<std::size_t>(wrote));
  }
  return Written::all;
}

}  // namespace

void guard_standard_streams() {
  static_cast<void>(std::signal(SIGPIPE, SIG_IGN));
  for (int descriptor = STDIN_FILENO; descriptor <= STDERR_FILENO; ++descriptor) {
    if (fcntl(descriptor, F_GETFD) != -1 || errno != EBADF) continue;
    // Opened the wrong way round, so that using it still fails. open() gives the lowest free
    // number.
    const int mode = descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY;
    if (open("/dev/null", mode) != descriptor) return;  // NOLINT(android-cloexec-open)
  }
}

Written write_standard_output(std::string_view text) {
  return write_all(STDOUT_FILENO, text);
}

Written write_standard_error(std::string_view text) {
  return write_all(STDERR_FILENO, text);
}

}  // namespace likelihet::cli
