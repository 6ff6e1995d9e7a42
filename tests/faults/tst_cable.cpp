// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "houseworker.h"
#include "namespaces.h"
#include "ownserver.h"
#include "promises.h"
#include "standingkiosk.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QElapsedTimer>
#include <QRandomGenerator>
#include <QTest>
#include <QThread>

#include <array>
#include <utility>

using namespace ramplight;
using namespace ramplight::test;

// A kiosk on one machine, the server on another (network namespaces), a second kiosk beside the
// server. The cable is pulled, or loses what is sent one way, while people work: the kiosk notices
// and says so, its people go on, and when the cable is whole everything arrives once. The other
// kiosk goes on all the while.
class TestCable : public QObject
{
    Q_OBJECT

public:
    static void initMain()
    {
        qputenv("QTEST_FUNCTION_TIMEOUT", "3000000");
        TwoMachines::makeReady();
    }

private slots:
    void initTestCase()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        if (const QString why = TwoMachines::whyNot(); !why.isEmpty())
            QSKIP(qPrintable(why));
        m_random = toldRandom();
    }

    void cable_isNoticed_andNothingIsLost_data()
    {
        QTest::addColumn<Fault>("fault");
        static constexpr std::array all{
            std::pair{"pulled", Fault::Pulled},
            std::pair{"the server's answers are lost", Fault::AnswersLost},
            std::pair{"the kiosk's questions are lost", Fault::QuestionsLost}};
        // The short round has one of them, another one each time.
        const auto first = m_random.bounded(static_cast<int>(all.size()));
        for (int i = 0; i < m_faults; ++i) {
            const auto& [name, fault] = all.at(static_cast<std::size_t>(first + i) % all.size());
            QTest::newRow(name) << fault;
        }
    }

    void cable_isNoticed_andNothingIsLost()
    {
        QFETCH(Fault, fault);
        Seen seen;
        // A kiosk that is away runs out of work after some rounds: what comes next waits for the
        // server. Then another house begins.
        for (int house = 0; house < m_houses; ++house) {
            workIn(fault, seen);
            if (QTest::currentTestFailed())
                return;
        }
        qInfo("%d times: noticed after %lld ms at most, back after %lld ms at most; %lld commands "
              "kept in all, more than %lld of them meanwhile, %lld refused later, %lld unsure",
              m_houses * m_rounds, static_cast<long long>(seen.noticed),
              static_cast<long long>(seen.back), static_cast<long long>(seen.kept),
              static_cast<long long>(seen.keptAway), static_cast<long long>(seen.refused),
              static_cast<long long>(seen.unsure));
    }

public:
    enum class Fault { Pulled, AnswersLost, QuestionsLost };

private:
    /// Milliseconds, the longest of all rounds; commands, together.
    struct Seen
    {
        qint64 noticed = 0;
        qint64 back = 0;
        qsizetype kept = 0;
        qsizetype keptAway = 0;
        qsizetype refused = 0;
        qsizetype unsure = 0;
    };

    void workIn(Fault fault, Seen& seen)
    {
        TwoMachines machines;
        OwnServer server(OwnServer::Care::Memory, machines.there(), TwoMachines::addressThere());
        setUpHouse(server.settings());
        StandingKiosk far(QStringLiteral(HOUSE_WORKER), server.addressOutside(), machines.here());
        StandingKiosk near(QStringLiteral(HOUSE_WORKER), server.address());
        far.start(m_random.generate());
        near.start(m_random.generate());
        for (int round = 0; round < m_rounds; ++round) {
            QVERIFY(until([&] { return far.knows() && near.knows(); }, far, near));
            QThread::usleep(1000 + m_random.generate() % 400'000);

            QCOMPARE(breakIt(machines, fault), QString());
            QElapsedTimer timer;
            timer.start();
            QVERIFY(until([&] { return far.isAway() == true; }, far, near));
            seen.noticed = std::max(seen.noticed, timer.elapsed());
            // People go on at both kiosks.
            const auto keptFar = far.kept().size();
            const auto keptNear = near.kept().size();
            const bool bothGoOn = until(
                [&] {
                    return far.kept().size() > keptFar + 5 && near.kept().size() > keptNear + 5;
                },
                far, near);
            QVERIFY2(bothGoOn,
                     qPrintable(QStringLiteral("round %1: %2 and %3 were kept; far: %4; near: %5")
                                    .arg(round)
                                    .arg(far.kept().size() - keptFar)
                                    .arg(near.kept().size() - keptNear)
                                    .arg(far.standing(), near.standing())));
            QCOMPARE(near.isAway(), std::optional(false));
            seen.keptAway += far.kept().size() - keptFar;
            QThread::usleep(1000 + m_random.generate() % 400'000);

            QCOMPARE(mendIt(machines, fault), QString());
            timer.start();
            QVERIFY(until([&] { return far.isAway() == false; }, far, near));
            seen.back = std::max(seen.back, timer.elapsed());
        }
        QVERIFY2(far.finish() && near.finish(), "not all that waits can be sent");
        const QByteArray shown = wallIn(server.settings());
        QVERIFY2(until([&] { return far.wall() == shown && near.wall() == shown; }, far, near),
                 "a kiosk shows another wall than the server's");
        QVERIFY2(until([&] { return far.wallInMirror() == shown && near.wallInMirror() == shown; },
                       far, near),
                 "what a kiosk knows of its server is another wall");
        QVERIFY(far.end() && near.end());
        const QStringList unsure = far.unsure() + near.unsure();
        const QStringList broken = brokenPromises(
            server.settings(), far.kept() + near.kept(), static_cast<int>(unsure.size()),
            far.refusals() + near.refusals() + far.waited() + near.waited());
        QVERIFY2(broken.isEmpty(), qPrintable(broken.join(QLatin1Char('\n'))));
        seen.kept += far.kept().size() + near.kept().size();
        seen.refused += far.refusals().size();
        seen.unsure += unsure.size();
    }

    static QString breakIt(TwoMachines& machines, Fault fault)
    {
        switch (fault) {
        case Fault::Pulled:
            return machines.pull();
        case Fault::AnswersLost:
            return machines.loseAnswers();
        case Fault::QuestionsLost:
            return machines.loseQuestions();
        }
        return {};
    }
    static QString mendIt(TwoMachines& machines, Fault fault)
    {
        switch (fault) {
        case Fault::Pulled:
            return machines.plugIn();
        case Fault::AnswersLost:
            return machines.findAnswers();
        case Fault::QuestionsLost:
            return machines.findQuestions();
        }
        return {};
    }

    static bool until(const std::function<bool()>& isSo, StandingKiosk& far, StandingKiosk& near)
    {
        QElapsedTimer timer;
        timer.start();
        while (timer.elapsed() < patience) {
            far.listen(1);
            near.listen(1);
            if (isSo())
                return true;
        }
        return false;
    }

    QRandomGenerator m_random;
    const int m_houses = amount("HOUSES", 1);
    const int m_rounds = amount("ROUNDS", 1);
    const int m_faults = amount("FAULTS", 1);
};

RAMPLIGHT_TEST(QCoreApplication, TestCable)
#include "tst_cable.moc"
