// From a claim back to its evidence, and to its numbers again.
#include <cmath>
#include <memory>

#include <fmt/format.h>

#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/learning/learned_text.hpp>
#include <likelihet/publishing/verification.hpp>

namespace likelihet::publishing {
namespace {

constexpr double tolerance = 1e-9;

bool same(const ClaimedNumber& a, const ClaimedNumber& b) {
  return a.locus == b.locus && a.allele == b.allele && a.label == b.label && a.basis == b.basis &&
         std::abs(a.published.low - b.published.low) <= tolerance &&
         std::abs(a.published.high - b.published.high) <= tolerance &&
         std::abs(a.value - b.value) <= tolerance && a.rests_on == b.rests_on;
}

/// What differs, in words; empty where nothing does.
std::string difference(const Claim& said, const std::vector<ClaimedNumber>& again) {
  if (said.numbers.size() != again.size()) {
    return fmt::format("{} numbers were claimed, and the evidence gives {}", said.numbers.size(),
                       again.size());
  }
  for (std::size_t n = 0; n < again.size(); ++n) {
    if (same(said.numbers[n], again[n])) continue;
    return fmt::format("it says \"{}\" ({:.6g}), and the evidence gives \"{}\" ({:.6g})",
                       said.numbers[n].headline, said.numbers[n].value, again[n].headline,
                       again[n].value);
  }
  return {};
}

class Deriver {
 public:
  Deriver(const book::ClaimRecord& claim, const EvidenceThen& then, std::size_t memory_bytes)
      : claim_(claim), then_(then), memory_bytes_(memory_bytes) {}

  std::variant<Verification, odds::TooLarge> run() {
    const auto said = read_claim(claim_.document);
    out_.code = said && code_of(claim_) == claim_.code && said->animal == claim_.animal;
    if (!out_.code) return failed("the claim is not as it was published: its code does not fit it");
    if (!then_.published || then_.published->text() != claim_.at.text()) {
      out_.code = false;
      return failed("the ledger does not say that it was published when the claim says so");
    }
    out_.evidence = evidence_holds();
    if (!out_.evidence) {
      return failed(
          "the evidence is not as it was: the digest of it that the claim names is not "
          "the digest of what the book holds");
    }
    return derive(*said);
  }

 private:
  Verification failed(std::string what) {
    out_.what = std::move(what);
    return out_;
  }

  [[nodiscard]] bool evidence_holds() const {
    if (claim_.tables) {
      if (!then_.tables) return false;
      if (documents::tables_digest({then_.tables->document, then_.tables->draws}) !=
          *claim_.tables) {
        return false;
      }
    }
    return digest_of(then_.evidence, claim_.tables) == claim_.evidence;
  }

  std::variant<Verification, odds::TooLarge> derive(const Claim& said) {
    auto model = colony::Model::make(then_.evidence.model);
    if (!std::holds_alternative<colony::Model>(model)) return failed("its model is not sound");
    const auto shared =
        std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model)));
    auto colony = colony::Colony::make(shared, then_.evidence.records);
    if (!std::holds_alternative<colony::Colony>(colony)) return failed("its records do not fit");
    return compare(said, std::get<colony::Colony>(colony));
  }

  std::variant<Verification, odds::TooLarge> compare(const Claim& said,
                                                     const colony::Colony& colony) {
    Ground ground;
    ground.colony = &colony;
    ground.policy = &then_.evidence.policy;
    ground.memory_bytes = memory_bytes_;
    ground.day = said.day;
    std::optional<std::vector<odds::Tables>> draws;
    if (then_.tables) draws = learning::read_draws(then_.tables->draws, colony.model());
    if (draws) ground.learned = &*draws;
    const auto animal = colony.find_animal(claim_.animal);
    if (!animal) return failed("its animal was not in the book then");
    auto found = listings(ground, {*animal});
    if (auto* large = std::get_if<odds::TooLarge>(&found)) return std::move(*large);
    if (std::holds_alternative<odds::Contradiction>(found)) {
      return failed("the evidence contradicts itself");
    }
    out_.again = claim_of(colony, std::get<std::vector<Listing>>(found).front()).numbers;
    out_.what = difference(said, out_.again);
    out_.derived = out_.what.empty();
    return out_;
  }

  const book::ClaimRecord& claim_;
  const EvidenceThen& then_;
  std::size_t memory_bytes_;
  Verification out_;
};

}  // namespace

std::string digest_of(const book::Evidence& evidence, const std::optional<std::string>& tables) {
  return documents::evidence_digest(evidence.model, evidence.records, evidence.policy,
                                    tables.value_or(""));
}

std::variant<Verification, odds::TooLarge> verify(const book::ClaimRecord& claim,
                                                  const EvidenceThen& then,
                                                  std::size_t memory_bytes) {
  return Deriver(claim, then, memory_bytes).run();
}

}  // namespace likelihet::publishing
