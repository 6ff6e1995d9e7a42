// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "amount.h"
#include "heldwall.h"
#include "houseworker.h"
#include "ownserver.h"
#include "promises.h"
#include "support/testmain.h"

#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include <csignal>
#include <memory>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// One that signs itself, made out to a name: who has it as root trusts it and nothing else.
OwnServer::Certificate certificateFor(const char* name, const QTemporaryDir& folder)
{
    const QString text = QString::fromLatin1(name);
    const OwnServer::Certificate made{folder.filePath(text + QStringLiteral(".crt")),
                                      folder.filePath(text + QStringLiteral(".key"))};
    QProcess openssl;
    openssl.setProcessChannelMode(QProcess::MergedChannels);
    openssl.start(QStringLiteral("openssl"),
                  {"req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1",
                   "-nodes", "-days", "2", "-subj", "/CN=" + text, "-addext",
                   "subjectAltName=DNS:" + text, "-keyout", made.key, "-out", made.file});
    if (!openssl.waitForFinished(shortPatience) || openssl.exitCode() != 0)
        qFatal("no certificate: %s", openssl.readAll().constData());
    return made;
}

/// Waits with a running event loop, as the screen does.
template <class T>
T resultOf(const QFuture<T>& future)
{
    if (!QTest::qWaitFor([&] { return future.isFinished(); }, shortPatience))
        qFatal("the store's thread does not answer");
    return future.result();
}

} // namespace

// The line between a kiosk and its server where others may listen on it, or answer in the place of
// the server: it is encrypted, the server shows whose it is, and what does not fit is refused in
// words.
class TestTls : public QObject
{
    Q_OBJECT

private slots:
    void initTestCase()
    {
        if (!OwnServer::canBeStarted())
            QSKIP("no PostgreSQL 15 here (tests/run installs it)");
        if (QStandardPaths::findExecutable(QStringLiteral("openssl")).isEmpty())
            QSKIP("no openssl here (tests/run installs it)");
        m_right = certificateFor("localhost", m_folder);
        m_wrong = certificateFor("elsewhere", m_folder);
        m_server = std::make_unique<OwnServer>(OwnServer::Care::Memory, QString(),
                                               QStringLiteral("127.0.0.1"), m_right);
        m_plain = std::make_unique<OwnServer>(OwnServer::Care::Memory, QString(),
                                              QStringLiteral("127.0.0.1"));
        setUpHouse(m_server->settings());
    }

    void rightCertificate_isWorkedWith()
    {
        const StoreSettings settings = checked("localhost", m_right.file);
        const auto encrypted = [&](const StoreSettings& asked) {
            const auto store = Store::open(asked, keeperWith());
            if (!store)
                qFatal("%s", qPrintable(store.error().words));
            auto rows = (*store)->ledger().connection().run(
                "SELECT CASE WHEN ssl THEN version ELSE 'plain text' END FROM pg_stat_ssl"
                " WHERE pid = pg_backend_pid()");
            return rows && rows->next() ? rows->text(0) : QString();
        };
        QVERIFY2(encrypted(settings).startsWith(QLatin1String("TLS")),
                 qPrintable(encrypted(settings)));
        QCOMPARE(encrypted(m_server->settings()), QStringLiteral("plain text")); // by the socket

        // People work by it, and a kiosk hears of what they do.
        const Catalogue catalogue = smallCatalogue();
        KioskDoor kiosk(settings, catalogue);
        QVERIFY(kiosk.open());
        const HeldWall& wall = kiosk.holdWall();
        const auto people = storeDoor(settings, catalogue);
        QStringList kept;
        HouseWorker worker(*people, 1, [&](const QString& line) {
            kept += keptIn((line + QLatin1Char('\n')).toUtf8());
        });
        QVERIFY(worker.work(60));
        QVERIFY(kept.size() > 20);
        QTRY_COMPARE_WITH_TIMEOUT(wall.digest(), wallIn(settings), shortPatience);
        QCOMPARE(brokenPromises(m_server->settings(), kept, 0), QStringList());
    }

    void whatDoesNotFit_isRefusedInWords_data()
    {
        QTest::addColumn<StoreSettings>("settings");
        QTest::addColumn<QString>("words");
        QTest::newRow("another root") << checked("localhost", m_wrong.file)
                                      << "was not signed by the root certificate of this kiosk";
        QTest::newRow("another name") << checked("127.0.0.1", m_right.file)
                                      << "is made out to another name than that in the server's";
        QTest::newRow("no root") << checked("localhost", m_folder.filePath("none.crt"))
                                 << "The root certificate that the server's own is checked with";
        StoreSettings plain;
        plain.kind = StoreKind::PostgreSql;
        plain.server =
            *PostgresAddress::parse(m_plain->addressOutside() + QStringLiteral(" sslmode=require"));
        QTest::newRow("a server without encryption")
            << plain << "The server offers no encrypted connection";
    }

