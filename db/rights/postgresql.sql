-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- What the kiosks' account may do in a database that another account owns: it adds to the ledger and
-- reads it; it can neither change nor remove an entry, nor place one before others, nor take a guard
-- away. "ramplight prepare-server" runs this after the migrations. Whoever would rather read and run
-- it by hand does so as the owner, and again after each new version of the program:
--
--   psql --set=kiosk=ramplight_kiosk --set=schema=public --file=db/rights/postgresql.sql \
--        "host=... dbname=ramplight user=ramplight_owner"

-- step: nobody keeps what an earlier version or a visitor was given
REVOKE ALL ON ALL TABLES IN SCHEMA :"schema" FROM PUBLIC, :"kiosk";

-- step
REVOKE CREATE ON SCHEMA :"schema" FROM PUBLIC, :"kiosk";

-- step
GRANT USAGE ON SCHEMA :"schema" TO :"kiosk";

-- step
GRANT SELECT ON :"schema".schema_version TO :"kiosk";

-- step: what stays as it was written; the position is the server's to give
GRANT SELECT, INSERT ON :"schema".site, :"schema".command, :"schema".site_move TO :"kiosk";

-- step
GRANT SELECT, INSERT (site, stream, seq, at, actor, command, type, version, body, prev_hash, hash)
    ON :"schema".ledger TO :"kiosk";

-- step: read tables, which the ledger can make again, and what must be erasable
GRANT SELECT, INSERT, UPDATE, DELETE ON :"schema".car, :"schema".work_segment, :"schema".photo_use,
    :"schema".photo_bytes, :"schema".person_name, :"schema".credential, :"schema".badge, :"schema".pin_failure,
    :"schema".setting TO :"kiosk";

-- step: guards look into this schema, not into a table of the same name that the account made for itself
ALTER FUNCTION :"schema".ramplight_follows() SET search_path = :"schema", pg_temp;

-- step
ALTER FUNCTION :"schema".ramplight_moves_follow() SET search_path = :"schema", pg_temp;
