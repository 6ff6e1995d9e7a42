-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- What a kiosk keeps while the server that it shares with others is away. SQLite; as the others:
-- ids are text, times are milliseconds since 1970 UTC, structures are compact JSON.

-- step: this is how the program knows its own files ("RAMP")
PRAGMA application_id = 1380011344;

-- step: a row goes once the server has it; a refused one stays, also after somebody has seen it
CREATE TABLE kept (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    site TEXT NOT NULL,
    command TEXT NOT NULL,
    at INTEGER NOT NULL,
    request TEXT NOT NULL,
    works TEXT NOT NULL,
    refusal TEXT NOT NULL DEFAULT '',
    refused_at INTEGER NOT NULL DEFAULT 0,
    seen_by INTEGER NOT NULL DEFAULT 0,
    seen_at INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT kept_once UNIQUE (site, command)
) STRICT;

-- step: when this kiosk last knew everything of the site
CREATE TABLE known (
    site TEXT NOT NULL PRIMARY KEY,
    at INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
