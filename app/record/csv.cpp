// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/csv.h"

#include <algorithm>

namespace ramplight {

namespace {

QString quoted(const QString& cell)
{
    const auto needs = [](QChar c) {
        return c == u'"' || c == u',' || c == u';' || c == u'\n' || c == u'\r' || c == u'\t';
    };
    if (std::none_of(cell.begin(), cell.end(), needs))
        return cell;
    QString inside = cell;
    inside.replace(QLatin1Char('"'), QStringLiteral("\"\""));
    return QLatin1Char('"') + inside + QLatin1Char('"');
}

bool beginsAFormula(const QString& words)
{
    static const QString first =
        QStringLiteral("=+-@\t\r\n") + QString::fromUtf16(u"\uff1d\uff0b\uff0d\uff20");
    return !words.isEmpty() && first.contains(words.front());
}

} // namespace

QString csvText(const QString& words)
{
    return quoted(beginsAFormula(words.trimmed()) || beginsAFormula(words)
                      ? QLatin1Char('\'') + words
                      : words);
}

CsvTable::CsvTable(const QStringList& header)
    : m_bytes("\xef\xbb\xbf")
{
    QStringList cells;
    for (const QString& title : header)
        cells.append(csvText(title));
    line(cells);
}

void CsvTable::add(const std::vector<CsvCell>& row)
{
    QStringList cells;
    for (const CsvCell& cell : row)
        cells.append(std::holds_alternative<int>(cell) ? QString::number(std::get<int>(cell))
                                                       : csvText(std::get<QString>(cell)));
    line(cells);
    ++m_rows;
}

void CsvTable::line(const QStringList& cells)
{
    m_bytes += cells.join(QLatin1Char(',')).toUtf8();
    m_bytes += "\r\n";
}

} // namespace ramplight
