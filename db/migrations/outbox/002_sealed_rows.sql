-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors

-- step: SHA-256 over the whole row (storage/outboxrow.h). A row from before has this word until the
-- program, which opens the file next, has sealed it; no other row ever has it.
ALTER TABLE kept ADD COLUMN seal TEXT NOT NULL DEFAULT 'unsealed';
