// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/house.h"
#include "cli/program.h"
#include "faults/aftermath.h"
#include "faults/amount.h"
#include "faults/frozenthread.h"
#include "support/testmain.h"

#include <QElapsedTimer>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <cstring>
#include <optional>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// What systemd listens on.
class NotifySocket
{
public:
    explicit NotifySocket(const QString& path)
        : m_socket(::socket(AF_UNIX, SOCK_DGRAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0))
    {
        sockaddr_un address{};
        address.sun_family = AF_UNIX;
        const QByteArray name = QFile::encodeName(path);
        std::memcpy(address.sun_path, name.constData(), static_cast<std::size_t>(name.size()));
        if (m_socket < 0 ||
            ::bind(m_socket, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0)
            qFatal("no socket at %s", name.constData());
    }
    NotifySocket(const NotifySocket&) = delete;
    NotifySocket& operator=(const NotifySocket&) = delete;
    ~NotifySocket() { ::close(m_socket); }

    /// What came since the last call.
    QByteArrayList take() const
    {
        QByteArrayList messages;
        char bytes[256];
        for (ssize_t size = 0; (size = ::recv(m_socket, bytes, sizeof bytes, 0)) > 0;)
            messages.append(QByteArray(bytes, static_cast<qsizetype>(size)));
        return messages;
    }

private:
    int m_socket;
};

/// The service as it is shipped.
class Service
{
public:
    [[nodiscard]] static QString text(const char* key)
    {
        const QByteArray start = QByteArray(key) + '=';
        for (const QByteArray& line : bytesOf(QStringLiteral(UNIT)).split('\n'))
            if (line.startsWith(start))
                return QString::fromUtf8(line.mid(start.size()).trimmed());
        return {};
    }
    /// systemd.time(7): seconds where no unit is named.
    [[nodiscard]] static int milliseconds(const char* key)
    {
        QString figure = text(key);
        const bool small = figure.endsWith(QLatin1StringView("ms"));
        if (small)
            figure.chop(2);
        bool isNumber = false;
        const int number = figure.toInt(&isNumber);
        return isNumber ? number * (small ? 1 : 1000) : -1;
    }
    /// After how long without a sign of life the kiosk is ended.
    [[nodiscard]] static int watchdog()
    {
        // The long test waits as long as the shipped service does.
        const int own = amount("WATCHDOG_MS", 1200);
        return own > 0 ? own : milliseconds("WatchdogSec");
    }
};

/// Which of all files that ever had the name it is: another one once it was written anew.
quint64 fileAt(const QString& path)
{
    struct stat facts
    {
    };
    return ::stat(QFile::encodeName(path).constData(), &facts) == 0 ? facts.st_ino : 0;
}

/// The real kiosk under something that listens as systemd does.
class WatchedKiosk
{
public:
    explicit WatchedKiosk(const QTemporaryDir& folder)
        : m_home(folder.filePath(QStringLiteral("home")))
        , m_systemd(folder.filePath(QStringLiteral("notify")))
    {
        QProcessEnvironment environment = programEnvironment();
        environment.insert(QStringLiteral("NOTIFY_SOCKET"),
                           folder.filePath(QStringLiteral("notify")));
        environment.insert(QStringLiteral("WATCHDOG_USEC"),
                           QString::number(Service::watchdog() * 1000));
        environment.insert(QStringLiteral("LD_PRELOAD"), QStringLiteral(TRACEABLE));
        m_process.setProcessEnvironment(environment);
    }
    ~WatchedKiosk()
    {
        m_process.kill();
        m_process.waitForFinished(shortPatience);
    }
    WatchedKiosk(const WatchedKiosk&) = delete;
    WatchedKiosk& operator=(const WatchedKiosk&) = delete;

