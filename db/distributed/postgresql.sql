-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- The same schema for a group whose sites no longer fit on one server: every table but two is cut
-- into shards by its site. The program needs no change and does not know. Run as the owner on an
-- empty database, instead of letting the program make its tables:
--
--   psql --single-transaction --file=db/distributed/postgresql.sql "dbname=ramplight user=ramplight_owner"
--
-- What makes it possible, and has to stay so:
--   * the site comes first in every primary key and unique index, so each is held inside one shard;
--   * one command writes to one site, so each transaction stays on one node and needs no two-phase commit;
--   * the foreign key command -> ledger joins rows of one site; site and schema_version are small, hardly
--     ever change, and are kept whole on every node;
--   * photos are the most of what a site keeps: they lie beside its ledger, on the same node;
--   * the guards look at rows of the same site only;
--   * position orders the entries of one site; across sites nothing is compared by it.
-- What a node does for itself alone are the lock on a site and the call to the other kiosks
-- (pg_advisory_xact_lock, NOTIFY): all kiosks of one site are to be connected to one node, the one that holds
-- the site.
--
-- As it stands, this is plain PostgreSQL: the shards are partitions by hash on one server, which may lie in
-- table spaces of their own, and can be moved one by one. An extension that spreads shards over several
-- servers is given the tables of the migrations and the column "site" as what to spread them by, all in
-- one group, with site and schema_version on every node; the statements below show that nothing stands in the
-- way of that. It has what all migrations so far make; who adds one adds its tables here, and one that changes
-- a table changes its parent, so that shards follow.

-- step
CREATE TABLE site (
    site TEXT NOT NULL PRIMARY KEY,
    made_at BIGINT NOT NULL
);

-- step: every command that was carried out, with the number of its entries
CREATE TABLE command (
    site TEXT NOT NULL REFERENCES site (site),
    command TEXT NOT NULL,
    at BIGINT NOT NULL,
    actor BIGINT NOT NULL,
    entries BIGINT NOT NULL,
    CONSTRAINT command_known PRIMARY KEY (site, command)
) PARTITION BY HASH (site);

-- step: streams are "site", "heads" and "car/<id>"; position orders the entries of all streams
CREATE TABLE ledger (
    position BIGINT GENERATED ALWAYS AS IDENTITY,
    site TEXT NOT NULL,
    stream TEXT NOT NULL,
    seq BIGINT NOT NULL CHECK (seq >= 1),
    at BIGINT NOT NULL,
    actor BIGINT NOT NULL CHECK (actor >= 0),
    command TEXT NOT NULL,
    type TEXT NOT NULL,
    version BIGINT NOT NULL CHECK (version >= 1),
    body TEXT NOT NULL,
    prev_hash TEXT NOT NULL,
    hash TEXT NOT NULL CHECK (length(hash) = 64),
    CONSTRAINT ledger_entry PRIMARY KEY (site, stream, seq),
    CONSTRAINT ledger_command FOREIGN KEY (site, command) REFERENCES command (site, command)
) PARTITION BY HASH (site);

-- step
CREATE UNIQUE INDEX ledger_position ON ledger (site, position);

-- step
CREATE FUNCTION ramplight_append_only() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'ramplight: append only';
END;
$$;

-- step: no gaps, and each entry names the hash of the one before
CREATE FUNCTION ramplight_follows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.prev_hash IS DISTINCT FROM (
        CASE WHEN NEW.seq = 1 THEN ''
             ELSE (SELECT hash FROM ledger
                   WHERE site = NEW.site AND stream = NEW.stream AND seq = NEW.seq - 1)
        END) THEN
        RAISE EXCEPTION 'ramplight: chain broken';
    END IF;
    RETURN NEW;
END;
$$;

-- step
CREATE TRIGGER ledger_follows BEFORE INSERT ON ledger
FOR EACH ROW EXECUTE FUNCTION ramplight_follows();

-- step
CREATE TRIGGER ledger_no_update BEFORE UPDATE ON ledger
FOR EACH ROW EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER ledger_no_delete BEFORE DELETE ON ledger
FOR EACH ROW EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER ledger_no_truncate BEFORE TRUNCATE ON ledger
FOR EACH STATEMENT EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER command_no_update BEFORE UPDATE ON command
FOR EACH ROW EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER command_no_delete BEFORE DELETE ON command
FOR EACH ROW EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER command_no_truncate BEFORE TRUNCATE ON command
FOR EACH STATEMENT EXECUTE FUNCTION ramplight_append_only();

-- step: read table: a car as the wall needs it. rules_seq is the entry of the site's stream whose
-- house rules worded the card.
CREATE TABLE car (
    site TEXT NOT NULL,
    car TEXT NOT NULL,
    seq BIGINT NOT NULL,
    rules_seq BIGINT NOT NULL,
    stock_number TEXT NOT NULL,
    stock_key TEXT NOT NULL,
    registration_key TEXT NOT NULL,
    status TEXT NOT NULL,
    on_wall BIGINT NOT NULL,
    gone BIGINT NOT NULL,
    bay BIGINT NOT NULL,
    promised TEXT NOT NULL,
    arrived_at BIGINT NOT NULL,
    last_at BIGINT NOT NULL,
    released_at BIGINT NOT NULL,
    card TEXT NOT NULL,
    PRIMARY KEY (site, car)
) PARTITION BY HASH (site);

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
    segment BIGINT NOT NULL,
    operation BIGINT NOT NULL,
    person BIGINT NOT NULL,
    start_at BIGINT NOT NULL,
    end_at BIGINT,
    PRIMARY KEY (site, car, segment)
) PARTITION BY HASH (site);

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
) PARTITION BY HASH (site);

