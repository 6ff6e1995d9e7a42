// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "storage/connection.h"

#include <QVariant>

#include <array>
#include <optional>

namespace ramplight {

/// What is kept of a site besides the read tables; a table's rows may refer to those above it. The
/// first value of each statement that reads is the site.
struct KeptTable
{
    const char* name;
    int columns;
    const char* read;
    const char* write;
    const char* clear = nullptr; ///< null: nothing in it ever goes
    const char* count = nullptr; ///< of those
    /// Texts decide the order of its rows, and databases sort those in ways of their own.
    bool byText = false;
    /// What follows the row with a key; its second value. It and `read` then end with how many rows
    /// they bring at most. Null: `read` brings all.
    const char* further = nullptr;
    int key = 0; ///< the column that `further` goes by; may stand behind the others
};

inline constexpr std::array keptTables{
    KeptTable{"command", 5,
              "SELECT site, command, at, actor, entries FROM command WHERE site = ?"
              " ORDER BY command LIMIT ?",
              "INSERT INTO command (site, command, at, actor, entries) VALUES (?, ?, ?, ?, ?)",
              nullptr, "SELECT count(*) FROM command WHERE site = ?", true,
              "SELECT site, command, at, actor, entries FROM command WHERE site = ?"
              " AND command > ? ORDER BY command LIMIT ?",
              1},
    KeptTable{"ledger", 11,
              "SELECT site, stream, seq, at, actor, command, type, version, body, prev_hash, hash,"
              " position FROM ledger WHERE site = ? ORDER BY position LIMIT ?",
              "INSERT INTO ledger (site, stream, seq, at, actor, command, type, version, body,"
              " prev_hash, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
              nullptr, "SELECT count(*) FROM ledger WHERE site = ?", false,
              "SELECT site, stream, seq, at, actor, command, type, version, body, prev_hash, hash,"
              " position FROM ledger WHERE site = ? AND position > ? ORDER BY position LIMIT ?",
              11},
    KeptTable{"person_name", 3,
              "SELECT site, person, name FROM person_name WHERE site = ? ORDER BY person",
              "INSERT INTO person_name (site, person, name) VALUES (?, ?, ?)",
              "DELETE FROM person_name WHERE site = ?"},
    KeptTable{"credential", 3,
              "SELECT site, person, pin_hash FROM credential WHERE site = ? ORDER BY person",
              "INSERT INTO credential (site, person, pin_hash) VALUES (?, ?, ?)",
              "DELETE FROM credential WHERE site = ?"},
    KeptTable{"badge", 3, "SELECT site, code, person FROM badge WHERE site = ? ORDER BY person",
              "INSERT INTO badge (site, code, person) VALUES (?, ?, ?)",
              "DELETE FROM badge WHERE site = ?"},
    KeptTable{"pin_failure", 5,
              "SELECT site, person, number, kind, at FROM pin_failure WHERE site = ?"
              " ORDER BY person, number",
              "INSERT INTO pin_failure (site, person, number, kind, at) VALUES (?, ?, ?, ?, ?)",
              "DELETE FROM pin_failure WHERE site = ?"},
    KeptTable{"setting", 3, "SELECT site, name, value FROM setting WHERE site = ? ORDER BY name",
              "INSERT INTO setting (site, name, value) VALUES (?, ?, ?)",
              "DELETE FROM setting WHERE site = ?", nullptr, true},
};

/// Of what grows for ever. A few megabytes of entries.
inline constexpr int rowsReadAtOnce = 5000;

/// The rows of a table, as its statement puts them. A server's whole answer is in memory before its
/// first row is read, and a ledger is gigabytes: what grows for ever is asked for page by page, in
/// the caller's transaction, so that the pages are of one view. Table and connection outlive it.
class KeptRows
{
public:
    KeptRows(const KeptTable& table, const SiteId& site, Connection& connection,
             int atOnce = rowsReadAtOnce);

    [[nodiscard]] bool next();
    /// After next() said no: it was not the end of them.
    [[nodiscard]] std::optional<SqlFault> fault() const;
    [[nodiscard]] QString text(int column) const { return m_rows->text(column); }
    /// As the database gave it: to be handed on.
    [[nodiscard]] QVariant value(int column) const { return m_rows->value(column); }

private:
    void ask();

    const KeptTable& m_table;
    SiteId m_site;
    Connection& m_connection;
    int m_atOnce;
    std::optional<Rows> m_rows; ///< of this page; none after a fault
    int m_onPage = 0;           ///< rows that were read of it
    QVariant m_last;            ///< key of the last one of the page before
    std::optional<SqlFault> m_fault;
};

} // namespace ramplight
