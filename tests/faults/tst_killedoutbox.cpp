// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "houseworker.h"
#include "ownserver.h"
#include "promises.h"
#include "standingkiosk.h"

#include "storage/outbox.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QDir>
#include <QElapsedTimer>
#include <QRandomGenerator>
#include <QTest>
#include <QThread>

#include <algorithm>
#include <array>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// Three kiosks of one workshop.
class Wall
{
public:
    /// isJumpy: the clock of one is a day ahead, right, a day behind, in turn, with its server and
    /// without.
    Wall(const QString& store, QRandomGenerator& random, bool isJumpy)
        : m_random(random)
        , m_kiosks{StandingKiosk(QStringLiteral(HOUSE_WORKER), store),
                   StandingKiosk(QStringLiteral(HOUSE_WORKER), store),
                   StandingKiosk(QStringLiteral(HOUSE_WORKER), store)}
    {
        QProcessEnvironment jumpy = QProcessEnvironment::systemEnvironment();
        jumpy.insert(QStringLiteral("LD_PRELOAD"), QStringLiteral(JUMPY_CLOCK));
        jumpy.insert(QStringLiteral("RAMPLIGHT_CLOCK_EVERY"), QStringLiteral("500"));
        if (isJumpy)
            m_kiosks.back().setEnvironment(jumpy);
        for (StandingKiosk& kiosk : m_kiosks)
            kiosk.start(m_random.generate());
    }

    StandingKiosk& any() { return m_kiosks.at(m_random.generate() % m_kiosks.size()); }
    void begin(StandingKiosk& kiosk) { kiosk.start(m_random.generate()); }

    /// Until that is so of all. False: it does not come to it.
    [[nodiscard]] bool hearUntil(const std::function<bool(const StandingKiosk&)>& isSo)
    {
        QElapsedTimer timer;
        timer.start();
        while (timer.elapsed() < patience) {
            for (StandingKiosk& kiosk : m_kiosks)
                kiosk.listen(1);
            if (std::ranges::all_of(m_kiosks, isSo))
                return true;
        }
        return false;
    }
    [[nodiscard]] bool finish()
    {
        bool all = true;
        for (StandingKiosk& kiosk : m_kiosks)
            all = kiosk.finish() && all;
        return all;
    }
    [[nodiscard]] bool end()
    {
        bool all = true;
        for (StandingKiosk& kiosk : m_kiosks)
            all = kiosk.end() && all;
        return all;
    }

    /// Of all kiosks.
    [[nodiscard]] QStringList all(const QStringList& (StandingKiosk::*of)() const) const
    {
        QStringList ids;
        for (const StandingKiosk& kiosk : m_kiosks)
            ids += (kiosk.*of)();
        return ids;
    }
    [[nodiscard]] AskedTally tally() const
    {
        AskedTally all;
        for (const StandingKiosk& kiosk : m_kiosks)
            all.add(kiosk.tally());
        return all;
    }
    [[nodiscard]] int killed() const
    {
        int count = 0;
        for (const StandingKiosk& kiosk : m_kiosks)
            count += kiosk.killed();
        return count;
    }

private:
    QRandomGenerator& m_random;
    std::array<StandingKiosk, 3> m_kiosks;
};

} // namespace

// Three kiosks whose server goes away and comes back are killed while they work, while they keep
// what is done without it, and while they send it. Whatever was called kept stands on the server
// once, or is among what was refused and is kept with both stories; what was said to wait for the
// server was never done.
class TestKilledOutbox : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3000000"); }

private slots:
    void initTestCase() { m_random = toldRandom(); }

    void killedWithoutItsServer_losesNothing()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        for (int house = 0; house < m_houses; ++house) {
            OwnServer server;
            setUpHouse(server.settings());
            const bool isJumpy = m_random.generate() % 2 == 0;
            m_jumpy += isJumpy ? 1 : 0;
            Wall wall(server.address(), m_random, isJumpy);
            // Cars with work on them.
            QVERIFY(wall.hearUntil(
                [](const StandingKiosk& kiosk) { return kiosk.kept().size() > 25; }));
            for (int round = 0; round < m_rounds; ++round) {
                oneAbsence(wall, server);
                if (QTest::currentTestFailed())
                    return;
            }
            judge(wall, server);
            if (QTest::currentTestFailed())
                return;
        }
        qInfo(
            "%d killed: %d with something kept, %d in the middle of sending; all back at most %lld "
            "ms after the server's start",
            m_killed, m_withSomethingKept, m_whileSending, static_cast<long long>(m_longest));
        qInfo(
            "%lld commands kept, %lld of them refused by the server later; %lld told to wait, %lld "
            "unsure",
            static_cast<long long>(m_kept), static_cast<long long>(m_refusals),
            static_cast<long long>(m_waited), static_cast<long long>(m_unsure));
        qInfo("%d of %d houses with a kiosk whose clock jumps by a day", m_jumpy, m_houses);
        qInfo("carried out, of asked:\n%s", qPrintable(m_tally.told()));
        QVERIFY(m_withSomethingKept > 0);
        if (m_houses >= manyHouses)
            QVERIFY(m_tally.houseWaited() > 0);
    }

