-- SPDX-License-Identifier: GPL-3.0-or-later
-- SPDX-FileCopyrightText: The Ramplight contributors
--
-- One statement after each "step" line. The sqlite folder has the same guard.

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
