// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>
#include <QStringList>

#include <variant>
#include <vector>

// Tables for a spreadsheet: RFC 4180, UTF-8 with a byte order mark (without it spreadsheets read
// the bytes as a local code page), lines end with CR LF. Pure.
namespace ramplight {

/// A whole number, or words that somebody may have typed.
using CsvCell = std::variant<QString, int>;

class CsvTable
{
public:
    explicit CsvTable(const QStringList& header);

    /// As many cells as the header has.
    void add(const std::vector<CsvCell>& row);
    [[nodiscard]] const QByteArray& bytes() const { return m_bytes; }
    [[nodiscard]] int rows() const { return m_rows; }

private:
    void line(const QStringList& cells);

    QByteArray m_bytes;
    int m_rows = 0;
};

/// Words as a cell. What a spreadsheet would take for a formula (it begins with = + - @, a tab or a
/// line break, or with one of their wide forms) gets an apostrophe in front, so that what somebody
/// typed at the kiosk does nothing on the desk of whoever opens the file.
[[nodiscard]] QString csvText(const QString& words);

} // namespace ramplight
