// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSignalSpy>
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
        return QtFuture::makeReadyFuture(std::optional(BackupOffer{
            QStringLiteral("/stick"), Moment{5}, 3, faults, photosLacking, walkRoundsLacking}));
    }
    [[nodiscard]] QFuture<tl::expected<void, QString>> bringBack(const BackupOffer&) override
    {
        return QtFuture::makeReadyFuture(tl::expected<void, QString>());
    }
    [[nodiscard]] QFuture<bool> canRemake() override
    {
        return QtFuture::makeReadyFuture(ledgerIsWhole);
    }
    [[nodiscard]] QFuture<tl::expected<void, QString>> remake() override
    {
        return QtFuture::makeReadyFuture(remade);
    }

    int looked = 0;
    QStringList faults;
    int photosLacking = 0;
    int walkRoundsLacking = 0;
    bool ledgerIsWhole = false;
    tl::expected<void, QString> remade;

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
        QVERIFY(!view.remakable());
        QCOMPARE(view.words(), QStringLiteral("torn"));
    }

    void whatWasWrongWhenItWasMade_isToldBeforeItIsBroughtBack()
    {
        DamagedDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        OneBackup port(true);
        RecoveryView view(&port, desk, book);
        book.refresh();
        QTRY_VERIFY(!view.offer().isEmpty());
        QCOMPARE(view.offerFaults(), QString());
        port.faults = {QStringLiteral("photo a: it is missing"),
                       QStringLiteral("car/1, entry 2: x"), QStringLiteral("car/1, entry 3: y"),
                       QStringLiteral("car/1, entry 4: z"), QStringLiteral("car/1, entry 5: z")};
        view.look();
        QTRY_VERIFY(!view.offerFaults().isEmpty());
        QVERIFY2(view.offerFaults().endsWith(
                     "photo a: it is missing; car/1, entry 2: x; car/1, entry 3: y; and 2 more"),
                 qPrintable(view.offerFaults()));
    }

    void whatWouldBeMissing_isCountedBeforeItIsBroughtBack()
    {
        DamagedDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        OneBackup port(true);
        port.photosLacking = 2;
        RecoveryView view(&port, desk, book);
        book.refresh();
        QTRY_VERIFY(!view.offer().isEmpty());
        QCOMPARE(view.offerFaults(),
                 QStringLiteral("Photos that will be missing, because neither the backup nor the "
                                "workshop's folder has them whole: 2"));
        port.faults = {QStringLiteral("car/1, entry 2: x")};
        port.walkRoundsLacking = 1;
        view.look();
        QTRY_COMPARE(view.offerFaults().count(QLatin1Char('\n')), 2);
        QVERIFY2(view.offerFaults().startsWith("This was wrong already"),
                 qPrintable(view.offerFaults()));
        QVERIFY2(view.offerFaults().contains("\nWalk-rounds whose words will be missing"),
                 qPrintable(view.offerFaults()));
    }

    // Then nothing has to be lost.
    void wholeLedger_isOfferedBeforeAnyBackup()
    {
        DamagedDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        OneBackup port(true);
        port.ledgerIsWhole = true;
        RecoveryView view(&port, desk, book);
        const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
        book.refresh();
        QTRY_VERIFY(view.remakable());
        QVERIFY(!view.looking());
        QCOMPARE(view.offer(), QString());
        QCOMPARE(port.looked, 0);
        view.bringBack();
        QVERIFY(!view.mending());
        view.remake();
        QTRY_COMPARE(again.count(), 1);
        QCOMPARE(view.fault(), QString());
    }

    void remakingThatFails_isSaid_andTheBackupOffered()
    {
        DamagedDesk desk;
        SiteBook book(desk, desk.bench.catalogue);
        OneBackup port(true);
        port.ledgerIsWhole = true;
        port.remade = tl::unexpected(QStringLiteral("The disk is full."));
        RecoveryView view(&port, desk, book);
        const QSignalSpy again(&view, &RecoveryView::openAgainWanted);
        book.refresh();
        QTRY_VERIFY(view.remakable());
        view.remake();
        QTRY_VERIFY(!view.offer().isEmpty());
        QCOMPARE(view.fault(), QStringLiteral("The disk is full."));
        QCOMPARE(again.count(), 0);
        QVERIFY(view.remakable());
        port.remade = {};
        view.remake();
        QTRY_COMPARE(again.count(), 1);
        QCOMPARE(view.fault(), QString());
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
