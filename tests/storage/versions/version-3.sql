-- A daybook of version 3 as barm made it: the schema of its time, a record or two of each kind.
PRAGMA application_id = 1113682541;
PRAGMA user_version = 3;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE setting (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  value TEXT NOT NULL
) STRICT;
INSERT INTO setting VALUES('habits',2,1795953600,NULL,'{"weight":"g"}');
CREATE TABLE scale (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, low REAL NOT NULL, high REAL NOT NULL CHECK (high > low),
  low_words TEXT NOT NULL, high_words TEXT NOT NULL
) STRICT;
INSERT INTO scale VALUES('tang',1,1795953600,NULL,'Tang',1.0,5.0,'mild','sharp');
CREATE TABLE culture (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, starter TEXT NOT NULL, flour TEXT NOT NULL, feed TEXT NOT NULL,
  temperature_C REAL NOT NULL, feed_every_h REAL, ripe_weight_g REAL,
  memory TEXT NOT NULL, note TEXT NOT NULL
, left_out TEXT NOT NULL DEFAULT '[]' CHECK (left_out LIKE '[%]')) STRICT;
INSERT INTO culture VALUES('sluice',3,1795953600,NULL,'Sluice','stiff ripe levain','white bread flour','1:2:1',24.0,24.0,50.0,'','kept by the window','["given"]');
CREATE TABLE feeding (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  culture TEXT NOT NULL REFERENCES culture (id) ON DELETE CASCADE,
  at INTEGER NOT NULL, ripe_g REAL NOT NULL, flour_g REAL NOT NULL, water_g REAL NOT NULL,
  flour TEXT NOT NULL, temperature_C REAL, remark TEXT NOT NULL
) STRICT;
INSERT INTO feeding VALUES('fed-1',1,1795953600,NULL,'sluice',1795950000,50.0,100.0,50.0,'white bread flour',24.5,'');
CREATE TABLE bottle (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, ingredient TEXT NOT NULL,
  price TEXT NOT NULL, currency TEXT NOT NULL, priced_on TEXT NOT NULL,
  size_mL REAL NOT NULL, size_g REAL NOT NULL, left_mL REAL NOT NULL, left_g REAL NOT NULL,
  whole_bottles REAL NOT NULL, strength_percent_vol REAL, sugar_g_per_L REAL,
  opened_on TEXT, toml TEXT NOT NULL, remark TEXT NOT NULL
) STRICT;
INSERT INTO bottle VALUES('mead',2,1795953600,NULL,'Mead from the shed','dry mead','9.60','EUR','2026-11-20',750.0,0.0,420.49999999999999999,0.0,2.0,11.499999999999999999,6.0,'2026-11-27','','opened for the marsh loaf');
CREATE TABLE bake (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, tags TEXT NOT NULL CHECK (tags LIKE '[%]'),
  state TEXT NOT NULL CHECK (state IN ('draft', 'planned', 'live', 'finished', 'given_up')),
  toml TEXT NOT NULL,
  culture TEXT REFERENCES culture (id) ON DELETE SET NULL,
  mixed_at INTEGER, finished_at INTEGER, note TEXT NOT NULL
) STRICT;
INSERT INTO bake VALUES('marsh',4,1795953600,NULL,'Marsh loaf','["mead","saturday"]','finished',replace('name = "Marsh loaf"\n','\n',char(10)),'sluice',1795900000,1795950000,'dense at the foot');
INSERT INTO bake VALUES('given',2,1795953600,1795953600,'Sluice loaf','[]','given_up',replace('name = "Sluice loaf"\n','\n',char(10)),NULL,NULL,NULL,'');
CREATE TABLE bake_version (
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, title TEXT NOT NULL, toml TEXT NOT NULL,
  PRIMARY KEY (bake, revision)
) STRICT;
INSERT INTO bake_version VALUES('marsh',1,1795900000,'Marsh',replace('name = "Marsh"\n','\n',char(10)));
INSERT INTO bake_version VALUES('marsh',4,1795953600,'Marsh loaf',replace('name = "Marsh loaf"\n','\n',char(10)));
INSERT INTO bake_version VALUES('given',1,1795953600,'Sluice loaf',replace('name = "Sluice loaf"\n','\n',char(10)));
CREATE TABLE reading (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  at INTEGER NOT NULL,
  height_mm REAL CHECK (height_mm > 0), edge_mm REAL CHECK (edge_mm > 0),
  dome_mm REAL CHECK (dome_mm > 0), ratio REAL CHECK (ratio > 0),
  sample_C REAL, bulk_C REAL, room_C REAL, ph REAL CHECK (ph BETWEEN 0 AND 14),
  remark TEXT NOT NULL
) STRICT;
INSERT INTO reading VALUES('look-1',1,1795953600,NULL,'marsh',1795910000,62.0,NULL,NULL,NULL,24.0,23.499999999999999999,21.0,NULL,'');
INSERT INTO reading VALUES('look-2',1,1795953600,NULL,'marsh',1795920000,NULL,80.0,92.0,NULL,NULL,NULL,NULL,4.0999999999999996447,'domed; ''soft''');
CREATE TABLE mark (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  what TEXT NOT NULL, of TEXT NOT NULL, stage INTEGER, poured_g REAL CHECK (poured_g >= 0),
  at INTEGER NOT NULL
) STRICT;
INSERT INTO mark VALUES('tick-1',1,1795953600,NULL,'marsh','weighed','dry mead',NULL,610.0,1795900100);
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
INSERT INTO loaf VALUES('first',1,1795953600,NULL,'marsh','the long one',1795950000,820.0,705.0,88.0,120.0,250.0,1.3000000000000000444,'open','brown','of honey','{"tang":3.0}');
CREATE TABLE remark (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT REFERENCES bake (id) ON DELETE CASCADE,
  culture TEXT REFERENCES culture (id) ON DELETE CASCADE,
  at INTEGER NOT NULL, text TEXT NOT NULL
) STRICT;
INSERT INTO remark VALUES('said-1',1,1795953600,NULL,'marsh',NULL,1795953600,'too cold at the door');
INSERT INTO remark VALUES('said-2',1,1795953600,NULL,NULL,'sluice',1795953600,'sour by noon');
CREATE TABLE photo (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  bake TEXT REFERENCES bake (id) ON DELETE CASCADE,
  loaf TEXT REFERENCES loaf (id) ON DELETE CASCADE,
  culture TEXT REFERENCES culture (id) ON DELETE CASCADE,
  taken_at INTEGER NOT NULL, caption TEXT NOT NULL,
  width_px INTEGER NOT NULL, height_px INTEGER NOT NULL, size_bytes INTEGER NOT NULL
) STRICT;
INSERT INTO photo VALUES('seen',1,1795953600,NULL,NULL,'first',NULL,1795953600,'cut',4,3,6);
CREATE TABLE picture (
  photo TEXT PRIMARY KEY REFERENCES photo (id) ON DELETE CASCADE,
  picture BLOB NOT NULL, thumbnail BLOB NOT NULL
) STRICT;
INSERT INTO picture VALUES('seen',X'ffd8ffe07069',X'ffd8ffe07468');
CREATE TABLE test_bake (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  title TEXT NOT NULL, question TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('planned', 'live', 'finished', 'given_up')),
  document TEXT NOT NULL
) STRICT;
INSERT INTO test_bake VALUES('ask',1,1795953600,NULL,'Mead or water','What slows it?','planned','{"name":"What slows it?"}');
CREATE TABLE test_member (
  id TEXT PRIMARY KEY, revision INTEGER NOT NULL, saved_at INTEGER NOT NULL, deleted_at INTEGER,
  test_bake TEXT NOT NULL REFERENCES test_bake (id) ON DELETE CASCADE,
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  label TEXT NOT NULL
) STRICT;
INSERT INTO test_member VALUES('ask-a',1,1795953600,NULL,'ask','marsh','A');
CREATE TABLE change (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL, id TEXT NOT NULL, revision INTEGER NOT NULL,
  what TEXT NOT NULL CHECK (what IN ('saved', 'deleted', 'restored', 'purged')),
  at INTEGER NOT NULL
) STRICT;
INSERT INTO change VALUES(1,'bake','marsh',1,'saved',1795900000);
INSERT INTO change VALUES(41,'bake','given',2,'deleted',1795953600);
CREATE TABLE reckoned (
  bake TEXT NOT NULL REFERENCES bake (id) ON DELETE CASCADE,
  what TEXT NOT NULL, made_from TEXT NOT NULL, answer TEXT NOT NULL,
  PRIMARY KEY (bake, what)
) STRICT;
INSERT INTO reckoned VALUES('marsh','ready','digest','{"p50":7}');
CREATE TABLE epoch (first INTEGER PRIMARY KEY, after INTEGER NOT NULL) STRICT;
INSERT INTO epoch VALUES(1,0);
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('change',41);
CREATE INDEX feeding_of_culture ON feeding (culture, at);
CREATE INDEX bake_by_time ON bake (coalesce(mixed_at, saved_at) DESC, id);
CREATE INDEX bake_by_state ON bake (state);
CREATE INDEX bake_of_culture ON bake (culture) WHERE culture IS NOT NULL;
CREATE INDEX reading_of_bake ON reading (bake, at, deleted_at);
CREATE INDEX mark_of_bake ON mark (bake, at);
CREATE INDEX loaf_of_bake ON loaf (bake);
CREATE INDEX remark_of_bake ON remark (bake) WHERE bake IS NOT NULL;
CREATE INDEX remark_of_culture ON remark (culture) WHERE culture IS NOT NULL;
CREATE INDEX photo_of_bake ON photo (bake) WHERE bake IS NOT NULL;
CREATE INDEX photo_of_loaf ON photo (loaf) WHERE loaf IS NOT NULL;
CREATE INDEX photo_of_culture ON photo (culture) WHERE culture IS NOT NULL;
CREATE INDEX test_member_of_test ON test_member (test_bake);
CREATE INDEX test_member_of_bake ON test_member (bake);
COMMIT;
