// Digests by OpenSSL's SHA-256.
#include <array>
#include <stdexcept>

#include <openssl/evp.h>

#include <likelihet/base/hexadecimal.hpp>
#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/digest_part.hpp>
#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/documents/number_bytes.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::documents {

namespace {

/// Times of entry in order: a colony document leaves out most of them.
std::string entries_of(const colony::Records& records) {
  std::string text;
  for (const auto& observation : records.observations) {
    add_part(text, observation.entered ? observation.entered->text() : std::string());
  }
  return text;
}

}  // namespace

std::string sha256(std::string_view bytes) {
  std::array<unsigned char, 32> digest{};
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), nullptr, EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error("the library for digests gave none");
  }
  return base::hexadecimal(digest);
}

std::string tables_digest(const LearnedEvidence& learned) {
  std::string whole;
  add_part(whole, learned.document);
  add_part(whole, bytes_of(learned.draws));
  return sha256(whole);
}

std::string evidence_digest(const colony::ModelDescription& model, const colony::Records& records,
                            const colony::Policy& policy, std::string_view tables) {
  std::string whole;
  add_part(whole, write_model(model));
  add_part(whole, write_colony(records));
  add_part(whole, entries_of(records));
  add_part(whole, write_policy(policy));
  add_part(whole, tables);
  return sha256(whole);
}

}  // namespace likelihet::documents
