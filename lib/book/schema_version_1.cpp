// The schema's version 1, as published: never edited, only followed by another version.
#include <likelihet/book/schema.hpp>

namespace likelihet::book {
namespace {

// `number` and `sequence` keep the order of entry; triggers hold them without gaps, which also
// stops INSERT OR REPLACE from taking a row's place.
constexpr const char* ledger_and_model = R"sql(
CREATE TABLE ledger (
  number INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  what TEXT NOT NULL,
  id TEXT NOT NULL,
  detail TEXT
) STRICT;
CREATE TRIGGER ledger_insert BEFORE INSERT ON ledger
WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM ledger)
BEGIN SELECT RAISE(ABORT, 'the ledger is numbered without gaps'); END;
CREATE TRIGGER ledger_update BEFORE UPDATE ON ledger
BEGIN SELECT RAISE(ABORT, 'the ledger is only ever added to'); END;
CREATE TRIGGER ledger_delete BEFORE DELETE ON ledger
BEGIN SELECT RAISE(ABORT, 'the ledger is only ever added to'); END;

CREATE TABLE model (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  document TEXT NOT NULL
) STRICT;
CREATE TRIGGER model_insert BEFORE INSERT ON model
WHEN EXISTS (SELECT 1 FROM model)
BEGIN SELECT RAISE(ABORT, 'a book has one model'); END;
CREATE TRIGGER model_update BEFORE UPDATE ON model
WHEN NOT EXISTS
  (SELECT 1 FROM ledger WHERE what = 'model replaced' AND detail = OLD.document)
BEGIN SELECT RAISE(ABORT, 'the ledger must keep the old model first'); END;
CREATE TRIGGER model_delete BEFORE DELETE ON model
BEGIN SELECT RAISE(ABORT, 'a book has one model'); END;
)sql";

// Animals and clutches name each other, so their references are checked at commit; the indexes are
// for those checks.
constexpr const char* animals = R"sql(
CREATE TABLE animals (
  sequence INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  sex TEXT CHECK (sex IN ('female', 'male')),
  origin TEXT,
  clutch TEXT REFERENCES clutches (id) DEFERRABLE INITIALLY DEFERRED,
  line TEXT,
  hatched TEXT
) STRICT;
CREATE INDEX animals_by_clutch ON animals (clutch);
CREATE TRIGGER animals_insert BEFORE INSERT ON animals
WHEN NEW.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM animals)
  OR EXISTS (SELECT 1 FROM animals WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'animals are only ever added'); END;
CREATE TRIGGER animals_update BEFORE UPDATE ON animals
WHEN NEW.sequence IS NOT OLD.sequence OR NEW.id IS NOT OLD.id
  OR NEW.sex IS NOT coalesce(OLD.sex, NEW.sex)
  OR NEW.origin IS NOT coalesce(OLD.origin, NEW.origin)
  OR NEW.clutch IS NOT coalesce(OLD.clutch, NEW.clutch)
  OR NEW.line IS NOT coalesce(OLD.line, NEW.line)
  OR NEW.hatched IS NOT coalesce(OLD.hatched, NEW.hatched)
BEGIN SELECT RAISE(ABORT, 'an animal is only ever completed'); END;
CREATE TRIGGER animals_delete BEFORE DELETE ON animals
BEGIN SELECT RAISE(ABORT, 'an animal is only ever completed'); END;

