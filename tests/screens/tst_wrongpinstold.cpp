// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kioskbench.h"
#include "managerhands.h"
#include "support/testmain.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

void guess(BenchHouse& house, PersonId who, int times)
{
    for (int i = 0; i < times; ++i) {
        auto tried = house.desk().tryPin(who, Secret(QByteArrayView("000001")), {});
        tried.waitForFinished();
        QCOMPARE(tried.result()->outcome, SignInAnswer::Outcome::Wrong);
    }
}

} // namespace

/// Whoever signs in is told, by touch, that somebody tried their PIN meanwhile; the managers see
/// who guesses.
class tst_WrongPinsTold : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void wrongPins_areToldToTheirOwner_untilPutAway_data();
    void wrongPins_areToldToTheirOwner_untilPutAway();
    void manyNamesTried_areToldToTheManagers();
    void guesses_whileNothingCanBeWritten_waitLikeOthers();
};

void tst_WrongPinsTold::guesses_whileNothingCanBeWritten_waitLikeOthers()
{
    BenchHouse house(BenchHouse::Start::House);
    const PersonId nell = house.person(QStringLiteral("Nell"));
    const auto letWrite = [&house](const char* pragma) {
        auto done = house.store().run([pragma](Workshop&, Store& store) {
            return store.ledger().connection().run(pragma).has_value();
        });
        done.waitForFinished();
        return done.result();
    };
    const auto tryPin = [&](const QByteArray& pin) {
        auto tried = house.desk().tryPin(nell, Secret(QByteArrayView(pin)), {});
        tried.waitForFinished();
        return tried.result();
    };
    const QByteArray right = BenchHouse::pin().toUtf8();
    QVERIFY(letWrite("PRAGMA query_only = ON"));
    for (int i = 0; i < 6; ++i)
        QCOMPARE(tryPin("000001").error(), AccessError::StoreAway);
    QCOMPARE(tryPin(right)->outcome, SignInAnswer::Outcome::Waiting);
    house.clock.goOn(1);
    QCOMPARE(tryPin(right)->outcome, SignInAnswer::Outcome::SignedIn);
    // What was held is written once it can be.
    QCOMPARE(tryPin("000001").error(), AccessError::StoreAway);
    QVERIFY(letWrite("PRAGMA query_only = OFF"));
    QCOMPARE(tryPin("000002")->failuresInARow, 2);
}

void tst_WrongPinsTold::wrongPins_areToldToTheirOwner_untilPutAway_data()
{
    QTest::addColumn<QSize>("size");
    QTest::newRow("wide") << QSize(1920, 1080);
    QTest::newRow("tall") << QSize(1080, 1920);
}

void tst_WrongPinsTold::wrongPins_areToldToTheirOwner_untilPutAway()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    house.fill(5);
    bench.show(size);
    guess(house, house.person(QStringLiteral("Nell")), 4);
    house.clock.goOn(60);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Nell Quarrie")));
    const Session& session = *bench.shell().session();
    QVERIFY2(session.wrongBefore().contains(QStringLiteral("4 wrong PINs were entered for you")),
             qPrintable(session.wrongBefore()));
    QVERIFY(bench.untilSays(session.wrongBefore()));
    bench.shoot(QStringLiteral("wrong-pins"));
    QVERIFY(bench.tap(QStringLiteral("Close")));
    QVERIFY(bench.untilGone(QStringLiteral("tell a manager")));
    QCOMPARE(session.wrongBefore(), QString());

    // One's own slip is not worth a word.
    bench.shell().session()->signOut();
    guess(house, house.person(QStringLiteral("Nell")), 1);
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Nell Quarrie")));
    QCOMPARE(session.wrongBefore(), QString());

    // Of somebody who goes away it is not told to who comes next.
    guess(house, house.person(QStringLiteral("Bram")), 3);
    bench.shell().session()->signOut();
    QVERIFY(bench.tap(QStringLiteral("Who are you?")));
    QVERIFY(bench.signIn(QStringLiteral("Bram Holloway")));
    QVERIFY(!session.wrongBefore().isEmpty());
    bench.shell().session()->signOut();
    QCOMPARE(session.wrongBefore(), QString());
    QVERIFY(bench.untilGone(QStringLiteral("tell a manager")));
}

void tst_WrongPinsTold::manyNamesTried_areToldToTheManagers()
{
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    bench.show();
    const SiteState site = house.site();
    QCOMPARE_GE(site.people.size(), std::size_t{5});
    int tried = 0;
    for (const auto& [id, person] : site.people)
        if (++tried <= 5)
            guess(house, id, 2);
    QVERIFY(goToSettings(bench, QStringLiteral("Runa Talbeck")));
    QVERIFY(bench.tap(QStringLiteral("Changes")));
    QVERIFY(bench.untilSays(QStringLiteral("PINs of 5 people")));
    bench.shoot(QStringLiteral("pins-of-many"));
}

RAMPLIGHT_TEST(QGuiApplication, tst_WrongPinsTold)
#include "tst_wrongpinstold.moc"
