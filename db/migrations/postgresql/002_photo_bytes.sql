-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- One statement after each "step" line. The sqlite folder has the same tables.

-- step: photos of a house that keeps them beside its ledger, for several kiosks. No read table: they
-- cannot be made anew. A photo has its SHA-256 for a name; kept_at says when somebody last kept it.
CREATE TABLE photo_bytes (
    site TEXT NOT NULL REFERENCES site (site),
    photo TEXT NOT NULL CHECK (length(photo) = 64),
    form TEXT NOT NULL CHECK (form IN ('full', 'panel', 'card')),
    kept_at BIGINT NOT NULL,
    bytes BYTEA NOT NULL CHECK (octet_length(bytes) <= 16777216),
    PRIMARY KEY (site, photo, form)
);
