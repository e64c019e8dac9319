// likelihet publish: records what is claimed of animals, from which evidence.
#include <algorithm>

#include "claims_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "open_book.hpp"
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <likelihet/documents/evidence_digest.hpp>
#include <likelihet/publishing/verification.hpp>

namespace likelihet::cli {
namespace {

struct PublishRequest {
  std::string book;
  std::vector<std::string> animals;
  std::optional<std::string> clutch;
  ComputationAsked computation;
};

/// The book puts the moment of writing in its place.
colony::Timestamp unset() {
  return colony::Timestamp::parse("1970-01-01T00:00:00Z").value();
}

/// The claims to write, and what they do to those that stand.
class Publisher {
 public:
  explicit Publisher(const BookGround& state) : state_(state) {
    publication_.entries = state.evidence().entries;
  }

  void add(const publishing::Listing& listing, const std::vector<ClaimNow>& standing) {
    publishing::Claim claim = publishing::claim_of(state_.colony(), listing);
    const auto same = std::find_if(standing.begin(), standing.end(), [&](const ClaimNow& old) {
      return old.claim.animal == claim.animal && old.current() && says_the_same(old.claim, claim);
    });
    if (same != standing.end()) {
      kept_.push_back(same->record.code);
      return;
    }
    book::ClaimRecord record = record_of(claim);
    for (const ClaimNow& old : standing) {
      if (old.claim.animal != claim.animal) continue;
      publication_.ends.emplace_back(
          old.record.code,
          book::ClaimEnd{record.at, record.code, old.out_of_date() ? "out of date" : "said anew"});
    }
    publication_.claims.push_back(std::move(record));
  }

  [[nodiscard]] const book::Publication& publication() const { return publication_; }
  /// Codes of claims that say it already.
  [[nodiscard]] const std::vector<std::string>& kept() const { return kept_; }

 private:
  static bool says_the_same(const publishing::Claim& a, const publishing::Claim& b) {
    return std::equal(a.numbers.begin(), a.numbers.end(), b.numbers.begin(), b.numbers.end(),
                      [](const auto& one, const auto& other) {
                        return one.locus == other.locus && one.allele == other.allele &&
                               one.headline == other.headline && one.basis == other.basis;
                      });
  }

  book::ClaimRecord record_of(const publishing::Claim& claim) {
    book::ClaimRecord record{{},
                             claim.animal,
                             unset(),
                             publication_.entries,
                             {},
                             claim.counts_markers() ? std::optional(counted()) : std::nullopt,
                             publishing::write_claim(claim),
                             std::nullopt};
    record.evidence = publishing::digest_of(state_.evidence(), record.tables);
    record.code = publishing::code_of(record);
    return record;
  }

  /// The digest of the learned tables, which the book then keeps.
  std::string counted() {
    if (!publication_.counted) {
      publication_.counted = state_.book().learned.value();
      publication_.counted_digest =
          documents::tables_digest({publication_.counted->document, publication_.counted->draws});
    }
    return publication_.counted_digest;
  }

  const BookGround& state_;
  book::Publication publication_;
  std::vector<std::string> kept_;
};

/// What was written, and what it took the place of.
Reply published_reply(const PublishRequest& asked, book::Snapshot book, const Publisher& publisher,
                      const std::vector<ClaimNow>& before, const Shell& shell) {
  const BookGround state(std::move(book), asked.computation.options());
  auto claims = claims_now(state, {});
  std::erase_if(claims, [&](const ClaimNow& claim) {
    const auto& made = publisher.publication().claims;
    const auto& kept = publisher.kept();
    return std::none_of(made.begin(), made.end(),
                        [&](const auto& one) { return one.code == claim.record.code; }) &&
           std::find(kept.begin(), kept.end(), claim.record.code) == kept.end();
  });
  if (shell.json) return {claims_json(claims), {}};
  std::string text = claims_text(claims, shell.terminal());
  std::vector<ClaimNow> corrected;
  for (const auto& [code, end] : publisher.publication().ends) {
    for (const ClaimNow& old : before) {
      if (old.record.code == code && old.out_of_date()) corrected.push_back(old);
    }
  }
  if (!corrected.empty()) text += "\nOvertaken, and replaced:\n\n";
  return {text + claims_text(corrected, shell.terminal()), {}};
}

Reply run_publish(const PublishRequest& asked, const Shell& shell) {
  auto book = open_book(asked.book);
  const BookGround state(book.snapshot(), asked.computation.options());
  const auto animals = animals_of(state.colony(), asked.animals, asked.clutch);
  const auto listed = value_or_fail(state.colony(), publishing::listings(state.ground(), animals));
  auto standing = claims_now(state, animals);
  std::erase_if(standing, [](const ClaimNow& claim) { return !!claim.record.end; });
  Publisher publisher(state);
  for (const auto& listing : listed) publisher.add(listing, standing);
  std::vector<std::string> codes;
  std::optional<book::Snapshot> then = state.book();
  if (!publisher.publication().claims.empty()) then = book.publish(publisher.publication());
  if (!then) {
    throw Failure(ExitStatus::failed, "book", "it was changed while the numbers were worked out",
                  "publish again");
  }
  for (const auto& claim : publisher.publication().claims) codes.push_back("claim " + claim.code);
  shell.has_recorded(fmt::format("{}", fmt::join(codes, ", ")));
  return published_reply(asked, std::move(*then), publisher, standing, shell);
}

}  // namespace

void add_publish(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<PublishRequest>();
  CLI::App& command = new_command(program, line, "publish",
                                  "Record what is claimed of animals, with the evidence behind it.",
                                  "  likelihet publish demo.book H0301\n"
                                  "  likelihet publish demo.book --clutch C03\n");
  add_book(command, asked->book);
  add_more_words(command, "ANIMAL", asked->animals, "animals' ids");
  add_text(command, "--clutch", asked->clutch, "also the hatchlings of this clutch");
  add_memory(command, asked->computation.memory);
  add_json(command, line);
  on_chosen(command, line, asked, run_publish);
}

}  // namespace likelihet::cli