CREATE TABLE bought_as (
  animal TEXT NOT NULL REFERENCES animals (id) DEFERRABLE INITIALLY DEFERRED,
  place INTEGER NOT NULL,
  locus TEXT NOT NULL,
  trust REAL,
  PRIMARY KEY (animal, place)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER bought_as_insert BEFORE INSERT ON bought_as
WHEN EXISTS (SELECT 1 FROM bought_as WHERE animal = NEW.animal AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'an animal is only ever completed'); END;
CREATE TRIGGER bought_as_update BEFORE UPDATE ON bought_as
BEGIN SELECT RAISE(ABORT, 'an animal is only ever completed'); END;
CREATE TRIGGER bought_as_delete BEFORE DELETE ON bought_as
BEGIN SELECT RAISE(ABORT, 'an animal is only ever completed'); END;

-- Written before the row of bought_as that they belong to; once that stands, none can be added.
CREATE TABLE bought_as_odds (
  animal TEXT NOT NULL,
  entry INTEGER NOT NULL,
  place INTEGER NOT NULL,
  genotype TEXT NOT NULL,
  probability REAL NOT NULL,
  PRIMARY KEY (animal, entry, place),
  FOREIGN KEY (animal, entry) REFERENCES bought_as (animal, place) DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;
CREATE TRIGGER bought_as_odds_insert BEFORE INSERT ON bought_as_odds
WHEN EXISTS (SELECT 1 FROM bought_as WHERE animal = NEW.animal AND place = NEW.entry)
BEGIN SELECT RAISE(ABORT, 'odds are written once'); END;
CREATE TRIGGER bought_as_odds_update BEFORE UPDATE ON bought_as_odds
BEGIN SELECT RAISE(ABORT, 'odds are written once'); END;
CREATE TRIGGER bought_as_odds_delete BEFORE DELETE ON bought_as_odds
BEGIN SELECT RAISE(ABORT, 'odds are written once'); END;
)sql";

constexpr const char* clutches = R"sql(
CREATE TABLE clutches (
  sequence INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  dam TEXT REFERENCES animals (id) DEFERRABLE INITIALLY DEFERRED,
  paternity TEXT CHECK (paternity IN ('single', 'mixed')),
  dam_origin TEXT,
  sire_origin TEXT,
  line TEXT,
  laid TEXT,
  hatched TEXT,
  eggs INTEGER
) STRICT;
CREATE INDEX clutches_by_dam ON clutches (dam);
CREATE TRIGGER clutches_insert BEFORE INSERT ON clutches
WHEN NEW.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM clutches)
  OR EXISTS (SELECT 1 FROM clutches WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'clutches are only ever added'); END;
CREATE TRIGGER clutches_update BEFORE UPDATE ON clutches
WHEN NEW.sequence IS NOT OLD.sequence OR NEW.id IS NOT OLD.id
  OR NEW.dam IS NOT coalesce(OLD.dam, NEW.dam)
  OR NEW.paternity IS NOT coalesce(OLD.paternity, NEW.paternity)
  OR NEW.dam_origin IS NOT coalesce(OLD.dam_origin, NEW.dam_origin)
  OR NEW.sire_origin IS NOT coalesce(OLD.sire_origin, NEW.sire_origin)
  OR NEW.line IS NOT coalesce(OLD.line, NEW.line)
  OR NEW.laid IS NOT coalesce(OLD.laid, NEW.laid)
  OR NEW.hatched IS NOT coalesce(OLD.hatched, NEW.hatched)
  OR NEW.eggs IS NOT coalesce(OLD.eggs, NEW.eggs)
BEGIN SELECT RAISE(ABORT, 'a clutch is only ever completed'); END;
CREATE TRIGGER clutches_delete BEFORE DELETE ON clutches
BEGIN SELECT RAISE(ABORT, 'a clutch is only ever completed'); END;

