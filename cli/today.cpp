// Reads the clock.
#include "today.hpp"

#include <ctime>

#include "failure.hpp"
#include <fmt/chrono.h>

namespace likelihet::cli {

colony::Date today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  if (localtime_r(&now, &local) != nullptr) {
    if (auto date = colony::Date::parse(fmt::format("{:%Y-%m-%d}", local))) return *date;
  }
  throw Failure(ExitStatus::failed, "clock", "it shows no day", "set it, or give --as-of");
}

}  // namespace likelihet::cli
