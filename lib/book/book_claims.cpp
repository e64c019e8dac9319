// The policy, the claims made from a book, and the evidence that they were made from.
#include <algorithm>
#include <stdexcept>
#include <utility>

#include <likelihet/book/as_it_was.hpp>
#include <likelihet/book/book_state.hpp>
#include <likelihet/book/claim_rows.hpp>
#include <likelihet/book/ledger_rows.hpp>
#include <likelihet/book/sqlite_errors.hpp>
#include <likelihet/documents/policy_document.hpp>

namespace likelihet::book {

using colony::Faults;

namespace {

/// Throws for a publication that the program, not the user, got wrong.
void check_claims(const Publication& publication, const std::vector<ClaimRecord>& known) {
  for (const ClaimRecord& claim : publication.claims) {
    if (claim.entries != publication.entries || claim.end) {
      throw std::invalid_argument("a claim is of another state of the book");
    }
    if (claim.tables && (!publication.counted || *claim.tables != publication.counted_digest)) {
      throw std::invalid_argument("a claim counts tables that are not given");
    }
  }
  for (const auto& ended : publication.ends) {
    const bool stands = std::any_of(known.begin(), known.end(), [&](const ClaimRecord& claim) {
      return claim.code == ended.first && !claim.end;
    });
    if (!stands) throw std::invalid_argument("no claim of this code is current");
  }
}

void write_publication(const SQLite::Database& database, const Publication& publication,
                       const colony::Timestamp& now) {
  LedgerWriter ledger(database, now);
  if (publication.counted) {
    keep_counted_tables(database, publication.counted_digest, *publication.counted);
  }
  for (ClaimRecord claim : publication.claims) {
    claim.at = now;
    insert_claim(database, claim);
    ledger.add("claim published", claim.code);
  }
  for (auto [code, end] : publication.ends) {
    end.at = now;
    insert_claim_end(database, code, end);
    ledger.add(end.replaced_by ? "claim replaced" : "claim withdrawn", code);
  }
}

}  // namespace

colony::Policy Book::policy() const {
  return state_->guarded([&] { return state_->policy(); });
}

std::variant<Change, Faults> Book::replace_policy(const colony::Policy& policy, Mode mode) {
  return state_->guarded([&]() -> std::variant<Change, Faults> {
    SQLite::Transaction transaction(state_->database(), behaviour(mode));
    const std::string text = documents::write_policy(policy);
    const auto old = read_policy_text(state_->database());
    Change change;
    if (old == text) return change;
    if (Faults faults = colony::policy_faults(policy, *state_->model()); !faults.empty()) {
      return faults;
    }
    if (mode == Mode::commit) {
      LedgerWriter(state_->database(), state_->settings().clock())
          .add("policy replaced", policy.name, old);
      write_policy_text(state_->database(), text);
      transaction.commit();
    }
    change.policy_replaced = true;
    return change;
  });
}

Evidence Book::evidence(std::optional<std::int64_t> entries) const {
  return state_->guarded([&] {
    const Reading reading(state_->database());
    const auto ledger = read_ledger(state_->database(), state_->file());
    const std::int64_t last = ledger.empty() ? 0 : ledger.back().number;
    if (entries && (*entries < 1 || *entries > last)) {
      throw std::invalid_argument("the ledger has no such entry");
    }
    const auto model = read_model_text(state_->database());
    if (!model) throw damaged(state_->file(), "the book has no model");
    Stored stored{*model, read_policy_text(state_->database()), state_->records()};
    stored = as_it_was(std::move(stored), ledger, entries.value_or(last));
    return Evidence{entries.value_or(last), state_->model_of(stored.model),
                    std::move(stored.records), state_->policy_of(stored.policy)};
  });
}

std::vector<ClaimRecord> Book::claims() const {
  return state_->guarded([&] {
    const Reading reading(state_->database());
    return read_claims(state_->database(), state_->file());
  });
}

std::optional<LearnedRecord> Book::counted_tables(const std::string& digest) const {
  return state_->guarded([&] { return read_counted_tables(state_->database(), digest); });
}

std::optional<Snapshot> Book::publish(const Publication& publication) {
  return state_->guarded([&]() -> std::optional<Snapshot> {
    SQLite::Transaction transaction(state_->database(), SQLite::TransactionBehavior::IMMEDIATE);
    if (last_entry(state_->database()) != publication.entries) return std::nullopt;
    check_claims(publication, read_claims(state_->database(), state_->file()));
    write_publication(state_->database(), publication, state_->settings().clock());
    Snapshot then = state_->snapshot();
    transaction.commit();
    return then;
  });
}

}  // namespace likelihet::book
