// The clock that a book uses outside tests.
#include <array>
#include <ctime>
#include <stdexcept>

#include <likelihet/book/settings.hpp>

namespace likelihet::book {

colony::Timestamp now_in_utc() {
  const std::time_t seconds =
      std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  std::array<char, 32> text{};
  if (gmtime_r(&seconds, &parts) == nullptr ||
      std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts) == 0) {
    throw std::runtime_error("the system clock shows no time that RFC 3339 can write");
  }
  const auto moment = colony::Timestamp::parse(text.data());
  if (!moment) {
    throw std::runtime_error("the system clock shows no time that RFC 3339 can write");
  }
  return *moment;
}

}  // namespace likelihet::book
