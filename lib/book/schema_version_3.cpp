// The schema's version 3, as published: never edited, only followed by another version.
#include <likelihet/book/schema.hpp>

namespace likelihet::book {
namespace {

constexpr const char* policy = R"sql(
CREATE TABLE policy (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  document TEXT NOT NULL
) STRICT;
CREATE TRIGGER policy_insert BEFORE INSERT ON policy
WHEN EXISTS (SELECT 1 FROM policy)
BEGIN SELECT RAISE(ABORT, 'a book has one policy'); END;
CREATE TRIGGER policy_update BEFORE UPDATE ON policy
WHEN NOT EXISTS
  (SELECT 1 FROM ledger WHERE what = 'policy replaced' AND detail = OLD.document)
BEGIN SELECT RAISE(ABORT, 'the ledger must keep the old policy first'); END;
CREATE TRIGGER policy_delete BEFORE DELETE ON policy
BEGIN SELECT RAISE(ABORT, 'a policy is only ever replaced'); END;
)sql";

// Tables that a claim counted are kept, since those learned later take the place of those learned
// before; one copy, however many claims counted them. `entries` is the ledger's last number when
// the claim was made.
constexpr const char* claims = R"sql(
CREATE TABLE counted_tables (
  digest TEXT PRIMARY KEY,
  document TEXT NOT NULL,
  draws BLOB NOT NULL
) STRICT;
CREATE TRIGGER counted_tables_insert BEFORE INSERT ON counted_tables
WHEN EXISTS (SELECT 1 FROM counted_tables WHERE digest = NEW.digest)
BEGIN SELECT RAISE(ABORT, 'tables that a claim counted are kept'); END;
CREATE TRIGGER counted_tables_update BEFORE UPDATE ON counted_tables
BEGIN SELECT RAISE(ABORT, 'tables that a claim counted are kept'); END;
CREATE TRIGGER counted_tables_delete BEFORE DELETE ON counted_tables
BEGIN SELECT RAISE(ABORT, 'tables that a claim counted are kept'); END;

CREATE TABLE claims (
  sequence INTEGER PRIMARY KEY,
  code TEXT NOT NULL UNIQUE,
  animal TEXT NOT NULL REFERENCES animals (id),
  at TEXT NOT NULL,
  entries INTEGER NOT NULL REFERENCES ledger (number),
  evidence TEXT NOT NULL,
  tables TEXT REFERENCES counted_tables (digest),
  document TEXT NOT NULL
) STRICT;
CREATE INDEX claims_by_animal ON claims (animal);
CREATE INDEX claims_by_tables ON claims (tables) WHERE tables IS NOT NULL;
CREATE TRIGGER claims_insert BEFORE INSERT ON claims
WHEN NEW.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM claims)
  OR EXISTS (SELECT 1 FROM claims WHERE code = NEW.code)
BEGIN SELECT RAISE(ABORT, 'claims are only ever added'); END;
CREATE TRIGGER claims_update BEFORE UPDATE ON claims
BEGIN SELECT RAISE(ABORT, 'a claim is never changed; it can be withdrawn'); END;
CREATE TRIGGER claims_delete BEFORE DELETE ON claims
BEGIN SELECT RAISE(ABORT, 'a claim is never erased; it can be withdrawn'); END;

CREATE TABLE claim_ends (
  claim TEXT PRIMARY KEY REFERENCES claims (code),
  at TEXT NOT NULL,
  replaced_by TEXT REFERENCES claims (code),
  why TEXT
) STRICT;
CREATE TRIGGER claim_ends_insert BEFORE INSERT ON claim_ends
WHEN EXISTS (SELECT 1 FROM claim_ends WHERE claim = NEW.claim)
BEGIN SELECT RAISE(ABORT, 'a claim ends once'); END;
CREATE TRIGGER claim_ends_update BEFORE UPDATE ON claim_ends
BEGIN SELECT RAISE(ABORT, 'a claim ends once'); END;
CREATE TRIGGER claim_ends_delete BEFORE DELETE ON claim_ends
BEGIN SELECT RAISE(ABORT, 'a claim ends once'); END;
)sql";

}  // namespace

std::string schema_version_3() {
  return std::string(policy) + claims;
}

}  // namespace likelihet::book
