// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "askedtally.h"
#include "heldwall.h"
#include "houseworker.h"
#include "ownserver.h"
#include "promises.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QElapsedTimer>
#include <QProcess>
#include <QRandomGenerator>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>
#include <QThread>

#include <algorithm>
#include <array>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr std::size_t kiosks = 3;

/// One of the kiosks, as a program.
struct Kiosk
{
    QProcess process;
    QByteArray heard; ///< no whole line yet
    bool done = false;
    QByteArray wall; ///< as it told it last
};

/// Three kiosks at one store, each a program that can be killed and comes back.
class Kiosks
{
public:
    Kiosks(QString store, QRandomGenerator& random, int commands)
        : m_store(std::move(store))
        , m_random(random)
        , m_commands(commands)
    {
        for (Kiosk& kiosk : m_kiosks)
            begin(kiosk);
    }
    ~Kiosks()
    {
        for (Kiosk& kiosk : m_kiosks) {
            kiosk.process.kill();
            kiosk.process.waitForFinished(patience);
        }
    }
    Kiosks(const Kiosks&) = delete;
    Kiosks& operator=(const Kiosks&) = delete;

    void killOne()
    {
        Kiosk& kiosk = m_kiosks.at(m_random.generate() % kiosks);
        kiosk.process.kill();
        kiosk.process.waitForFinished(patience);
        hear(kiosk);
        // One that was done had nothing left to be stopped in.
        if (kiosk.process.exitStatus() == QProcess::CrashExit && !kiosk.done)
            ++m_killed;
        begin(kiosk);
    }

    /// Until somebody says that something was kept. False: nobody does.
    bool hearSomething()
    {
        const auto before = m_kept.size();
        return hearUntil([&] { return m_kept.size() > before; });
    }

    /// Until all have done what they had to. False: one did not.
    bool finish()
    {
        return hearUntil([&] { return std::ranges::all_of(m_kiosks, &Kiosk::done); });
    }

    /// Once nobody changes anything any more: until every kiosk has this wall before it. False: one
    /// shows another one.
    bool showAll(const QByteArray& wall)
    {
        return hearUntil([&] {
            return std::ranges::all_of(m_kiosks, [&](const Kiosk& k) { return k.wall == wall; });
        });
    }

    /// False: one did not end in order.
    bool end()
    {
        bool all = true;
        for (Kiosk& kiosk : m_kiosks) {
            kiosk.process.closeWriteChannel();
            all = (kiosk.process.state() == QProcess::NotRunning ||
                   kiosk.process.waitForFinished(patience)) &&
                  kiosk.process.exitStatus() == QProcess::NormalExit &&
                  kiosk.process.exitCode() == 0 && all;
            hear(kiosk);
        }
        return all;
    }

    /// How they stand, for whoever reads why a test failed.
    [[nodiscard]] QString standing() const
    {
        QStringList all;
        for (const Kiosk& kiosk : m_kiosks)
            all.append(QStringLiteral("%1, %2, wall %3")
                           .arg(kiosk.process.state() == QProcess::Running ? QStringLiteral("runs")
                                : kiosk.process.exitStatus() == QProcess::CrashExit
                                    ? QStringLiteral("crashed")
                                    : QStringLiteral("ended with %1").arg(kiosk.process.exitCode()),
                                kiosk.done ? QStringLiteral("done") : QStringLiteral("at work"),
                                QString::fromLatin1(kiosk.wall.left(8))));
        return QStringLiteral("%1 kept; ").arg(m_kept.size()) + all.join(QStringLiteral("; "));
    }
    /// Once everybody is at home.
    [[nodiscard]] const QStringList& kept() const { return m_kept; }
    [[nodiscard]] int killed() const { return m_killed; }
    [[nodiscard]] const AskedTally& tally() const { return m_tally; }

private:
    void begin(Kiosk& kiosk)
    {
        kiosk.heard.clear();
        kiosk.wall.clear();
        kiosk.done = false;
        kiosk.process.start(QStringLiteral(HOUSE_WORKER),
                            {m_store, QString::number(m_random.generate()),
                             QString::number(m_commands), QStringLiteral("--wall")});
        if (!kiosk.process.waitForStarted(patience))
            qFatal("the worker cannot be started");
    }

    /// False: it does not come to it, or a kiosk has given up.
    bool hearUntil(const std::function<bool()>& isSo)
    {
        QElapsedTimer timer;
        timer.start();
        while (!isSo()) {
            if (timer.elapsed() > patience)
                return false;
            for (Kiosk& kiosk : m_kiosks) {
                kiosk.process.waitForReadyRead(1);
                hear(kiosk);
                if (kiosk.process.state() == QProcess::NotRunning)
                    return false;
            }
        }
        return true;
    }

