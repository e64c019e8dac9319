// Numbers to bytes and back.
#include <bit>
#include <cstdint>

#include <likelihet/documents/number_bytes.hpp>

namespace likelihet::documents {

std::string bytes_of(const std::vector<double>& numbers) {
  std::string bytes;
  bytes.reserve(numbers.size() * sizeof(double));
  for (const double number : numbers) {
    const auto bits = std::bit_cast<std::uint64_t>(number);
    for (unsigned shift = 0; shift < 64; shift += 8) {
      bytes += static_cast<char>((bits >> shift) & 0xFFU);
    }
  }
  return bytes;
}

std::vector<double> numbers_of(std::string_view bytes) {
  std::vector<double> numbers;
  numbers.reserve(bytes.size() / sizeof(double));
  for (std::size_t at = 0; at + sizeof(double) <= bytes.size(); at += sizeof(double)) {
    std::uint64_t bits = 0;
    for (unsigned i = 0; i < sizeof(double); ++i) {
      bits |= std::uint64_t{static_cast<unsigned char>(bytes[at + i])} << (8 * i);
    }
    numbers.push_back(std::bit_cast<double>(bits));
  }
  return numbers;
}

}  // namespace likelihet::documents