    void start()
    {
        m_systemd.take();
        m_heard.clear();
        m_process.start(programPath(),
                        {QStringLiteral("--home"), m_home, QStringLiteral("--windowed")});
    }
    /// Until it has said so at least so often. False: it does not, or it has ended.
    [[nodiscard]] bool says(const char* what, int times)
    {
        return QTest::qWaitFor(
                   [&] {
                       m_heard += m_systemd.take();
                       return m_heard.count(what) >= times ||
                              m_process.state() == QProcess::NotRunning;
                   },
                   shortPatience) &&
               m_process.state() == QProcess::Running;
    }
    /// In the end it says nothing for as long as it takes to be ended for it. False: it goes on
    /// saying that it lives.
    [[nodiscard]] bool fallsSilent()
    {
        QElapsedTimer quiet;
        quiet.start();
        return QTest::qWaitFor(
                   [&] {
                       if (!m_systemd.take().isEmpty())
                           quiet.restart();
                       return quiet.elapsed() >= Service::watchdog() ||
                              m_process.state() == QProcess::NotRunning;
                   },
                   shortPatience) &&
               m_process.state() == QProcess::Running;
    }
    [[nodiscard]] const QByteArrayList& heard() const { return m_heard; }
    [[nodiscard]] pid_t pid() const { return static_cast<pid_t>(m_process.processId()); }
    [[nodiscard]] const QString& home() const { return m_home; }
    QProcess& process() { return m_process; }

private:
    QString m_home;
    NotifySocket m_systemd;
    QProcess m_process;
    QByteArrayList m_heard;
};

} // namespace