private:
    void oneAbsence(Wall& wall, OwnServer& server)
    {
        // All of them know the whole workshop: what they know is on their disk once they are away.
        QVERIFY(wall.hearUntil([](const StandingKiosk& kiosk) { return kiosk.knows(); }));
        pause(200);
        server.kill();
        QVERIFY(wall.hearUntil([](const StandingKiosk& kiosk) { return kiosk.isAway() == true; }));
        // While they keep, and while one starts without its server.
        for (int i = 0; i < 2; ++i) {
            pause(500);
            kill(wall, nullptr);
        }
        pause(300);
        QElapsedTimer timer;
        timer.start();
        QVERIFY(server.start());
        // While they send: each looks once a second.
        for (int i = 0; i < 2; ++i) {
            pause(700);
            kill(wall, &server);
        }
        QVERIFY(wall.hearUntil([](const StandingKiosk& kiosk) { return kiosk.isAway() == false; }));
        m_longest = std::max(m_longest, timer.elapsed());
    }

    void judge(Wall& wall, const OwnServer& server)
    {
        QVERIFY2(wall.finish(), "not all that waits can be sent");
        // Nobody changes anything any more.
        const QByteArray shown = wallIn(server.settings());
        QVERIFY2(wall.hearUntil([&](const StandingKiosk& kiosk) { return kiosk.wall() == shown; }),
                 "a kiosk shows another wall than the server's");
        QVERIFY2(wall.hearUntil(
                     [&](const StandingKiosk& kiosk) { return kiosk.wallInMirror() == shown; }),
                 "what a kiosk knows of its server is another wall");
        const SiteState house = houseIn(server.settings());
        QVERIFY2(wall.hearUntil(
                     [&](const StandingKiosk& kiosk) { return kiosk.houseInMirror() == house; }),
                 "what a kiosk knows of its server are other people or rules");
        QVERIFY2(
            wall.hearUntil([](const StandingKiosk& kiosk) { return kiosk.photosWaiting() == 0; }),
            "a kiosk keeps photos and does not bring them");
        QVERIFY(wall.end());
        const QStringList kept = wall.all(&StandingKiosk::kept);
        const QStringList refusals = wall.all(&StandingKiosk::refusals);
        const QStringList waited = wall.all(&StandingKiosk::waited);
        const QStringList unsure = wall.all(&StandingKiosk::unsure);
        const QStringList broken =
            brokenPromises(server.settings(), kept, wall.killed() + static_cast<int>(unsure.size()),
                           refusals + waited);
        QVERIFY2(broken.isEmpty(), qPrintable(broken.join(QLatin1Char('\n'))));
        m_killed += wall.killed();
        m_tally.add(wall.tally());
        m_kept += kept.size();
        m_refusals += refusals.size();
        m_waited += waited.size();
        m_unsure += unsure.size();
    }

    /// Not a wait for something: a fault lies anywhere in the work.
    void pause(int most) { QThread::usleep(1000 + m_random.generate() % (quint32(most) * 1000)); }

    /// server: where it is there, so that one can tell whether the kiosk was sending.
    void kill(Wall& wall, const OwnServer* server)
    {
        StandingKiosk& kiosk = wall.any();
        kiosk.kill();
        look(kiosk.folder(), server);
        wall.begin(kiosk);
    }

    /// What the killed kiosk left, out of a copy.
    void look(const QString& folder, const OwnServer* server)
    {
        const QTemporaryDir copy;
        for (const QString& name :
             QDir(folder).entryList({QStringLiteral("outbox.sqlite*")}, QDir::Files))
            QVERIFY(QFile::copy(folder + QLatin1Char('/') + name, copy.filePath(name)));
        const QString file = copy.filePath(QStringLiteral("outbox.sqlite"));
        if (!QFile::exists(file))
            return;
        StoreSettings settings;
        settings.file = file;
        const auto connection = Connection::open(settings);
        QVERIFY2(connection, connection ? "" : qPrintable(connection.error().words));
        std::vector<CommandId> waiting;
        auto rows =
            (*connection)->run("SELECT command FROM kept WHERE refusal = '' ORDER BY number");
        while (rows && rows->next())
            waiting.push_back({rows->text(0)});
        if (waiting.empty())
            return;
        ++m_withSomethingKept;
        if (server == nullptr)
            return;
        const auto store = Store::open(server->settings(), keeperWith());
        QVERIFY2(store, store ? "" : qPrintable(store.error().words));
        if ((*store)->ledger().isKnown(waiting.front()).value_or(false))
            ++m_whileSending;
    }

    QRandomGenerator m_random;
    int m_killed = 0;
    int m_jumpy = 0;
    int m_withSomethingKept = 0;
    int m_whileSending = 0;
    qint64 m_kept = 0;
    qint64 m_refusals = 0;
    qint64 m_waited = 0;
    qint64 m_unsure = 0;
    qint64 m_longest = 0;
    static constexpr int manyHouses = 5;
    AskedTally m_tally;
    const int m_houses = amount("HOUSES", 1);
    const int m_rounds = amount("ROUNDS", 1);
};

RAMPLIGHT_TEST(QCoreApplication, TestKilledOutbox)
#include "tst_killedoutbox.moc"
