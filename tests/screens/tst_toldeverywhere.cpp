// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "screenwalk.h"
#include "sharedhouse.h"
#include "storage/keptbench.h"
#include "support/testmain.h"

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// Where it stands in the window; empty: there is none.
QRectF boxOf(const KioskBench& bench, const char* type)
{
    const auto all = bench.ofType(type);
    return all.empty() ? QRectF() : all.back()->mapRectToScene(all.back()->boundingRect());
}

/// What can be touched, or is shown of a screen, below the strip that tells it; its own button not.
QStringList liesUnder(KioskBench& bench, const char* strip)
{
    QStringList under;
    const QRectF told = boxOf(bench, strip);
    const QQuickItem* own = bench.ofType(strip).back();
    std::vector<TouchTarget> all;
    addTouchTargets(all, bench.window()->contentItem());
    for (const TouchTarget& target : all)
        if (target.screen != nullptr && target.box.intersects(told))
            under.append(target.words);
    // The whole screen makes room for it.
    for (const char* type : {"WallScreen", "PersonScreen", "ScreenFrame"})
        for (const QQuickItem* screen : bench.ofType(type))
            if (screen->mapRectToScene(screen->boundingRect()).intersects(told) &&
                !screen->isAncestorOf(own))
                under.append(QString::fromLatin1(type));
    return under;
}

} // namespace

/// That the server is away is told on every screen, and the strip that says so covers nothing.
class tst_ToldEverywhere : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (qEnvironmentVariableIsEmpty("RAMPLIGHT_TEST_PG"))
            QSKIP("RAMPLIGHT_TEST_PG names no server (tests/run starts one)");
    }
    void init() { failOnQmlWarnings(); }

    void serverAway_isToldOnEveryScreen_andCoversNothing()
    {
        // Upright the strip has the most lines.
        const QSize size(1080, 1920);
        SharedHouse shared({}, BenchHouse::Start::Demo);
        KioskBench& bench = shared.bench;
        bench.letPlan();
        ScreenWalk walk(bench);
        QVERIFY(walk.isPrepared());
        bench.show(size);
        QVERIFY(shared.isKnown());
        const auto isAway = [&] {
            shared.wire.cut();
            return bench.until([&] { return bench.shell().server()->away(); },
                               QStringLiteral("the server's absence"));
        };
        QVERIFY(isAway());
        const QString told = bench.shell().server()->what();
        QVERIFY(told.startsWith(QStringLiteral("The workshop's server is away since")));
        QVERIFY(walk.goesRound(
            [&](const QString& screen) {
                if (!bench.untilSays(told))
                    return false;
                bench.shoot(QStringLiteral("away-") + screen);
                const QStringList under = liesUnder(bench, "ServerStrip");
                if (!isInSight(bench.find(told)) || !under.isEmpty()) {
                    QTest::qFail(qPrintable(screen + QStringLiteral(": ") +
                                            under.join(QStringLiteral("; "))),
                                 __FILE__, __LINE__);
                    return false;
                }
                return true;
            },
            // Nobody releases meanwhile.
            [&] {
                shared.wire.heal();
                const QByteArray released =
                    QStringLiteral("SELECT count(*) FROM ledger WHERE stream = '%1' AND type ="
                                   " 'car-released'")
                        .arg(carStream(walk.ready()))
                        .toLatin1();
                const QString mirror =
                    bench.house().folder(QStringLiteral("standby/mirror.sqlite"));
                return bench.until([&] { return !bench.shell().server()->away(); },
                                   QStringLiteral("the server")) &&
                       bench.house().tries(bench.house().person(QStringLiteral("Odo")),
                                           walk.ready(), {car::Release{}}) &&
                       bench.until([&] { return numberIn(mirror, released.constData()) == 1; },
                                   QStringLiteral("the release in the copy")) &&
                       isAway();
            }));
    }
};

RAMPLIGHT_TEST(QGuiApplication, tst_ToldEverywhere)
#include "tst_toldeverywhere.moc"