CREATE TABLE clutch_sires (
  clutch TEXT NOT NULL REFERENCES clutches (id) DEFERRABLE INITIALLY DEFERRED,
  place INTEGER NOT NULL,
  animal TEXT NOT NULL REFERENCES animals (id) DEFERRABLE INITIALLY DEFERRED,
  share REAL,
  PRIMARY KEY (clutch, place)
) STRICT, WITHOUT ROWID;
CREATE INDEX clutch_sires_by_animal ON clutch_sires (animal);
CREATE TRIGGER clutch_sires_insert BEFORE INSERT ON clutch_sires
WHEN EXISTS (SELECT 1 FROM clutch_sires WHERE clutch = NEW.clutch AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'a clutch is only ever completed'); END;
CREATE TRIGGER clutch_sires_update BEFORE UPDATE ON clutch_sires
BEGIN SELECT RAISE(ABORT, 'a clutch is only ever completed'); END;
CREATE TRIGGER clutch_sires_delete BEFORE DELETE ON clutch_sires
BEGIN SELECT RAISE(ABORT, 'a clutch is only ever completed'); END;
)sql";

constexpr const char* observations = R"sql(
CREATE TABLE observations (
  sequence INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  animal TEXT REFERENCES animals (id),
  locus TEXT,
  shows TEXT,
  marker TEXT,
  level TEXT,
  reason TEXT,
  scorer TEXT,
  sure REAL,
  blind INTEGER CHECK (blind IN (0, 1)),
  assay TEXT,
  report TEXT,
  sample TEXT,
  partner TEXT,
  withdraws TEXT REFERENCES observations (id) DEFERRABLE INITIALLY DEFERRED,
  why TEXT,
  seen_on TEXT,
  recorded TEXT,
  entered TEXT NOT NULL,
  CHECK (CASE kind
    WHEN 'appearance' THEN animal IS NOT NULL AND locus IS NOT NULL AND shows IS NOT NULL
    WHEN 'score' THEN animal IS NOT NULL AND marker IS NOT NULL
    WHEN 'result' THEN animal IS NOT NULL AND assay IS NOT NULL AND report IS NOT NULL
    WHEN 'brood' THEN animal IS NOT NULL AND locus IS NOT NULL AND partner IS NOT NULL
    WHEN 'withdrawal' THEN animal IS NULL AND withdraws IS NOT NULL
    ELSE 0 END)
) STRICT;
CREATE INDEX observations_by_animal ON observations (animal);
CREATE INDEX observations_by_withdrawn ON observations (withdraws) WHERE withdraws IS NOT NULL;
CREATE TRIGGER observations_insert BEFORE INSERT ON observations
WHEN NEW.sequence IS NOT (SELECT coalesce(max(sequence), 0) + 1 FROM observations)
  OR EXISTS (SELECT 1 FROM observations WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'observations are only ever added'); END;
CREATE TRIGGER observations_update BEFORE UPDATE ON observations
BEGIN SELECT RAISE(ABORT, 'an observation is never changed; it can be withdrawn'); END;
CREATE TRIGGER observations_delete BEFORE DELETE ON observations
BEGIN SELECT RAISE(ABORT, 'an observation is never erased; it can be withdrawn'); END;

-- Written before the observation that they belong to; once that stands, none can be added.
CREATE TABLE brood_offspring (
  observation TEXT NOT NULL REFERENCES observations (id) DEFERRABLE INITIALLY DEFERRED,
  place INTEGER NOT NULL,
  appearance TEXT NOT NULL,
  count INTEGER NOT NULL,
  PRIMARY KEY (observation, place)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER brood_offspring_insert BEFORE INSERT ON brood_offspring
WHEN EXISTS (SELECT 1 FROM observations WHERE id = NEW.observation)
BEGIN SELECT RAISE(ABORT, 'an observation is never changed; it can be withdrawn'); END;
CREATE TRIGGER brood_offspring_update BEFORE UPDATE ON brood_offspring
BEGIN SELECT RAISE(ABORT, 'an observation is never changed; it can be withdrawn'); END;
CREATE TRIGGER brood_offspring_delete BEFORE DELETE ON brood_offspring
BEGIN SELECT RAISE(ABORT, 'an observation is never erased; it can be withdrawn'); END;
)sql";

}  // namespace

std::string schema_version_1() {
  return std::string(ledger_and_model) + animals + clutches + observations;
}

}  // namespace likelihet::book