    /// Whole lines; the rest waits for its end.
    void hear(Kiosk& kiosk)
    {
        kiosk.heard += kiosk.process.readAllStandardOutput();
        const auto end = kiosk.heard.lastIndexOf('\n') + 1;
        if (end == 0)
            return;
        const QByteArray lines = kiosk.heard.left(end);
        kiosk.heard.remove(0, end);
        m_kept += keptIn(lines);
        m_tally.hear(lines);
        for (const QByteArray& line : lines.split('\n')) {
            kiosk.done = kiosk.done || line == "done";
            if (line.startsWith("wall "))
                kiosk.wall = line.mid(5);
        }
    }

    QString m_store;
    QRandomGenerator& m_random;
    int m_commands;
    std::array<Kiosk, kiosks> m_kiosks;
    QStringList m_kept;
    AskedTally m_tally;
    int m_killed = 0;
};

} // namespace

// Three kiosks work in one workshop, by chance, while programs and the server are killed. Whatever
// was called kept is there once, nothing against the rules ever was, and the wall that each kiosk
// has before it in the end, by what it was told of changes, is that of the database.
class TestHistory : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "3000000"); }

private slots:
    void initTestCase() { m_random = toldRandom(); }
    // Of all that the kiosks were asked; the long round has met every rule.
    void cleanupTestCase()
    {
        qInfo("carried out, of asked:\n%s", qPrintable(m_tally.told()));
        if (m_houses >= manyHouses)
            QCOMPARE(m_tally.neverDone(), QStringList());
    }

    void programsKilled_oneFile()
    {
        for (int house = 0; house < m_houses; ++house) {
            const QTemporaryDir folder;
            StoreSettings settings;
            settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
            setUpHouse(settings);
            Kiosks wall(settings.file, m_random, 150);
            for (int kill = 0; kill < m_kills; ++kill) {
                pause();
                wall.killOne();
            }
            judge(wall, settings);
            if (QTest::currentTestFailed())
                return;
        }
    }

    void programsKilled_oneServer()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        for (int house = 0; house < m_houses; ++house) {
            OwnServer server;
            setUpHouse(server.settings());
            Kiosks wall(server.address(), m_random, 150);
            for (int kill = 0; kill < m_kills; ++kill) {
                pause();
                if (kill % 4 == 3)
                    server.cutConnections();
                else
                    wall.killOne();
            }
            judge(wall, server.settings());
            if (QTest::currentTestFailed())
                return;
        }
    }

    void serverKilledAndStartedAgain()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        OwnServer server;
        setUpHouse(server.settings());
        // So many that nobody is done before the last fault.
        Kiosks wall(server.address(), m_random, 100 * m_serverKills + 150);
        qint64 longest = 0;
        for (int kill = 0; kill < m_serverKills; ++kill) {
            QVERIFY(wall.hearSomething());
            pause();
            server.kill();
            QElapsedTimer timer;
            timer.start();
            QVERIFY(server.start());
            // What was said before the kill is heard first.
            QVERIFY(wall.hearSomething());
            QVERIFY(wall.hearSomething());
            longest = std::max(longest, timer.elapsed());
        }
        judge(wall, server.settings());
        qInfo("%d times killed; at most %lld ms from the kill until something was kept again",
              m_serverKills, static_cast<long long>(longest));
    }

    // So much of it without a fault that each kind comes, and nearly each is carried out.
    void oneKiosk_asksEverything()
    {
        const QTemporaryDir folder;
        StoreSettings settings;
        settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
        setUpHouse(settings);
        const Catalogue catalogue = smallCatalogue();
        const auto door = storeDoor(settings, catalogue);
        QStringList kept;
        AskedTally tally;
        HouseWorker worker(*door, m_random.generate(), [&](const QString& line) {
            kept += keptIn((line + QLatin1Char('\n')).toUtf8());
            tally.hear(line.toUtf8());
        });
        // Until it is so; long before the end.
        constexpr qsizetype fewKinds = 14;
        QVERIFY(worker.work(30'000, [&] {
            return !tally.neverAsked().isEmpty() || tally.neverDone().size() > fewKinds;
        }));
        QCOMPARE(brokenPromises(settings, kept, 0), QStringList());
        QCOMPARE(tally.neverAsked(), QStringList());
        QVERIFY2(tally.neverDone().size() <= fewKinds, qPrintable(tally.neverDone().join(' ')));
    }

    // The checker itself.
    void lostCommand_isMissed()
    {
        const QTemporaryDir folder;
        StoreSettings settings;
        settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
        setUpHouse(settings);
        QStringList kept;
        const Catalogue catalogue = smallCatalogue();
        const auto door = storeDoor(settings, catalogue);
        HouseWorker worker(*door, 1, [&](const QString& line) {
            kept += keptIn((line + QLatin1Char('\n')).toUtf8());
        });
        QVERIFY(worker.work(60));
        QVERIFY(kept.size() > 20);
        QCOMPARE(brokenPromises(settings, kept, 0), QStringList());
        QCOMPARE(brokenPromises(settings, kept + QStringList{"never-kept"}, 0),
                 QStringList{"never-kept was called kept and is not there"});
        QCOMPARE(brokenPromises(settings, kept + QStringList{"house never-kept"}, 0),
                 (QStringList{"never-kept was called kept and is not there",
                              "never-kept is 0 times in the site's stream"}));
        QCOMPARE(brokenPromises(settings, kept + QStringList{"refused"}, 0, {"refused"}),
                 QStringList());
        // The command is there, and signed something else, or nothing.
        const auto isMissed = [&](const QString& line, const QString& said) {
            QStringList lines = kept;
            lines[kept.indexOf(line)] = said;
            return brokenPromises(settings, lines, 0)
                .join('\n')
                .contains(said + " was called kept, and signed");
        };
        const QString signature = kept.filter(QRegularExpression("^signed ")).value(0);
        const QString other = QStringLiteral("signed %1 999 ").arg(signature.section(' ', 1, 1));
        QVERIFY(isMissed(signature, other + signature.split(' ').last()));
        const QString plain = kept.filter(QRegularExpression("^[^ ]+$")).value(0);
        QVERIFY(isMissed(plain, other + plain));
        const QString first = kept.front().split(' ').last();
        QCOMPARE(brokenPromises(settings, kept, 0, {first}),
                 QStringList{first + " was refused and is there"});
        const QString unsaid = kept.takeLast();
        QCOMPARE(brokenPromises(settings, kept, 1), QStringList());
        QVERIFY(brokenPromises(settings, kept, 0).join(' ').contains("kept without a word"));
    }

    void lostPhoto_isMissed()
    {
        const QTemporaryDir folder;
        StoreSettings settings;
        settings.file = folder.filePath(QStringLiteral("workshop.sqlite"));
        setUpHouse(settings);
        QCOMPARE(brokenPromises(settings, {}, 0), QStringList());
        const auto photos = photosOf(settings);
        const std::vector<PhotoId> all = photos->list().value();
        QVERIFY(!all.empty());
        QVERIFY(photos->remove(all.front(), Moment{INT64_MAX}).value());
        QVERIFY(brokenPromises(settings, {}, 0).join(' ').contains("it is missing"));
    }

    // A kiosk that is not told of a change shows another wall, and that is seen.
    void deafKiosk_isMissed()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        const OwnServer server;
        setUpHouse(server.settings());
        const Catalogue catalogue = smallCatalogue();
        KioskDoor kiosk(server.settings(), catalogue);
        QVERIFY(kiosk.open());
        const HeldWall& wall = kiosk.holdWall();
        const auto people = storeDoor(server.settings(), catalogue);
        HouseWorker worker(*people, 1, [](const QString&) {});
        QVERIFY(worker.work(30));
        QTRY_COMPARE_WITH_TIMEOUT(wall.digest(), wallIn(server.settings()), patience);

        QVERIFY(kiosk.thread()
                    .run([](Workshop&, Store& store) {
                        return store.ledger().connection().plain("UNLISTEN *").has_value();
                    })
                    .result());
        QVERIFY(worker.work(60));
        // Each is a round trip to the server: what was on its way has come.
        for (int i = 0; i < 3; ++i)
            QVERIFY(kiosk.wall());
        QTest::qWait(200);
        QVERIFY(wall.digest() != wallIn(server.settings()));
    }

