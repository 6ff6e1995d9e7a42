// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QByteArrayList>
#include <QMap>
#include <QString>
#include <QStringList>

#include <vector>

// What stands in a SQLite file, read behind the program's back, and where in the file it stands.
namespace ramplight::test {

/// The tables of a file by name, without SQLite's own.
[[nodiscard]] QStringList tablesOf(const QString& file);

/// Every value, by "table.column" in the order of the rows; empty when the file cannot be read.
using Content = QMap<QString, QByteArrayList>;
[[nodiscard]] Content contentOf(const QString& file);
/// "was: ...; is: ...", of the first value that differs and is of any consequence; empty: none
/// does.
[[nodiscard]] QString firstDifference(const Content& was, const Content& is);

/// Bytes of a row in a database's file.
struct RowPlace
{
    qint64 at = 0;
    qint64 length = 0;
};
/// Where the rows of a table stand, as far as they stand in the table's own pages. bytes: the whole
/// file, which `file` has.
[[nodiscard]] std::vector<RowPlace> rowsOf(const QString& file, const QByteArray& bytes,
                                           const QString& table);

[[nodiscard]] QByteArray withBitTurned(QByteArray bytes, qint64 bit);
/// Replaces a file's bytes; what SQLite keeps beside it goes.
[[nodiscard]] bool putDatabase(const QString& file, const QByteArray& bytes);

} // namespace ramplight::test
