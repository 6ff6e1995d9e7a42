// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "sharedhouse.h"
#include "support/testmain.h"

#include <QQuickItem>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

const QString entrance = QStringLiteral("Sent later, and refused: 1");
const QString refusedWords =
    QStringLiteral("1 thing that was done here was refused when it was sent");

bool signIn(KioskBench& bench, const QString& who)
{
    bench.shell().session()->signOut();
    emit bench.shell().session()->timedOut();
    return bench.tap(QStringLiteral("Who are you?")) && bench.signIn(who) &&
           bench.tap(QStringLiteral("My next")) &&
           bench.until([&] { return !bench.ofType("MyNextScreen").empty(); },
                       QStringLiteral("what comes next"));
}

/// Bram's signature for work that the manager took off the car meanwhile; it is refused, and the
/// manager waves it away.
bool isRefusedAndRead(SharedHouse& shared)
{
    KioskBench& bench = shared.bench;
    BenchHouse& house = bench.house();
    if (!shared.isKnown())
        return false;
    shared.wire.cut();
    if (!bench.untilSays(awayWords))
        return false;
    house.must(house.person(QStringLiteral("Bram")), shared.wheel->car,
               {car::ReadCautions{shared.wheel->work}, car::StartWork{shared.wheel->work}});
    house.clock.goOn(10);
    if (const QString left = shared.elsewhere(
            house.person(QStringLiteral("Runa")), shared.wheel->car,
            {car::LeaveAsIs{shared.wheel->work, QStringLiteral("light kerbing, told")}});
        !left.isEmpty()) {
        qWarning("%s", qPrintable(left));
        return false;
    }
    shared.wire.heal();
    if (!bench.untilSays(refusedWords))
        return false;
    house.clock.goOn(30);
    return bench.tap(QStringLiteral("What is kept here")) &&
           bench.untilSays(QStringLiteral("The workshop's ledger says no")) &&
           bench.tap(QStringLiteral("I have read both")) &&
           bench.signIn(QStringLiteral("Runa Talbeck")) && bench.untilGone(refusedWords) &&
           bench.tap(QStringLiteral("Close"));
}

/// The line of Bram's work, with everything that it tells.
bool tellsAll(KioskBench& bench)
{
    if (!bench.tap(entrance))
        return false;
    const auto line = [&]() -> QQuickItem* {
        const auto lines = bench.ofType("KeptLine");
        return lines.empty() ? nullptr : lines.front();
    };
    const auto text = [&](const char* property) { return line()->property(property).toString(); };
    if (!bench.until(
            [&] {
                return line() != nullptr && !line()->property("there").toStringList().isEmpty();
            },
            QStringLiteral("both stories")))
        return false;
    return bench.untilSays(QStringLiteral("K-7 · ") + text("work")) &&
           text("here").contains(QStringLiteral("Bram Holloway")) &&
           text("here").contains(QStringLiteral("14:00")) && !text("refusal").isEmpty() &&
           line()->property("there").toStringList().front().contains(
               QStringLiteral("Runa Talbeck")) &&
           bench.says(QStringLiteral("Read by Runa Talbeck, 14:40"));
}

} // namespace

/// What the server's state refused and somebody took note of stays to be found: work was lost for
/// the one whose it was.
class tst_RefusedLater : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }
    void init() { failOnQmlWarnings(); }

    void readRefusal_isFoundByWhoseItWas_andByManagers_data() { sizes(); }

    void readRefusal_isFoundByWhoseItWas_andByManagers()
    {
        QFETCH(const QSize, size);
        SharedHouse shared;
        KioskBench& bench = shared.bench;
        bench.show(size);
        QVERIFY(isRefusedAndRead(shared));
        QVERIFY(bench.ofType("ServerStrip").empty());
        // Not on everybody's wall.
        QVERIFY(!bench.says(entrance));
        QVERIFY(signIn(bench, QStringLiteral("Bram Holloway")));
        bench.shoot(QStringLiteral("refused-entrance"));
        QVERIFY(tellsAll(bench));
        QVERIFY(!bench.says(QStringLiteral("I have read both")));
        bench.shoot(QStringLiteral("refused-read"));
        QVERIFY(bench.tap(QStringLiteral("Close")));

        QVERIFY(signIn(bench, QStringLiteral("Dilys Marne"))); // neither
        QVERIFY(!bench.says(entrance));

        QVERIFY(signIn(bench, QStringLiteral("Runa Talbeck")));
        QVERIFY(tellsAll(bench));
        QVERIFY(bench.tap(QStringLiteral("Close")));

        // Another start of the kiosk.
        bench.openAgain();
        QVERIFY(signIn(bench, QStringLiteral("Bram Holloway")));
        QVERIFY(tellsAll(bench));
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_RefusedLater)
#include "tst_refusedlater.moc"
