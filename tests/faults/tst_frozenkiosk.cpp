// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/program.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <csignal>
#include <cstring>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

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

} // namespace

// The real kiosk under something that listens as systemd does: it says that it is there, and that
// it lives, as long as it does.
class TestFrozenKiosk : public QObject
{
    Q_OBJECT

private slots:
    void kiosk_saysThatItLives_untilItFreezes()
    {
        const QTemporaryDir folder;
        const QString home = folder.filePath(QStringLiteral("home"));
        QCOMPARE(makeDemo(home), QString());
        const NotifySocket systemd(folder.filePath(QStringLiteral("notify")));
        QProcessEnvironment environment = programEnvironment();
        environment.insert(QStringLiteral("NOTIFY_SOCKET"),
                           folder.filePath(QStringLiteral("notify")));
        environment.insert(QStringLiteral("WATCHDOG_USEC"), QStringLiteral("600000"));
        QProcess kiosk;
        kiosk.setProcessEnvironment(environment);
        kiosk.start(programPath(), {QStringLiteral("--home"), home, QStringLiteral("--windowed")});
        QByteArrayList heard;
        const auto hears = [&](const char* what, int times) {
            return QTest::qWaitFor(
                [&] {
                    heard += systemd.take();
                    return heard.count(what) >= times || kiosk.state() == QProcess::NotRunning;
                },
                60'000);
        };
        QVERIFY(hears("READY=1", 1));
        QVERIFY(hears("WATCHDOG=1", 3));
        QCOMPARE(kiosk.state(), QProcess::Running);
        QCOMPARE(heard.first(), QByteArray("READY=1"));

        QCOMPARE(::kill(static_cast<pid_t>(kiosk.processId()), SIGSTOP), 0);
        QTest::qWait(200);
        systemd.take();
        QTest::qWait(1200);
        QCOMPARE(systemd.take(), QByteArrayList());
        QCOMPARE(::kill(static_cast<pid_t>(kiosk.processId()), SIGCONT), 0);
        heard.clear();
        QVERIFY(hears("WATCHDOG=1", 1));
        kiosk.kill();
        QVERIFY(kiosk.waitForFinished(60'000));
    }
};

QTEST_GUILESS_MAIN(TestFrozenKiosk)
#include "tst_frozenkiosk.moc"
