-- A store as version 1 left it, with one person and one attempt. Kept for ever: never changed to suit a newer program.
CREATE TABLE store_version (number INTEGER NOT NULL) STRICT;
INSERT INTO store_version VALUES (1);
CREATE TABLE person (folded TEXT NOT NULL PRIMARY KEY, code TEXT NOT NULL, number INTEGER NOT NULL UNIQUE) STRICT;
INSERT INTO person VALUES ('a-014', 'A-014', 1);
CREATE TABLE file_text (sha256 TEXT NOT NULL PRIMARY KEY, body TEXT NOT NULL) STRICT;
INSERT INTO file_text VALUES ('aaaa', 'the "scenario"');
INSERT INTO file_text VALUES ('bbbb', 'the protocol');
CREATE TABLE attempt (
    id TEXT NOT NULL PRIMARY KEY, number INTEGER NOT NULL UNIQUE, person TEXT NOT NULL REFERENCES person (folded),
    scenario_id TEXT NOT NULL, scenario_sha256 TEXT NOT NULL, protocol_id TEXT NOT NULL,
    protocol_sha256 TEXT NOT NULL, seed INTEGER NOT NULL, truth INTEGER NOT NULL, program TEXT NOT NULL,
    output_mode TEXT NOT NULL, device_delay_s REAL NOT NULL, finished_utc TEXT NOT NULL, missed TEXT NOT NULL,
    json TEXT NOT NULL, scenario_at INTEGER NOT NULL, protocol_at INTEGER NOT NULL) STRICT;
INSERT INTO attempt VALUES ('0000000000000000000000000000000a', 1, 'a-014', 'c01-own-minute', 'aaaa', 'who-2018',
    'bbbb', 9007199254740991, 1, '0.1.0', 'true', 0.0213, '2026-03-01T18:20:00.000Z', 'count,record',
    '{"s":,"p":}', 5, 10);
CREATE TABLE item (scenario_id TEXT NOT NULL PRIMARY KEY, number INTEGER NOT NULL UNIQUE) STRICT;
INSERT INTO item VALUES ('c01-own-minute', 1);
CREATE TABLE counted (
    attempt INTEGER NOT NULL, place INTEGER NOT NULL, person INTEGER NOT NULL, item INTEGER NOT NULL,
    method INTEGER NOT NULL, instrument INTEGER NOT NULL, true_beats INTEGER NOT NULL, counted INTEGER NOT NULL,
    true_mbpm INTEGER NOT NULL, written_mbpm INTEGER NOT NULL, verdicts INTEGER NOT NULL,
    PRIMARY KEY (attempt, place)) STRICT;
INSERT INTO counted VALUES (1, 0, 1, 1, 60, 1, 141, 139, 140875, 139000, 128);
