// Writing beside, then giving the name.
#include "output_file.hpp"

#include <cerrno>
#include <cstdio>
#include <random>
#include <string_view>
#include <system_error>

#include "failure.hpp"
#include "interruption.hpp"
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

namespace likelihet::cli {
namespace {

/// An open file or folder; closed at the end.
class Opened {
 public:
  explicit Opened(int number) : number_(number) {}
  ~Opened() {
    if (number_ >= 0) ::close(number_);
  }
  Opened(const Opened&) = delete;
  Opened& operator=(const Opened&) = delete;
  [[nodiscard]] int number() const { return number_; }
  /// False where closing finds that something was not written.
  bool closed() {
    const int number = number_;
    number_ = -1;
    return ::close(number) == 0;
  }

 private:
  int number_;
};

Failure unwritable(const std::string& name, int error) {
  return {ExitStatus::failed, name,
          "could not be written: " + std::generic_category().message(error),
          "check that the folder exists and has free space"};
}

std::string unguessable_name() {
  std::random_device device;
  return fmt::format(".likelihet-{:08x}{:08x}.part", device(), device());
}

/// The file beside, removed at the end unless it got its name.
class Beside {
 public:
  Beside(const OutputPlace& place, mode_t mode)
      : folder_(::open(place.folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)),
        name_(unguessable_name()),
        unfinished_(place.folder + "/" + name_),
        file_(::openat(folder_.number(), name_.c_str(),
                       O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode)),
        made_(file_.number() >= 0) {}
  ~Beside() {
    if (made_) ::unlinkat(folder_.number(), name_.c_str(), 0);
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;

  [[nodiscard]] bool made() const { return made_; }

  bool write(std::string_view text) {
    while (!text.empty()) {
      const ssize_t wrote = ::write(file_.number(), text.data(), text.size());
      if (wrote < 0 && errno == EINTR) continue;
      if (wrote <= 0) return false;
      text.remove_prefix(static_cast<std::size_t>(wrote));
    }
    return true;
  }

  /// The owner first: changing it takes set-id bits away.
  bool take_after(const struct stat& old) {
    static_cast<void>(::fchown(file_.number(), old.st_uid, old.st_gid) == 0);
    return ::fchmod(file_.number(), old.st_mode & 07777U) == 0;
  }

  bool finish() { return ::fsync(file_.number()) == 0 && file_.closed(); }

  bool replace(const std::string& file) {
    made_ = ::renameat(folder_.number(), name_.c_str(), folder_.number(), file.c_str()) != 0;
    return !made_;
  }

  /// Fails where somebody took the name meanwhile. A file system without hard links has no such
  /// step for a file that is written already; there a last look must do.
  bool take(const std::string& file) {
    if (::linkat(folder_.number(), name_.c_str(), folder_.number(), file.c_str(), 0) == 0) {
      return true;
    }
    if (errno == EEXIST || ::faccessat(folder_.number(), file.c_str(), F_OK, 0) == 0) return false;
    return replace(file);
  }

 private:
  Opened folder_;
  std::string name_;
  UnfinishedFile unfinished_;  // before it is made: a signal may come at any moment
  Opened file_;
  bool made_;
};

}  // namespace

void write_output(const std::string& name, const std::string& text, const OutputRules& rules) {
  constexpr mode_t anyone = 0666;  // less what the umask takes
  constexpr mode_t keeper_alone = 0600;
  const auto old = replaced_at(name, rules);
  const OutputPlace place = place_of(name);
  errno = 0;
  Beside beside(place, old ? keeper_alone : anyone);
  const bool written = beside.made() && beside.write(text) && (!old || beside.take_after(*old)) &&
                       beside.finish() &&
                       (old ? beside.replace(place.file) : beside.take(place.file));
  if (!written) throw unwritable(name, errno);
}

}  // namespace likelihet::cli
