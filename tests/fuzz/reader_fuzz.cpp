// A target for coverage-guided fuzzing of every reader; see tests.cmake for how it is built.
#include <cstddef>
#include <cstdint>

#include <fuzz/read_anything.hpp>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  likelihet::fuzz::read_anything({reinterpret_cast<const char*>(data), size});
  return 0;
}
