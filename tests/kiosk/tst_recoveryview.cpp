// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QTest>

namespace ramplight::test {

namespace {

class DamagedDesk : public BenchDesk
{
public:
    [[nodiscard]] Answer<SiteState> site() override
    {
        return QtFuture::makeReadyFuture(tl::expected<SiteState, Failure>(
            tl::unexpected<Failure>(StoreError{StoreErrorKind::Damaged, "torn"})));
    }
};

/// One whole backup lies there.
class OneBackup : public BackupPort
{
public:
    explicit OneBackup(bool canBringBack)
        : m_can(canBringBack)
    {
    }
    [[nodiscard]] QFuture<BackupStatus> status(const QTimeZone&) override
    {
        return QtFuture::makeReadyFuture(BackupStatus{});
    }
    [[nodiscard]] QFuture<BackupStatus> backUp() override { return status({}); }
    [[nodiscard]] QFuture<tl::expected<BackupStatus, QString>> setFolder(const QString&) override
    {
        return QtFuture::makeReadyFuture(tl::expected<BackupStatus, QString>());
    }
    [[nodiscard]] QFuture<QStringList> places() override
    {
        return QtFuture::makeReadyFuture(QStringList());
    }
    [[nodiscard]] bool canBringBack() const override { return m_can; }
    [[nodiscard]] QFuture<std::optional<BackupOffer>> lastWhole() override
    {
        ++looked;
        return QtFuture::makeReadyFuture(
            std::optional(BackupOffer{QStringLiteral("/stick"), Moment{5}, 3}));
    }
    [[nodiscard]] QFuture<tl::expected<void, QString>> bringBack(const BackupOffer&) override
    {
        return QtFuture::makeReadyFuture(tl::expected<void, QString>());
    }

    int looked = 0;

private:
    bool m_can;
};

} // namespace

// The workshop's database is damaged: what can be done about it from here.
class TestRecoveryView : public QObject
{
    Q_OBJECT

private slots:
    void fileOfThisMachine_isOfferedFromABackup()
    {
        DamagedDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        OneBackup port(true);
        RecoveryView view(&port, desk, book);
        book.refresh();
        QTRY_VERIFY(!view.offer().isEmpty());
        QVERIFY(view.needed());
        QVERIFY(!view.elsewhere());
        QCOMPARE(view.words(), QStringLiteral("torn"));
    }

    // Whoever looks after the server brings it back there: nothing is looked for, nothing offered.
    void server_isForItsAdministrator()
    {
        DamagedDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        OneBackup port(false);
        RecoveryView view(&port, desk, book);
        book.refresh();
        QTRY_VERIFY(view.needed());
        view.look();
        QCoreApplication::processEvents();
        QVERIFY(view.elsewhere());
        QVERIFY(!view.looking());
        QCOMPARE(port.looked, 0);
        QCOMPARE(view.offer(), QString());
    }
};

} // namespace ramplight::test

RAMPLIGHT_TEST(QCoreApplication, ramplight::test::TestRecoveryView)
#include "tst_recoveryview.moc"
