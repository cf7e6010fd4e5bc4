#include "storage/internal/schema.h"

namespace barm::storage::internal {

namespace {

// Every table of records begins alike: id, revision, saved_at, deleted_at (seconds since 1970 UTC).
constexpr std::string_view first = R"sql(
CREATE TABLE setting (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  value TEXT NOT NULL
) STRICT;

CREATE TABLE scale (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, low REAL NOT NULL, high REAL NOT NULL CHECK (high > low),
  low_words TEXT NOT NULL, high_words TEXT NOT NULL
) STRICT;

CREATE TABLE culture (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, starter TEXT NOT NULL, flour TEXT NOT NULL, feed TEXT NOT NULL,
  temperature_C REAL NOT NULL, feed_every_h REAL, ripe_weight_g REAL,
  memory TEXT NOT NULL, note TEXT NOT NULL
) STRICT;

CREATE TABLE feeding (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  culture TEXT NOT NULL REFERENCES culture (id) ON DELETE CASCADE,
  at INTEGER NOT NULL, ripe_g REAL NOT NULL, flour_g REAL NOT NULL, water_g REAL NOT NULL,
  flour TEXT NOT NULL, temperature_C REAL, remark TEXT NOT NULL
) STRICT;
CREATE INDEX feeding_of_culture ON feeding (culture, at);

CREATE TABLE bottle (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, ingredient TEXT NOT NULL,
  price TEXT NOT NULL, currency TEXT NOT NULL, priced_on TEXT NOT NULL,
  size_mL REAL NOT NULL, size_g REAL NOT NULL, left_mL REAL NOT NULL, left_g REAL NOT NULL,
  whole_bottles REAL NOT NULL, strength_percent_vol REAL, sugar_g_per_L REAL,
  opened_on TEXT, toml TEXT NOT NULL, remark TEXT NOT NULL
) STRICT;

CREATE TABLE bake (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, tags TEXT NOT NULL CHECK (tags LIKE '[%]'),
  state TEXT NOT NULL CHECK (state IN ('draft', 'planned', 'live', 'finished', 'given_up')),
  toml TEXT NOT NULL,
  culture TEXT REFERENCES culture (id) ON DELETE SET NULL,
  mixed_at INTEGER, finished_at INTEGER, note TEXT NOT NULL
) STRICT;
CREATE INDEX bake_by_time ON bake (coalesce(mixed_at, saved_at) DESC, id);
CREATE INDEX bake_by_state ON bake (state);
CREATE INDEX bake_of_culture ON bake (culture) WHERE culture IS NOT NULL;

CREATE TABLE bake_version (
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, title TEXT NOT NULL, toml TEXT NOT NULL,
  PRIMARY KEY (bake, revision)
) STRICT;

CREATE TABLE reading (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  at INTEGER NOT NULL,
  height_mm REAL CHECK (height_mm > 0), edge_mm REAL CHECK (edge_mm > 0),
  dome_mm REAL CHECK (dome_mm > 0), ratio REAL CHECK (ratio > 0),
  sample_C REAL, bulk_C REAL, room_C REAL, ph REAL CHECK (ph BETWEEN 0 AND 14),
  remark TEXT NOT NULL
) STRICT;
CREATE INDEX reading_of_bake ON reading (bake, at, deleted_at);

CREATE TABLE mark (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  what TEXT NOT NULL, of TEXT NOT NULL, stage INTEGER, poured_g REAL CHECK (poured_g >= 0),
  at INTEGER NOT NULL
) STRICT;
CREATE INDEX mark_of_bake ON mark (bake, at);

CREATE TABLE loaf (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  title TEXT NOT NULL, baked_at INTEGER NOT NULL,
  dough_g REAL CHECK (dough_g > 0), baked_g REAL CHECK (baked_g > 0),
  height_mm REAL CHECK (height_mm > 0), width_mm REAL CHECK (width_mm > 0),
  length_mm REAL CHECK (length_mm > 0), spring REAL CHECK (spring > 0),
  crumb TEXT NOT NULL, crust TEXT NOT NULL, taste TEXT NOT NULL,
  scores TEXT NOT NULL CHECK (scores LIKE '{%}')
) STRICT;
CREATE INDEX loaf_of_bake ON loaf (bake);

CREATE TABLE remark (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT REFERENCES bake (id) ON DELETE CASCADE,
  culture TEXT REFERENCES culture (id) ON DELETE CASCADE,
  at INTEGER NOT NULL, text TEXT NOT NULL
) STRICT;
CREATE INDEX remark_of_bake ON remark (bake) WHERE bake IS NOT NULL;
CREATE INDEX remark_of_culture ON remark (culture) WHERE culture IS NOT NULL;

CREATE TABLE photo (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT REFERENCES bake (id) ON DELETE CASCADE,
  loaf TEXT REFERENCES loaf (id) ON DELETE CASCADE,
  culture TEXT REFERENCES culture (id) ON DELETE CASCADE,
  taken_at INTEGER NOT NULL, caption TEXT NOT NULL,
  width_px INTEGER NOT NULL, height_px INTEGER NOT NULL, size_bytes INTEGER NOT NULL
) STRICT;
CREATE INDEX photo_of_bake ON photo (bake) WHERE bake IS NOT NULL;
CREATE INDEX photo_of_loaf ON photo (loaf) WHERE loaf IS NOT NULL;
CREATE INDEX photo_of_culture ON photo (culture) WHERE culture IS NOT NULL;

CREATE TABLE picture (
  photo TEXT PRIMARY KEY REFERENCES photo (id) ON DELETE CASCADE,
  picture BLOB NOT NULL, thumbnail BLOB NOT NULL
) STRICT;

CREATE TABLE test_bake (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, question TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('planned', 'live', 'finished', 'given_up')),
  document TEXT NOT NULL
) STRICT;

CREATE TABLE test_member (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  test_bake TEXT NOT NULL REFERENCES test_bake (id) ON DELETE CASCADE,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  label TEXT NOT NULL
) STRICT;
CREATE INDEX test_member_of_test ON test_member (test_bake);
CREATE INDEX test_member_of_bake ON test_member (bake);

CREATE TABLE change (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL, id TEXT NOT NULL, revision INTEGER NOT NULL,
  what TEXT NOT NULL CHECK (what IN ('saved', 'deleted', 'restored', 'purged')),
  at INTEGER NOT NULL
) STRICT;
)sql";