-- step
CREATE INDEX photo_by_car ON photo_use (site, car);

-- step: outside the ledger, so that it can be erased
CREATE TABLE person_name (
    site TEXT NOT NULL,
    person BIGINT NOT NULL,
    name TEXT NOT NULL,
    PRIMARY KEY (site, person)
) PARTITION BY HASH (site);

-- step
CREATE TABLE credential (
    site TEXT NOT NULL,
    person BIGINT NOT NULL,
    pin_hash TEXT NOT NULL,
    PRIMARY KEY (site, person)
) PARTITION BY HASH (site);

-- step
CREATE TABLE badge (
    site TEXT NOT NULL,
    code TEXT NOT NULL,
    person BIGINT NOT NULL,
    PRIMARY KEY (site, code)
) PARTITION BY HASH (site);

-- step
CREATE TABLE pin_failure (
    site TEXT NOT NULL,
    person BIGINT NOT NULL,
    number BIGINT NOT NULL,
    kind TEXT NOT NULL,
    at BIGINT NOT NULL,
    PRIMARY KEY (site, person, number)
) PARTITION BY HASH (site);

-- step
CREATE TABLE setting (
    site TEXT NOT NULL,
    name TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (site, name)
) PARTITION BY HASH (site);

-- step: photos of a house that keeps them beside its ledger, for several kiosks. A photo has its SHA-256 for
-- a name; kept_at says when somebody last kept it.
CREATE TABLE photo_bytes (
    site TEXT NOT NULL REFERENCES site (site),
    photo TEXT NOT NULL CHECK (length(photo) = 64),
    form TEXT NOT NULL CHECK (form IN ('full', 'panel', 'card')),
    kept_at BIGINT NOT NULL,
    bytes BYTEA NOT NULL CHECK (octet_length(bytes) <= 16777216),
    PRIMARY KEY (site, photo, form)
) PARTITION BY HASH (site);

-- step: that a site was moved out of this database, and back into it: its last row says which
CREATE TABLE site_move (
    site TEXT NOT NULL REFERENCES site (site),
    number BIGINT NOT NULL CHECK (number >= 1),
    at BIGINT NOT NULL,
    away BIGINT NOT NULL CHECK (away IN (0, 1)),
    place TEXT NOT NULL,
    PRIMARY KEY (site, number)
) PARTITION BY HASH (site);

-- step
CREATE TRIGGER site_move_no_update BEFORE UPDATE ON site_move
FOR EACH ROW EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER site_move_no_delete BEFORE DELETE ON site_move
FOR EACH ROW EXECUTE FUNCTION ramplight_append_only();

-- step
CREATE TRIGGER site_move_no_truncate BEFORE TRUNCATE ON site_move
FOR EACH STATEMENT EXECUTE FUNCTION ramplight_append_only();

-- step: moves are numbered without gaps
CREATE FUNCTION ramplight_moves_follow() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF NEW.number IS DISTINCT FROM
        (SELECT coalesce(max(number), 0) + 1 FROM site_move WHERE site = NEW.site) THEN
        RAISE EXCEPTION 'ramplight: append only';
    END IF;
    RETURN NEW;
END;
$$;

-- step
CREATE TRIGGER site_move_follows BEFORE INSERT ON site_move
FOR EACH ROW EXECUTE FUNCTION ramplight_moves_follow();

-- step: the shards; as many as there will ever be servers. They take over their table's guards on rows, but
-- not the one on being emptied.
DO $$
DECLARE
    parent TEXT;
BEGIN
    FOREACH parent IN ARRAY ARRAY[
        'command', 'ledger', 'car', 'work_segment', 'photo_use',
        'person_name', 'credential', 'badge', 'pin_failure', 'setting', 'photo_bytes', 'site_move']
    LOOP
        FOR shard IN 0..15 LOOP
            EXECUTE format('CREATE TABLE %I PARTITION OF %I FOR VALUES WITH (MODULUS 16, REMAINDER %s)',
                           parent || '_' || shard, parent, shard);
            IF parent IN ('command', 'ledger', 'site_move') THEN
                EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I'
                               ' FOR EACH STATEMENT EXECUTE FUNCTION ramplight_append_only()',
                               parent || '_no_truncate', parent || '_' || shard);
            END IF;
        END LOOP;
    END LOOP;
END;
$$;

-- step: the program finds its schema there
CREATE TABLE schema_version (
    version BIGINT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    applied_at BIGINT NOT NULL
);

-- step
INSERT INTO schema_version (version, name, applied_at)
SELECT version, name, CAST(extract(epoch FROM now()) * 1000 AS BIGINT)
FROM (VALUES (1, 'ledger_and_read_tables'), (2, 'photo_bytes'), (3, 'site_moves'),
    (4, 'moves_follow')) AS made (version, name);