private:
    /// Not a wait for something: a fault lies anywhere in a command.
    void pause() { QThread::usleep(1000 + m_random.generate() % 150000); }

    void judge(Kiosks& wall, const StoreSettings& settings)
    {
        QVERIFY2(wall.finish(), qPrintable(wall.standing()));
        QVERIFY(!wall.kept().isEmpty());
        const QByteArray shown = wallIn(settings);
        QVERIFY2(wall.showAll(shown),
                 qPrintable(QStringLiteral("the database's wall is %1: %2")
                                .arg(QString::fromLatin1(shown.left(8)), wall.standing())));
        QVERIFY2(wall.end(), qPrintable(wall.standing()));
        m_tally.add(wall.tally());
        const QStringList broken = brokenPromises(settings, wall.kept(), wall.killed());
        QVERIFY2(broken.isEmpty(), qPrintable(broken.join(QLatin1Char('\n'))));
        const auto store = Store::open(settings, keeperWith()).value();
        qInfo("%d programs killed, %lld commands kept, %zu cars released", wall.killed(),
              static_cast<long long>(wall.kept().size()),
              store->wall().recentlyReleased(1000).value().size());
    }

    static constexpr int manyHouses = 20;

    QRandomGenerator m_random;
    AskedTally m_tally;
    const int m_houses = amount("HOUSES", 1);
    const int m_kills = amount("KILLS", 8);
    const int m_serverKills = amount("SERVER_KILLS", 2);
};

RAMPLIGHT_TEST(QCoreApplication, TestHistory)
#include "tst_history.moc"
