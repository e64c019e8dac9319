// Codes of claims.
#include <array>
#include <cstdint>

#include <likelihet/documents/digest_part.hpp>
#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/publishing/claim.hpp>

namespace likelihet::publishing {
namespace {

/// Crockford's base 32: no I, L, O or U, which are misread.
constexpr std::string_view letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::size_t characters = 16;  // of five bits each
constexpr std::size_t letters_together = 4;

unsigned digit_of(char hexadecimal) {
  return static_cast<unsigned>(hexadecimal <= '9' ? hexadecimal - '0' : hexadecimal - 'a' + 10);
}

std::string grouped(std::string_view plain) {
  std::string code;
  for (std::size_t i = 0; i < plain.size(); ++i) {
    if (i > 0 && i % letters_together == 0) code += '-';
    code += plain[i];
  }
  return code;
}

char canonical(char typed) {
  if (typed >= 'a' && typed <= 'z') typed = static_cast<char>(typed - 'a' + 'A');
  if (typed == 'O') return '0';
  if (typed == 'I' || typed == 'L') return '1';
  return typed;
}

}  // namespace

std::string code_of(const book::ClaimRecord& claim) {
  std::string whole;
  documents::add_part(whole, claim.animal);
  documents::add_part(whole, std::to_string(claim.entries));
  documents::add_part(whole, claim.evidence);
  documents::add_part(whole, claim.tables.value_or(""));
  documents::add_part(whole, claim.document);
  const std::string digest = documents::sha256(whole);
  std::string plain;
  std::uint64_t bits = 0;
  unsigned held = 0;
  for (std::size_t i = 0; plain.size() < characters; ++i) {
    bits = (bits << 4U) | digit_of(digest[i]);
    held += 4;
    if (held < 5) continue;
    held -= 5;
    plain += letters[(bits >> held) & 31U];
  }
  return grouped(plain);
}

std::optional<std::string> code_from(std::string_view typed) {
  std::string plain;
  for (const char letter : typed) {
    if (letter == '-' || letter == ' ') continue;
    const char one = canonical(letter);
    if (letters.find(one) == std::string_view::npos) return std::nullopt;
    plain += one;
  }
  if (plain.size() != characters) return std::nullopt;
  return grouped(plain);
}

}  // namespace likelihet::publishing
