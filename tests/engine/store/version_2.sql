-- A store as version 2 left it, with one person and one attempt of three counts. Kept for ever: never changed to suit a
-- newer program. The texts of scenario and protocol are put in by the test.
CREATE TABLE store_version (number INTEGER NOT NULL) STRICT;
INSERT INTO store_version VALUES (2);
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
INSERT INTO attempt VALUES ('0000000000000000000000000000000a', 1, 'a-014', 'q01-six-seconds', 'aaaa', 'who-2018',
    'bbbb', 9007199254740991, 1, '0.1.0', 'shifted', 0.0213, '2026-03-01T18:20:00.000Z', 'count,record',
    '{"scenario":{"text":},"protocol":{"text":},"events":[{"t":1,"do":"note","text":"the \"score\": 5"}],
"score":{"aspects":[],"windows":[{"true_beats":35,"followed":"baby","judged":false},
{"true_beats":41,"followed":"baby","judged":true},{"true_beats":20,"followed":"mother","judged":true}]}
}', 20, 40);
CREATE TABLE item (scenario_id TEXT NOT NULL PRIMARY KEY, number INTEGER NOT NULL UNIQUE) STRICT;
INSERT INTO item VALUES ('q01-six-seconds', 1);
CREATE TABLE counted (
    attempt INTEGER NOT NULL, place INTEGER NOT NULL, person INTEGER NOT NULL, item INTEGER NOT NULL,
    method INTEGER NOT NULL, instrument INTEGER NOT NULL, true_beats INTEGER NOT NULL, counted INTEGER NOT NULL,
    true_mbpm INTEGER NOT NULL, written_mbpm INTEGER NOT NULL, verdicts INTEGER NOT NULL,
    PRIMARY KEY (attempt, place)) STRICT;
INSERT INTO counted VALUES (1, 0, 1, 1, 15, 4, 35, 35, 139900, 140000, 128);
INSERT INTO counted VALUES (1, 1, 1, 1, 15, 4, 41, 40, 161200, 160000, 128);
INSERT INTO counted VALUES (1, 2, 1, 1, 15, 4, 20, 20, 101000, 80000, 128);
CREATE INDEX attempt_of_person ON attempt (person, finished_utc);
