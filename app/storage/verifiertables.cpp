// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The read tables, held against a replay.
#include "storage/verifier.h"

namespace ramplight {
namespace {

/// Names of the columns that differ.
QStringList differences(const CarRow& is, const CarRow& replayed)
{
    QStringList columns;
    const auto compare = [&](const char* name, auto CarRow::*column) {
        if (is.*column != replayed.*column)
            columns.append(QString::fromLatin1(name));
    };
    compare("seq", &CarRow::seq);
    compare("rules_seq", &CarRow::rulesSeq);
    compare("stock_number", &CarRow::stockNumber);
    compare("stock_key", &CarRow::stockKey);
    compare("registration_key", &CarRow::registrationKey);
    compare("status", &CarRow::status);
    compare("on_wall", &CarRow::onWall);
    compare("gone", &CarRow::gone);
    compare("bay", &CarRow::bay);
    compare("promised", &CarRow::promised);
    compare("arrived_at", &CarRow::arrivedAt);
    compare("last_at", &CarRow::lastAt);
    compare("released_at", &CarRow::releasedAt);
    compare("card", &CarRow::card);
    return columns;
}

} // namespace

void Verifier::checkReadTables(const CarState& car)
{
    const auto rows = readCar(m_ledger.connection(), m_ledger.siteId(), car.id.text);
    const auto wrong = [&](const QString& words) {
        fault(QStringLiteral("read tables, car %1").arg(car.id.text), words, FaultKind::ReadTables);
    };
    if (!rows) {
        wrong(storeError(rows.error()).words);
        return;
    }
    if (rows->car.car.isEmpty()) {
        wrong(QStringLiteral("the car is in the ledger but not in its table"));
    } else {
        // A card keeps the words of the rules under which it was written; those on the wall have
        // today's.
        const qint64 newest = m_rules.rbegin()->first;
        const auto rules = m_rules.find(rows->car.rulesSeq);
        const qint64 used =
            rules == m_rules.end() || rows->car.onWall ? newest : rows->car.rulesSeq;
        const QStringList columns = differences(rows->car, carRowOf(car, m_rules.at(used), used));
        if (!columns.isEmpty())
            wrong(QStringLiteral("not what the ledger makes: %1")
                      .arg(columns.join(QStringLiteral(", "))));
    }
    if (rows->segments != segmentRowsOf(car))
        wrong(QStringLiteral("the stretches of work are not those of the ledger"));
    if (rows->photos != keptPhotosOf(car))
        wrong(QStringLiteral("the photos are not those of the ledger"));
}

void Verifier::checkLeftOverRows(const std::set<QString>& cars)
{
    const auto known = carsInReadTables(m_ledger.connection(), m_ledger.siteId());
    if (!known) {
        fault(QStringLiteral("read tables"), storeError(known.error()).words,
              FaultKind::ReadTables);
        return;
    }
    for (const QString& car : *known)
        if (!cars.contains(car))
            fault(QStringLiteral("read tables, car %1").arg(car),
                  QStringLiteral("the ledger knows no such car"), FaultKind::ReadTables);
}

} // namespace ramplight
