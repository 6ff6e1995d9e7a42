// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/report.h"
#include "storage/storagebench.h"

#include "access/lockalarms.h"
#include "access/signin.h"
#include "support/memoryledger.h"

#include <QElapsedTimer>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// How long a wrong PIN of somebody who works here takes, against one of a number that is nobody's:
// whoever listens to the clock must not learn who there is. Argon2id at its real cost, over the
// real store. They take turns.
class BenchSignIn : public QObject
{
    Q_OBJECT

public:
    // A bench takes as long as it takes.
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3600000"); }

private slots:
    void wrongPin_tellsNobodyWhoThereIs()
    {
        constexpr int people = 20;
        constexpr int each = 5; // what costs no delay yet
        const TestDatabase database(StoreKind::Sqlite);
        const auto store = database.open();
        const StillClock clock;
        const Catalogue catalogue;
        Workshop house(store->ledger(), clock, catalogue);
        HouseAlarm alarm(house);
        SignIn signIn(PinHasher(Secret(QByteArrayView("a pepper of the bench, 32 bytes."))),
                      store->credentials(), store->failures(), alarm);
        QVERIFY(house.run(SiteRequest{CommandId{QStringLiteral("set up")},
                                      {},
                                      site::SetUp{QStringLiteral("Kestrel Quay"), false, {}, {}},
                                      QStringLiteral("Orla")}));
        for (int i = 2; i <= people; ++i)
            QVERIFY(house.run(SiteRequest{CommandId{QStringLiteral("add %1").arg(i)}, PersonId{1},
                                          site::AddPerson{{}, {Right::Work}},
                                          QStringLiteral("Person %1").arg(i)}));
        for (int i = 1; i <= people; ++i)
            QVERIFY(signIn.setPin(PersonId{i}, Secret(QByteArrayView("481957"))));

        std::vector<double> known;
        std::vector<double> unknown;
        const auto guess = [&](int person, std::vector<double>& times) {
            const Secret wrong(QByteArrayView("735812"));
            QElapsedTimer timer;
            timer.start();
            const auto answer = signIn.tryPin(PersonId{person}, wrong, clock.now());
            times.push_back(double(timer.nsecsElapsed()) / 1e6);
            QVERIFY(answer);
            QCOMPARE(answer->outcome, SignInAnswer::Outcome::Wrong);
        };
        for (int round = 0; round < each; ++round)
            for (int i = 1; i <= people; ++i) {
                guess(i, known);
                guess(1'000 + i, unknown);
            }
        const double ours = quantile(known, 0.5);
        const double bare = quantile(unknown, 0.5);
        tell(QStringLiteral("wrong PIN of somebody, by that of nobody"), ours, bare,
             QStringLiteral("ms"), Aim::AtMost, 1.05);
        tell(QStringLiteral("the other way round"), bare, ours, QStringLiteral("ms"), Aim::AtMost,
             1.05);
    }
};

QTEST_MAIN(BenchSignIn)
#include "bench_signin.moc"
