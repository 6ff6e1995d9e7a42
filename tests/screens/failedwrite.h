// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kioskbench.h"

#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

// What tests of writes that fail at the wall share.
namespace ramplight::test {

inline const QString tryAgain = QStringLiteral("Try again");

inline void waysToFail()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<WriteFault>("fault");
    const QSize wide(1920, 1080);
    const QSize tall(1080, 1920);
    QTest::newRow("wide, nothing written") << wide << WriteFault::NothingWritten;
    QTest::newRow("tall, nothing written") << tall << WriteFault::NothingWritten;
    QTest::newRow("wide, the answer lost") << wide << WriteFault::AnswerLost;
}

/// Waits for the failure of what was asked, and for its words and the way on where they can be read
/// and touched.
inline bool isTold(KioskBench& bench, const Ask* ask,
                   const QString& words = FaultyDesk::fault().words)
{
    const auto inSight = [&](const QString& said) {
        const QQuickItem* item = bench.find(said);
        return item != nullptr && isInSight(item);
    };
    return bench.until([&] { return ask->refused() && !ask->busy(); },
                       QStringLiteral("the failure")) &&
           bench.house().desk().hasFailed() &&
           bench.until([&] { return inSight(words) && inSight(tryAgain); }, words);
}

inline QString typedIn(KioskBench& bench, const char* type, const QString& label)
{
    const QQuickItem* field = bench.ofType(type, "label", label);
    return field == nullptr ? QStringLiteral("no such field") : field->property("text").toString();
}

} // namespace ramplight::test
