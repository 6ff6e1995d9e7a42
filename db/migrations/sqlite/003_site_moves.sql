-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- One statement after each "step" line. The postgresql folder has the same tables.

-- step: that a site was moved out of this database, and back into it: its last row says which. Where
-- it is away, nothing is written for it here. Belongs to the database and never moves along.
CREATE TABLE site_move (
    site TEXT NOT NULL REFERENCES site (site),
    number INTEGER NOT NULL CHECK (number >= 1),
    at INTEGER NOT NULL,
    away INTEGER NOT NULL CHECK (away IN (0, 1)),
    place TEXT NOT NULL,
    PRIMARY KEY (site, number)
) STRICT;

-- step
CREATE TRIGGER site_move_no_update BEFORE UPDATE ON site_move
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;

-- step
CREATE TRIGGER site_move_no_delete BEFORE DELETE ON site_move
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;
