// Loaded before the C library: the system call named by LIKELIHET_FAIL fails the
// LIKELIHET_FAIL_AT-th time that it is made, with the error number LIKELIHET_FAIL_WITH, as a disk
// does that cannot be reached for a moment; or, with the error 0, the process is killed there.
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>

#include <dlfcn.h>
#include <sys/types.h>
#include <unistd.h>

namespace {

long number_of(const char* name) {
  const char* const text = std::getenv(name);
  return text == nullptr ? 0 : std::strtol(text, nullptr, 10);
}

/// Whether this call is the one to fail.
bool fails(const char* call) {
  static const char* const chosen = std::getenv("LIKELIHET_FAIL");
  static const long at = number_of("LIKELIHET_FAIL_AT");
  static long made = 0;
  if (chosen == nullptr || std::strcmp(chosen, call) != 0 || ++made != at) return false;
  const long error = number_of("LIKELIHET_FAIL_WITH");
  if (error == 0) static_cast<void>(::raise(SIGKILL));
  errno = static_cast<int>(error);
  return true;
}

template <class Function>
Function* original(const char* name) {
  return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

}  // namespace

extern "C" {

ssize_t pread64(int descriptor, void* bytes, size_t count, off64_t offset) {
  static auto* const call = original<ssize_t(int, void*, size_t, off64_t)>("pread64");
  return fails("pread") ? -1 : call(descriptor, bytes, count, offset);
}

ssize_t pwrite64(int descriptor, const void* bytes, size_t count, off64_t offset) {
  static auto* const call = original<ssize_t(int, const void*, size_t, off64_t)>("pwrite64");
  return fails("pwrite") ? -1 : call(descriptor, bytes, count, offset);
}

int fdatasync(int descriptor) {
  static auto* const call = original<int(int)>("fdatasync");
  return fails("fdatasync") ? -1 : call(descriptor);
}

int fsync(int descriptor) {
  static auto* const call = original<int(int)>("fsync");
  return fails("fsync") ? -1 : call(descriptor);
}

int ftruncate64(int descriptor, off64_t length) {
  static auto* const call = original<int(int, off64_t)>("ftruncate64");
  return fails("ftruncate") ? -1 : call(descriptor, length);
}

int unlink(const char* path) {
  static auto* const call = original<int(const char*)>("unlink");
  return fails("unlink") ? -1 : call(path);
}

ssize_t write(int descriptor, const void* bytes, size_t count) {
  static auto* const call = original<ssize_t(int, const void*, size_t)>("write");
  return fails("write") ? -1 : call(descriptor, bytes, count);
}

}  // extern "C"
