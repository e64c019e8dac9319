// The handlers. They do nothing but what POSIX lets a handler do (POSIX.1-2017, section 2.4.3).
#include "interruption.hpp"

#include <array>
#include <csignal>
#include <utility>

#include <unistd.h>

namespace likelihet::cli {
namespace {

constexpr std::array<int, 3> ending_signals = {SIGINT, SIGTERM, SIGHUP};

// A signal handler can reach nothing but what lives as long as the program.
struct Signalled {
  std::atomic<const char*> unfinished{nullptr};
  std::atomic<bool> interrupted{false};
  std::atomic<int> signal{0};
};
static_assert(std::atomic<const char*>::is_always_lock_free);

Signalled& signalled() {
  static Signalled all;
  return all;
}

extern "C" void end_at_once(int signal) {
  if (const char* name = signalled().unfinished) ::unlink(name);
  ::_exit(128 + signal);
}

extern "C" void note(int signal) {
  signalled().signal = signal;
  signalled().interrupted = true;
  static_cast<void>(std::signal(signal, end_at_once));
}

void handle_all(void (*handler)(int)) {
  static_cast<void>(signalled());  // made before a signal can come
  for (const int signal : ending_signals) static_cast<void>(std::signal(signal, handler));
}

}  // namespace

void end_on_signals() {
  handle_all(end_at_once);
}

UnfinishedFile::UnfinishedFile(std::string name) : name_(std::move(name)) {
  signalled().unfinished = name_.c_str();
}

UnfinishedFile::~UnfinishedFile() {
  signalled().unfinished = nullptr;
}

Interruption::Interruption() {
  handle_all(note);
}

Interruption::~Interruption() {
  handle_all(end_at_once);
}

const std::atomic<bool>& Interruption::flag() {
  return signalled().interrupted;
}

ExitStatus Interruption::status() {
  switch (signalled().signal) {
    case SIGTERM:
      return ExitStatus::terminated;
    case SIGHUP:
      return ExitStatus::hung_up;
    default:
      return ExitStatus::interrupted;
  }
}

}  // namespace likelihet::cli