// What was worked out from a bake, kept to be quick; it may be thrown away at any time.
constexpr std::string_view second = R"sql(
ALTER TABLE culture ADD COLUMN left_out TEXT NOT NULL DEFAULT '[]' CHECK (left_out LIKE '[%]');

CREATE TABLE reckoned (
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  what TEXT NOT NULL, made_from TEXT NOT NULL, answer TEXT NOT NULL,
  PRIMARY KEY (bake, what)
) STRICT;
)sql";

// Where the numbers of changes and revisions begin: at the making, and anew each time a copy was
// put back, whose last number is `after`.
constexpr std::string_view third = R"sql(
CREATE TABLE epoch (first INTEGER PRIMARY KEY, after INTEGER NOT NULL) STRICT;
INSERT INTO epoch (first, after) VALUES (1, 0);
)sql";

// Ovens, fridges and mixers of the house.
constexpr std::string_view fourth = R"sql(
CREATE TABLE equipment (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, what TEXT NOT NULL CHECK (what IN ('oven', 'fridge', 'mixer')),
  toml TEXT NOT NULL, measured TEXT NOT NULL, remark TEXT NOT NULL
) STRICT;
)sql";

}  // namespace

const std::vector<std::string_view>& schema_steps() {
  static const std::vector<std::string_view> steps{first, second, third, fourth};
  return steps;
}

int newest_version() { return static_cast<int>(schema_steps().size()); }

}  // namespace barm::storage::internal
