// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "diskfault.h"
#include "houseworker.h"
#include "ownserver.h"
#include "promises.h"
#include "standingkiosk.h"

#include "../storage/wire.h"
#include "support/seed.h"
#include "support/testmain.h"

#include <QElapsedTimer>
#include <QTest>

#include <cerrno>
#include <memory>
#include <vector>

using namespace ramplight;
using namespace ramplight::test;

namespace {

// So many kiosks share one server before another is taken: what is in it is gone through whole.
constexpr int kiosksOfAHouse = 20;
constexpr int mostAbsences = 5;
constexpr int commandsBetween = 60;

/// A workshop on a server, and what its kiosks said, one after the other.
class House
{
public:
    House()
        : m_server(OwnServer::Care::Memory, QString(), QStringLiteral("127.0.0.1"))
        , m_wire(PostgresAddress::parse(m_server.addressOutside()).value())
    {
        setUpHouse(m_server.settings());
    }

    [[nodiscard]] QString store() const
    {
        return QStringLiteral("host=127.0.0.1 port=%1 dbname=workshop user=ramplight")
            .arg(m_wire.address().port);
    }
    [[nodiscard]] QByteArray wall() const { return wallIn(m_server.settings()); }
    Wire& wire() { return m_wire; }
    void hear(const StandingKiosk& kiosk)
    {
        m_kept += kiosk.kept();
        m_unsure += kiosk.unsure();
        m_refused += kiosk.refusals() + kiosk.waited();
    }
    [[nodiscard]] QStringList broken() const
    {
        return brokenPromises(m_server.settings(), m_kept, static_cast<int>(m_unsure.size()),
                              m_refused);
    }
    [[nodiscard]] qsizetype kept() const { return m_kept.size(); }

private:
    OwnServer m_server;
    Wire m_wire;
    QStringList m_kept;
    QStringList m_unsure;
    QStringList m_refused;
};

} // namespace

// Every single write, sync, truncation and renaming of what a kiosk knows and keeps of its server
// (mirror, outbox, working copy) fails in turn, while the server is there, while it is away, and
// while what was kept is sent. The people go on, and nothing that was called kept is lost.
class TestEveryStandbyCall : public QObject
{
    Q_OBJECT

public:
    static void initMain() { qputenv("QTEST_FUNCTION_TIMEOUT", "7200000"); }

private slots:
    void failsOnce_losesNothing()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        int failed = 0;
        qsizetype kept = 0;
        std::unique_ptr<House> house;
        QElapsedTimer timer;
        timer.start();
        bool ends = false;
        for (int at = m_first; !ends; at += m_stride)
            for (const int code : codesAt(at)) {
                if (!house)
                    house = std::make_unique<House>();
                int calls = 0;
                oneAbsence(*house, {.at = at, .code = code}, calls);
                if (QTest::currentTestFailed())
                    QFAIL(qPrintable(QStringLiteral("call %1").arg(at)));
                ends = ends || calls < at; // it had ended before
                failed += ends ? 0 : 1;
                if (!ends && failed % kiosksOfAHouse != 0)
                    continue;
                const QStringList broken = house->broken();
                QVERIFY2(broken.isEmpty(), qPrintable(QStringLiteral("until call %1\n%2")
                                                          .arg(at)
                                                          .arg(broken.join(QLatin1Char('\n')))));
                kept += house->kept();
                house.reset();
            }
        QVERIFY(failed > static_cast<int>(codesAt(m_first).size()) * 200 / m_stride);
        qInfo("from call %d on %d failures; %lld commands kept, %lld s", m_first, failed,
              static_cast<long long>(kept), static_cast<long long>(timer.elapsed() / 1000));
    }

private:
    static void oneAbsence(House& house, const DiskFault& fault, int& calls)
    {
        const FailingDisk disk;
        StandingKiosk kiosk(QStringLiteral(HOUSE_WORKER), house.store());
        kiosk.setEnvironment(
            disk.under(kiosk.folder(), fault, QProcessEnvironment::systemEnvironment()));
        kiosk.start(static_cast<quint32>(fault.at));
        const auto until = [&](const std::function<bool()>& isSo, int ms = patience) {
            QElapsedTimer timer;
            timer.start();
            while (!isSo() && timer.elapsed() < ms)
                kiosk.listen(5);
            return isSo();
        };
        QVERIFY2(until([&] { return kiosk.knows(); }), qPrintable(kiosk.standing()));
        bool works = false;
        for (int absences = 0; !works; ++absences) {
            QVERIFY2(absences < mostAbsences, qPrintable(kiosk.standing()));
            house.wire().cut();
            QVERIFY2(until([&] { return kiosk.isAway() == true; }), qPrintable(kiosk.standing()));
            const auto before = kiosk.kept().size();
            works = until([&] { return kiosk.kept().size() > before + 3; }, shortPatience / 4);
            house.wire().heal();
            QVERIFY2(until([&] { return kiosk.isAway() == false; }), qPrintable(kiosk.standing()));
            // A house whose cars all wait to be released has no work that could be kept: others
            // come in, and are appraised.
            QVERIFY2(works || until([&] { return kiosk.kept().size() > before + commandsBetween; }),
                     qPrintable(kiosk.standing()));
        }
        QVERIFY2(kiosk.finish(), qPrintable(kiosk.standing()));
        const QByteArray wall = house.wall();
        QVERIFY2(until([&] { return kiosk.wall() == wall; }), "another wall than the server's");
        QVERIFY2(kiosk.end(), qPrintable(kiosk.standing()));
        house.hear(kiosk);
        calls = disk.calls();
    }

    [[nodiscard]] std::vector<int> codesAt(int at) const
    {
        if (m_both != 0)
            return {EIO, ENOSPC};
        return {at % 2 == 0 ? EIO : ENOSPC};
    }

    const int m_stride = amount("STRIDE", 2503);
    /// Several runs at once share the calls. A short one has any of those that there always are.
    const int m_first = amount("FIRST", toldRandom().bounded(1, 800));
    const int m_both = amount("BOTH", 0);
};

RAMPLIGHT_TEST(QCoreApplication, TestEveryStandbyCall)
#include "tst_everystandbycall.moc"
