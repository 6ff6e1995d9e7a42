// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QPromise>
#include <QSignalSpy>
#include <QTest>

#include <optional>

namespace ramplight::test {

namespace {

/// Backups on a stick that may hang: then nobody answers any more.
class StickThatHangs : public BackupPort
{
public:
    StickThatHangs() { m_never.start(); }
    ~StickThatHangs() override { m_never.finish(); }

    [[nodiscard]] QFuture<BackupStatus> status(const QTimeZone&) override
    {
        ++asked;
        return hangs ? m_never.future() : QtFuture::makeReadyFuture(now);
    }
    [[nodiscard]] QFuture<BackupStatus> backUp() override
    {
        ++begun;
        return m_never.future();
    }
    [[nodiscard]] QFuture<tl::expected<BackupStatus, QString>> setFolder(const QString&) override
    {
        return QtFuture::makeReadyFuture(tl::expected<BackupStatus, QString>(now));
    }
    [[nodiscard]] QFuture<QStringList> places() override
    {
        return QtFuture::makeReadyFuture(QStringList());
    }
    [[nodiscard]] bool canBringBack() const override { return false; }
    [[nodiscard]] QFuture<std::optional<BackupOffer>> lastWhole() override
    {
        return QtFuture::makeReadyFuture(std::optional<BackupOffer>());
    }
    [[nodiscard]] QFuture<tl::expected<void, QString>> bringBack(const BackupOffer&) override
    {
        return QtFuture::makeReadyFuture(tl::expected<void, QString>());
    }
    [[nodiscard]] QFuture<bool> canRemake() override { return QtFuture::makeReadyFuture(false); }
    [[nodiscard]] QFuture<tl::expected<void, QString>> remake() override
    {
        return QtFuture::makeReadyFuture(tl::expected<void, QString>());
    }

    BackupStatus now;
    bool hangs = false;
    int asked = 0;
    int begun = 0;

private:
    QPromise<BackupStatus> m_never;
};

struct Scene
{
    Scene()
    {
        port.now.state = BackupState::Good;
        port.now.folder = QStringLiteral("/media/stick/backups");
        port.now.goodAt = desk.bench.clock.now();
        book.refresh();
    }
    /// The kiosk looks once a minute.
    void goOn(int minutes)
    {
        ticker.pulse();
        desk.bench.clock.pass(minutes);
        ticker.pulse();
        QCoreApplication::processEvents();
    }

    BenchDesk desk;
    StickThatHangs port;
    Ticker ticker{desk.bench.clock};
    SiteBook book{desk, desk.bench.catalogue};
    Session session{desk, book, ticker};
    BackupView view{&port, desk, session, book, ticker};
};

constexpr int hour = 60;

} // namespace

// What the manager's screen says of the backups.
class TestBackupView : public QObject
{
    Q_OBJECT

private slots:
    void backupThatHangs_leavesTheLastOneToGrowOld_data()
    {
        QTest::addColumn<bool>("answers");
        QTest::addRow("the stick still answers") << true;
        QTest::addRow("nothing answers") << false;
    }

    void backupThatHangs_leavesTheLastOneToGrowOld()
    {
        QFETCH(const bool, answers);
        Scene scene;
        QTRY_VERIFY(scene.book.site().isSetUp());
        scene.goOn(1);
        QTRY_COMPARE(scene.view.folder(), scene.port.now.folder);
        QCOMPARE(scene.view.warning(), QString());
        scene.view.backUpNow();
        QVERIFY(scene.view.working());
        scene.port.hangs = !answers;
        scene.goOn(staleAfterHours * hour - 5);
        QCOMPARE(scene.view.warning(), QString());
        const QSignalSpy changed(&scene.view, &BackupView::changed);
        scene.goOn(10);
        QTRY_VERIFY2(scene.view.warning().endsWith("One is being made now."),
                     qPrintable(scene.view.warning()));
        QVERIFY(!changed.isEmpty());
        QVERIFY(scene.view.working());
        QCOMPARE(scene.port.begun, 1);
    }

    void firstBackupThatHangs_isMissedAfterADay()
    {
        Scene scene;
        QTRY_VERIFY(scene.book.site().isSetUp());
        scene.port.now.state = BackupState::Waiting;
        scene.port.now.since = scene.port.now.goodAt;
        scene.port.now.goodAt = {};
        scene.goOn(1);
        QTRY_COMPARE(scene.view.folder(), scene.port.now.folder);
        scene.view.backUpNow();
        scene.port.hangs = true;
        scene.goOn(waitingForHours * hour - 5);
        QCOMPARE(scene.view.warning(), QString());
        scene.goOn(10);
        QVERIFY2(scene.view.warning().startsWith("A folder for backups is named, and there is no "
                                                 "whole one yet after a day."),
                 qPrintable(scene.view.warning()));
    }

    // The day's counts as due until it is made.
    void backupThatIsBeingMade_isNotBegunAgain()
    {
        Scene scene;
        QTRY_VERIFY(scene.book.site().isSetUp());
        scene.port.now.due = true;
        scene.goOn(1);
        QTRY_COMPARE(scene.port.begun, 1);
        const int asked = scene.port.asked;
        for (int minute = 0; minute < 3; ++minute)
            scene.goOn(1);
        QTRY_COMPARE(scene.port.asked, asked + 3);
        QCOMPARE(scene.port.begun, 1);
    }

    void whoDoesNotAnswer_isNotAskedOverAndOver()
    {
        Scene scene;
        QTRY_VERIFY(scene.book.site().isSetUp());
        scene.port.hangs = true;
        scene.goOn(1);
        const int asked = scene.port.asked;
        for (int minute = 0; minute < 3; ++minute)
            scene.goOn(1);
        QCOMPARE(scene.port.asked, asked);
    }
};

} // namespace ramplight::test

RAMPLIGHT_TEST(QCoreApplication, ramplight::test::TestBackupView)
#include "tst_backupview.moc"
