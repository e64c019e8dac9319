// Fingerprints by Boost.CRC.
#include <cstdint>

#include <boost/crc.hpp>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/digest.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::documents {

std::string digest(const colony::ModelDescription& model, const colony::Records& records) {
  constexpr std::uint64_t polynomial = 0x42F0E1EBA9EA3693;
  boost::crc_optimal<64, polynomial, UINT64_MAX, UINT64_MAX, true, true> sum;
  for (const std::string& text : {write_model(model), write_colony(records)}) {
    sum.process_bytes(text.data(), text.size());
  }
  constexpr const char* digits = "0123456789abcdef";
  std::string out;
  for (unsigned shift = 64; shift > 0; shift -= 4) {
    out += digits[(sum.checksum() >> (shift - 4)) & 0xFU];
  }
  return out;
}

}  // namespace likelihet::documents