    void whatDoesNotFit_isRefusedInWords()
    {
        QFETCH(StoreSettings, settings);
        QFETCH(QString, words);
        const auto store = Store::open(settings, keeperWith());
        QVERIFY(!store);
        QCOMPARE(store.error().kind, StoreErrorKind::NotTrusted);
        QVERIFY2(store.error().words.contains(words), qPrintable(store.error().words));
        QVERIFY(store.error().words.contains(QStringLiteral("Nothing was sent")));

        // At a kiosk: not that no server answers.
        const QTemporaryDir folder;
        settings.patience = kioskPatience;
        settings.standby = folder.path();
        const Catalogue catalogue = smallCatalogue();
        KioskDoor kiosk(settings, catalogue);
        const auto opened = resultOf(kiosk.thread().start());
        QVERIFY(!opened);
        QVERIFY2(opened.error().words.contains(words), qPrintable(opened.error().words));
        QTRY_VERIFY_WITH_TIMEOUT(kiosk.standing().hindrance.contains(words), shortPatience);
    }

    // Somebody answers in the server's place: the kiosk gives nothing away, says so, and goes on.
    void anotherServer_isNotGivenWhatWasKept()
    {
        const QTemporaryDir folder;
        const Catalogue catalogue = smallCatalogue();
        const auto kioskWith = [&](const QString& root) {
            StoreSettings settings = checked("localhost", root);
            settings.patience = kioskPatience;
            settings.standby = folder.path();
            return std::make_unique<KioskDoor>(settings, catalogue);
        };
        std::size_t cars = 0;
        {
            const auto kiosk = kioskWith(m_right.file);
            QVERIFY(kiosk->open());
            QTRY_VERIFY_WITH_TIMEOUT(!kiosk->standing().knownAt.isNull(), shortPatience);
            cars = kiosk->wall().value().size();
            QVERIFY(cars > 0);
        }
        const auto kiosk = kioskWith(m_wrong.file);
        QVERIFY(kiosk->open());
        QTRY_VERIFY_WITH_TIMEOUT(
            kiosk->standing().hindrance.contains(QStringLiteral("may be another server")),
            shortPatience);
        QVERIFY(kiosk->standing().away);
        QCOMPARE(kiosk->wall().value().size(), cars);
    }

    void hangingServer_isNoticed_throughTheEncryption()
    {
        const QTemporaryDir folder;
        StoreSettings settings = checked("localhost", m_right.file);
        settings.patience = kioskPatience;
        settings.standby = folder.path();
        const Catalogue catalogue = smallCatalogue();
        KioskDoor kiosk(settings, catalogue);
        bool everAway = false;
        kiosk.onStanding(
            [&](const ServerStanding& standing) { everAway = everAway || standing.away; });
        QVERIFY(kiosk.open());
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().knownAt.isNull(), shortPatience);
        QVERIFY(!everAway);
        const int backend = resultOf(kiosk.thread().run([](Workshop&, Store& store) {
            auto rows = store.ledger().connection().run("SELECT pg_backend_pid()");
            return rows && rows->next() ? rows->whole(0) : 0;
        }));
        QVERIFY(backend > 0);
        QCOMPARE(::kill(backend, SIGSTOP), 0);
        const bool noticed = QTest::qWaitFor([&] { return everAway; }, shortPatience);
        ::kill(backend, SIGCONT);
        QVERIFY(noticed);
        QTRY_VERIFY_WITH_TIMEOUT(!kiosk.standing().away, shortPatience);
    }

private:
    /// As a house with a certificate of its own has it in its settings.
    [[nodiscard]] StoreSettings checked(const char* host, const QString& root) const
    {
        StoreSettings settings;
        settings.kind = StoreKind::PostgreSql;
        settings.server = *PostgresAddress::parse(
            QStringLiteral("host=%1 port=%2 dbname=workshop user=ramplight sslmode=verify-full"
                           " sslrootcert='%3'")
                .arg(QLatin1StringView(host))
                .arg(m_server->port())
                .arg(root));
        return settings;
    }

    QTemporaryDir m_folder;
    OwnServer::Certificate m_right;
    OwnServer::Certificate m_wrong;
    std::unique_ptr<OwnServer> m_server;
    std::unique_ptr<OwnServer> m_plain;
};

RAMPLIGHT_TEST(QCoreApplication, TestTls)
#include "tst_tls.moc"
