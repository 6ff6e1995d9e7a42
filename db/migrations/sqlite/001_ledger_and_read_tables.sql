-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- One statement after each "step" line. The postgresql folder has the same tables.
-- Ids are text, times are milliseconds since 1970 UTC, structures are compact JSON.

-- step: this is how the program knows its own files ("RAMP")
PRAGMA application_id = 1380011344;

-- step
CREATE TABLE site (
    site TEXT NOT NULL PRIMARY KEY,
    made_at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- step: every command that was carried out, with the number of its entries
CREATE TABLE command (
    site TEXT NOT NULL REFERENCES site (site),
    command TEXT NOT NULL,
    at INTEGER NOT NULL,
    actor INTEGER NOT NULL,
    entries INTEGER NOT NULL,
    PRIMARY KEY (site, command)
) STRICT, WITHOUT ROWID;

-- step: streams are "site", "heads" and "car/<id>"; position orders the entries of all streams
CREATE TABLE ledger (
    position INTEGER PRIMARY KEY,
    site TEXT NOT NULL,
    stream TEXT NOT NULL,
    seq INTEGER NOT NULL CHECK (seq >= 1),
    at INTEGER NOT NULL,
    actor INTEGER NOT NULL CHECK (actor >= 0),
    command TEXT NOT NULL,
    type TEXT NOT NULL,
    version INTEGER NOT NULL CHECK (version >= 1),
    body TEXT NOT NULL,
    prev_hash TEXT NOT NULL,
    hash TEXT NOT NULL CHECK (length(hash) = 64),
    CONSTRAINT ledger_entry UNIQUE (site, stream, seq),
    CONSTRAINT ledger_command FOREIGN KEY (site, command) REFERENCES command (site, command)
) STRICT;

-- step: also keeps REPLACE from removing an entry
CREATE TRIGGER ledger_taken BEFORE INSERT ON ledger
WHEN EXISTS (SELECT 1 FROM ledger WHERE site = NEW.site AND stream = NEW.stream AND seq = NEW.seq)
    OR EXISTS (SELECT 1 FROM ledger WHERE position = NEW.position)
BEGIN
    SELECT RAISE(ABORT, 'ramplight: entry taken');
END;

-- step: no gaps, and each entry names the hash of the one before
CREATE TRIGGER ledger_follows BEFORE INSERT ON ledger
WHEN NEW.prev_hash IS NOT (
    CASE WHEN NEW.seq = 1 THEN ''
         ELSE (SELECT hash FROM ledger
               WHERE site = NEW.site AND stream = NEW.stream AND seq = NEW.seq - 1)
    END)
BEGIN
    SELECT RAISE(ABORT, 'ramplight: chain broken');
END;

-- step
CREATE TRIGGER ledger_no_update BEFORE UPDATE ON ledger
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;

-- step
CREATE TRIGGER ledger_no_delete BEFORE DELETE ON ledger
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;

-- step
CREATE TRIGGER command_taken BEFORE INSERT ON command
WHEN EXISTS (SELECT 1 FROM command WHERE site = NEW.site AND command = NEW.command)
BEGIN
    SELECT RAISE(ABORT, 'ramplight: command known');
END;

-- step
CREATE TRIGGER command_no_update BEFORE UPDATE ON command
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;

-- step
CREATE TRIGGER command_no_delete BEFORE DELETE ON command
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;

-- step: read table: a car as the wall needs it. rules_seq is the entry of the site's stream whose
-- house rules worded the card.
CREATE TABLE car (
    site TEXT NOT NULL,
    car TEXT NOT NULL,
    seq INTEGER NOT NULL,
    rules_seq INTEGER NOT NULL,
    stock_number TEXT NOT NULL,
    stock_key TEXT NOT NULL,
    registration_key TEXT NOT NULL,
    status TEXT NOT NULL,
    on_wall INTEGER NOT NULL,
    gone INTEGER NOT NULL,
    bay INTEGER NOT NULL,
    promised TEXT NOT NULL,
    arrived_at INTEGER NOT NULL,
    last_at INTEGER NOT NULL,
    released_at INTEGER NOT NULL,
    card TEXT NOT NULL,
    PRIMARY KEY (site, car)
) STRICT;

-- step: the wall's query reads these rows only, however long the history is
CREATE INDEX car_on_wall ON car (site, car) WHERE on_wall = 1;

-- step
CREATE UNIQUE INDEX one_car_per_bay ON car (site, bay) WHERE bay <> 0;

-- step
CREATE UNIQUE INDEX one_car_per_stock_number ON car (site, stock_number) WHERE gone = 0;

-- step: searching reads this index and not the cards
CREATE INDEX car_search ON car (site, stock_key, registration_key, car);

-- step
CREATE INDEX car_released ON car (site, released_at) WHERE released_at <> 0;

-- step: read table: who worked when; end_at is null while the timer runs
CREATE TABLE work_segment (
    site TEXT NOT NULL,
    car TEXT NOT NULL,
    segment INTEGER NOT NULL,
    operation INTEGER NOT NULL,
    person INTEGER NOT NULL,
    start_at INTEGER NOT NULL,
    end_at INTEGER,
    PRIMARY KEY (site, car, segment)
) STRICT, WITHOUT ROWID;

-- step
CREATE UNIQUE INDEX one_running_segment_per_person ON work_segment (site, person)
    WHERE end_at IS NULL;

-- step
CREATE INDEX work_by_start ON work_segment (site, person, start_at);

-- step
CREATE INDEX work_by_end ON work_segment (site, person, end_at);

-- step: read table: which car a photo proves something about
CREATE TABLE photo_use (
    site TEXT NOT NULL,
    photo TEXT NOT NULL,
    car TEXT NOT NULL,
    PRIMARY KEY (site, photo, car)
) STRICT, WITHOUT ROWID;

-- step
CREATE INDEX photo_by_car ON photo_use (site, car);

-- step: outside the ledger, so that it can be erased
CREATE TABLE person_name (
    site TEXT NOT NULL,
    person INTEGER NOT NULL,
    name TEXT NOT NULL,
    PRIMARY KEY (site, person)
) STRICT, WITHOUT ROWID;

-- step
CREATE TABLE credential (
    site TEXT NOT NULL,
    person INTEGER NOT NULL,
    pin_hash TEXT NOT NULL,
    PRIMARY KEY (site, person)
) STRICT, WITHOUT ROWID;

-- step
CREATE TABLE badge (
    site TEXT NOT NULL,
    code TEXT NOT NULL,
    person INTEGER NOT NULL,
    PRIMARY KEY (site, code)
) STRICT, WITHOUT ROWID;

-- step
CREATE TABLE pin_failure (
    site TEXT NOT NULL,
    person INTEGER NOT NULL,
    number INTEGER NOT NULL,
    kind TEXT NOT NULL,
    at INTEGER NOT NULL,
    PRIMARY KEY (site, person, number)
) STRICT, WITHOUT ROWID;

-- step
CREATE TABLE setting (
    site TEXT NOT NULL,
    name TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (site, name)
) STRICT, WITHOUT ROWID;
