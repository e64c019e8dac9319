// The schema's version 2, as published: never edited, only followed by another version.
#include <likelihet/book/schema.hpp>

namespace likelihet::book {

// What was learned is worked out from the records and can be again, so it may be replaced; the
// ledger keeps when. `draws` are doubles, eight bytes each, the lowest first.
std::string schema_version_2() {
  return R"sql(
CREATE TABLE learned (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  digest TEXT NOT NULL,
  document TEXT NOT NULL,
  draws BLOB NOT NULL
) STRICT;
CREATE TRIGGER learned_delete BEFORE DELETE ON learned
BEGIN SELECT RAISE(ABORT, 'what was learned is only ever replaced'); END;
)sql";
}

}  // namespace likelihet::book