// The real kiosk says that it lives as long as both its screen and its store do. When one of the
// two stands still it falls silent although the other goes on, is ended and started again as
// systemd does it, stands where the person was, and has lost nothing.
class TestFrozenKiosk : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase() { QCOMPARE(makeDemo(m_demo.filePath(QStringLiteral("demo"))), QString()); }

    // A wall that stays dark, started again twice a second, tells nobody what is wrong.
    void kioskWhoseSettingsCannotBeRead_saysWhy_andLives()
    {
        const QTemporaryDir folder;
        WatchedKiosk kiosk(folder);
        QVERIFY(QDir().mkpath(kiosk.home()));
        const QString settings = kiosk.home() + QStringLiteral("/settings.ini");
        {
            QFile file(settings);
            QVERIFY(file.open(QIODevice::WriteOnly));
            QVERIFY(file.write("[storage]\nkind=postgres\n") > 0);
        }
        kiosk.start();
        QVERIFY(kiosk.says("READY=1", 1));
        QVERIFY(kiosk.says("WATCHDOG=1", 3));
        const QString said = QString::fromUtf8(kiosk.process().readAllStandardError());
        QVERIFY2(said.contains(QStringLiteral("sqlite or postgresql was expected")),
                 qPrintable(said));
        // Nothing is begun in place of what cannot be found: no other workshop, no other keys.
        QVERIFY(!QFile::exists(kiosk.home() + QStringLiteral("/site.keys")));
        QVERIFY(!QFile::exists(kiosk.home() + QStringLiteral("/workshop.sqlite")));
    }

    // Ten seconds from freezing to the screen: what is left for the start is more than it takes.
    void unit_leavesTimeForAStart()
    {
        QCOMPARE(Service::text("Type"), QStringLiteral("notify"));
        QCOMPARE(Service::text("Restart"), QStringLiteral("always"));
        QCOMPARE(Service::text("WatchdogSignal"), QStringLiteral("SIGKILL"));
        QCOMPARE_GT(Service::milliseconds("WatchdogSec"), 0);
        QCOMPARE_GE(Service::milliseconds("RestartSec"), 0);
        QCOMPARE_LE(Service::milliseconds("WatchdogSec") + Service::milliseconds("RestartSec"),
                    8000);
    }

    void frozenThread_isNoticed_andTheKioskComesBack_data()
    {
        QTest::addColumn<bool>("screen");
        QTest::newRow("the screen") << true;
        QTest::newRow("the store") << false;
    }

    void frozenThread_isNoticed_andTheKioskComesBack()
    {
        QFETCH(bool, screen);
        const QTemporaryDir folder;
        WatchedKiosk kiosk(folder);
        QVERIFY(copyFolder(m_demo.filePath(QStringLiteral("demo")), kiosk.home()));
        // Somebody has opened a car.
        const QStringList cars = rowsIn(
            kiosk.home(), QStringLiteral("SELECT car FROM car WHERE on_wall = 1 ORDER BY car"));
        QVERIFY(!cars.isEmpty());
        const QJsonObject there{{QStringLiteral("screens"), QJsonArray{QStringLiteral("Car")}},
                                {QStringLiteral("cars"), QJsonArray{cars.front()}},
                                {QStringLiteral("operations"), QJsonArray{0}}};
        const QString place = HousePaths(kiosk.home()).place();
        QVERIFY(write(place, QJsonDocument(there).toJson(QJsonDocument::Compact)));
        quint64 written = fileAt(place);
        // A kiosk that goes to a screen writes down anew where it is.
        const auto standsThere = [&] {
            return QTest::qWaitFor([&] { return fileAt(place) != written; }, shortPatience) &&
                   QJsonDocument::fromJson(bytesOf(place)).object() == there;
        };
        kiosk.start();
        QVERIFY(kiosk.says("READY=1", 1));
        QVERIFY(kiosk.says("WATCHDOG=1", 3));
        QCOMPARE(kiosk.heard().first(), QByteArray("READY=1"));
        QVERIFY(standsThere());
        written = fileAt(place);
        const Ran added = runProgram(
            kiosk.home(), {QStringLiteral("bay"), QStringLiteral("add"), QStringLiteral("9"),
                           QStringLiteral("Yard"), QStringLiteral("parking"),
                           QStringLiteral("--as"), QStringLiteral("Runa Talbeck")});
        QVERIFY2(added.code == 0, qPrintable(added.err));
        const QStringList hashes = hashesIn(kiosk.home());
        QVERIFY(!hashes.isEmpty());

        const std::vector<pid_t> stores = threadsNamed(kiosk.pid(), "store");
        QCOMPARE(stores.size(), std::size_t(1));
        const pid_t other = screen ? stores.front() : kiosk.pid();
        const auto otherGoesOn = [&] {
            const qint64 turns = turnsOf(kiosk.pid(), other);
            return QTest::qWaitFor([&] { return turnsOf(kiosk.pid(), other) > turns + 3; }, 5000);
        };
        QElapsedTimer timer;
        timer.start();
        std::optional<FrozenThread> frozen;
        // It may stand still where the other wants to go, in the C library's memory say.
        for (int attempt = 0; attempt < 5; ++attempt) {
            frozen.emplace(screen ? kiosk.pid() : stores.front());
            if (!frozen->whyNot().isEmpty())
                QSKIP(qPrintable(QStringLiteral("threads cannot be frozen here (ptrace): %1")
                                     .arg(frozen->whyNot())));
            if (otherGoesOn())
                break;
            frozen.reset();
        }
        QVERIFY2(frozen, "the other thread stands still, too");
        QVERIFY2(kiosk.fallsSilent(), "a frozen kiosk says that it lives");
        QVERIFY(otherGoesOn());

        // What systemd does then.
        QCOMPARE(Service::text("WatchdogSignal"), QStringLiteral("SIGKILL"));
        kiosk.process().kill();
        if (!screen)
            frozen->bury();
        QVERIFY(kiosk.process().waitForFinished(shortPatience));
        QTest::qWait(Service::milliseconds("RestartSec"));
        kiosk.start();
        QVERIFY(kiosk.says("READY=1", 1));
        QVERIFY2(standsThere(), bytesOf(place).constData());
        qInfo("%s stood still: %lld ms later the kiosk was back",
              screen ? "the screen" : "the store", static_cast<long long>(timer.elapsed()));
        QVERIFY(kiosk.says("WATCHDOG=1", 3));

        kiosk.process().kill();
        QVERIFY(kiosk.process().waitForFinished(shortPatience));
        // It may have paused work that was begun before the end of the shift; nothing is missing.
        QCOMPARE(hashesIn(kiosk.home()).mid(0, hashes.size()), hashes);
        const QStringList faults = wholeAfterKill(kiosk.home());
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join(QLatin1Char('\n'))));
    }

private:
    static QStringList hashesIn(const QString& home)
    {
        return rowsIn(home, QStringLiteral("SELECT hash FROM ledger ORDER BY position"));
    }

    QTemporaryDir m_demo;
};

RAMPLIGHT_TEST(QCoreApplication, TestFrozenKiosk)
#include "tst_frozenkiosk.moc"
