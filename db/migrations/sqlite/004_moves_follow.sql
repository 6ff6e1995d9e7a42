-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- One statement after each "step" line. The postgresql folder has the same guard.

-- step: moves are numbered without gaps; also keeps REPLACE from changing one
CREATE TRIGGER site_move_follows BEFORE INSERT ON site_move
WHEN NEW.number IS NOT
    (SELECT coalesce(max(number), 0) + 1 FROM site_move WHERE site = NEW.site)
BEGIN
    SELECT RAISE(ABORT, 'ramplight: append only');
END;
