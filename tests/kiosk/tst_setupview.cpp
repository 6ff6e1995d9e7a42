// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSignalSpy>
#include <QTest>

#include <utility>

namespace ramplight::test {

namespace {

/// An empty database behind the desk of a bench that is thrown away.
class EmptyDesk : public BenchDesk
{
public:
    [[nodiscard]] Answer<SiteState> site() override
    {
        return QtFuture::makeReadyFuture(
            tl::expected<SiteState, Failure>(m_ledger.site().value_or(SiteState{})));
    }
    [[nodiscard]] Answer<SiteOutcome> run(const SiteRequest& request) override
    {
        ids.append(request.id.text);
        auto outcome = m_workshop.run(request);
        if (std::exchange(losesAnswer, false))
            outcome = tl::unexpected<Failure>(StoreError{});
        return QtFuture::makeReadyFuture(std::move(outcome));
    }

    MemoryLedger m_ledger;
    Workshop m_workshop{m_ledger, bench.clock, bench.catalogue};
    QStringList ids;
    bool losesAnswer = false; ///< once: it is carried out, and nobody is told
};

void fill(SetupView& setup)
{
    setup.setSiteName(QStringLiteral("Kestrel Quay"));
    setup.setTimeZone(QStringLiteral("Europe/London"));
    setup.setPersonName(QStringLiteral("Orla"));
    setup.newPin()->pad()->enter(QStringLiteral("274190"));
    setup.newPin()->pad()->enter(QStringLiteral("274190"));
}

} // namespace

class TestSetupView : public QObject
{
    Q_OBJECT

private slots:
    void workshop_isMadeWithItsFirstPerson();
    void warnings_sayWhatOneAloneCannotFinish();
    void incomplete_isRefused();
    void unknownZone_isRefused();
    void storeAway_isTriedAgainWithTheSameId();
    void answerLost_itsPersonGetsThePinAllTheSame();
    void pinNotWritten_nothingIsMade();
    void demo_tellsHowFarItIs();
    void demo_failure_isSaid();
    void noDemo_isNotOffered();
};

void TestSetupView::workshop_isMadeWithItsFirstPerson()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    book.refresh();
    SetupView setup(desk, book, {});
    QVERIFY(!setup.isComplete());
    fill(setup);
    setup.setDriveOnRight(true);
    setup.setLeftRight(true);
    setup.skills()->choose(QStringLiteral("mechanical"));
    QVERIFY(setup.isComplete());
    const QSignalSpy finished(setup.ask(), &Ask::done);
    setup.makeWorkshop();
    QTRY_COMPARE(finished.count(), 1);
    QVERIFY(book.site().isSetUp());
    QVERIFY(!book.site().demo);
    QCOMPARE(book.site().name, QStringLiteral("Kestrel Quay"));
    QCOMPARE(book.rules().trafficSide, TrafficSide::Right);
    QCOMPARE(book.rules().sideWords, SideWords::LeftRight);
    QCOMPARE(book.site().people.size(), std::size_t{1});
    const Person& first = book.site().people.begin()->second;
    QCOMPARE(first.name, QStringLiteral("Orla"));
    QVERIFY(first.can(Right::Manage) && first.has(Skill::Mechanical));
    QCOMPARE(desk.pins.at(first.id), QByteArray("274190"));
}

void TestSetupView::warnings_sayWhatOneAloneCannotFinish()
{
    EmptyDesk desk;
    const Catalogue catalogue = smallCatalogue();
    SiteBook book(desk, catalogue);
    book.refresh();
    SetupView setup(desk, book, {});
    QCOMPARE(setup.warnings(), QStringList()); // nobody is there yet
    fill(setup);
    const QSignalSpy changed(&setup, &SetupView::changed);
    setup.skills()->choose(QStringLiteral("mechanical"));
    QVERIFY(!changed.isEmpty());
    const QStringList said = setup.warnings();
    QVERIFY2(said.front().startsWith(QStringLiteral(
                 "Nobody but Orla may do: Inspection, so nobody is left to check any car")),
             qPrintable(said.join(QLatin1Char('\n'))));
    QVERIFY(said.contains(QStringLiteral("Nobody here can do: Fit a tyre (wheels).")));
    // As the wall says it once the workshop is there.
    setup.makeWorkshop();
    QTRY_VERIFY(book.site().isSetUp());
    QCOMPARE(missingCombinations(book.site(), book.catalogue(), QDate(2031, 3, 1)), said);
}

void TestSetupView::incomplete_isRefused()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, {});
    setup.setTimeZone(QStringLiteral("UTC"));
    setup.makeWorkshop();
    QCOMPARE(setup.ask()->refusalId(), QStringLiteral("field-missing"));
    QVERIFY(desk.ids.isEmpty());
}

void TestSetupView::unknownZone_isRefused()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, {});
    fill(setup);
    setup.setTimeZone(QStringLiteral("Nowhere/Atall"));
    setup.makeWorkshop();
    QCOMPARE(setup.ask()->refusalId(), QStringLiteral("rule-out-of-range"));
}

void TestSetupView::storeAway_isTriedAgainWithTheSameId()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, {});
    fill(setup);
    desk.m_ledger.failWith(StoreErrorKind::Unavailable);
    setup.makeWorkshop();
    QTRY_VERIFY(setup.ask()->canRetry());
    QVERIFY(setup.isComplete());
    desk.m_ledger.failWith({});
    setup.ask()->retry();
    QTRY_VERIFY(book.site().isSetUp());
    QCOMPARE(desk.ids.size(), 2);
    QCOMPARE(desk.ids[0], desk.ids[1]);
}

void TestSetupView::answerLost_itsPersonGetsThePinAllTheSame()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, {});
    fill(setup);
    desk.losesAnswer = true;
    setup.makeWorkshop();
    QTRY_VERIFY(setup.ask()->canRetry());
    setup.ask()->retry();
    QTRY_VERIFY(book.site().isSetUp());
    QCOMPARE(desk.ids[0], desk.ids[1]);
    const PersonId first = book.site().people.begin()->first;
    QCOMPARE(desk.pins, (std::map<PersonId, QByteArray>{{first, "274190"}}));
}

void TestSetupView::pinNotWritten_nothingIsMade()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, {});
    fill(setup);
    desk.accessFault = AccessError::StoreAway;
    setup.makeWorkshop();
    QTRY_VERIFY(setup.ask()->canRetry());
    QVERIFY(!book.site().isSetUp());
    QVERIFY(desk.ids.isEmpty());
    desk.accessFault.reset();
    setup.ask()->retry();
    QTRY_VERIFY(book.site().isSetUp());
    QCOMPARE(desk.pins.size(), std::size_t{1});
}

void TestSetupView::demo_tellsHowFarItIs()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    std::function<void(double)> tell;
    QPromise<tl::expected<void, QString>> promise;
    promise.start();
    SetupView setup(desk, book, [&](std::function<void(double)> progress) {
        tell = std::move(progress);
        return promise.future();
    });
    QVERIFY(setup.hasDemo());
    setup.makeDemo();
    QVERIFY(setup.ask()->busy());
    tell(0.5);
    QTRY_COMPARE(setup.progress(), 0.5);
    promise.addResult(tl::expected<void, QString>());
    promise.finish();
    QTRY_VERIFY(!setup.ask()->busy());
    QVERIFY(!setup.ask()->refused());
    QCOMPARE(setup.progress(), 1.0);
    QTRY_VERIFY(book.isRead());
}

void TestSetupView::demo_failure_isSaid()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, [](const std::function<void(double)>&) {
        return QtFuture::makeReadyFuture(
            tl::expected<void, QString>(tl::unexpected(QStringLiteral("no space"))));
    });
    setup.makeDemo();
    QTRY_COMPARE(setup.ask()->words(), QStringLiteral("no space"));
    QVERIFY(setup.ask()->canRetry());
}

void TestSetupView::noDemo_isNotOffered()
{
    EmptyDesk desk;
    const Catalogue catalogue;
    SiteBook book(desk, catalogue);
    SetupView setup(desk, book, {});
    QVERIFY(!setup.hasDemo());
    setup.makeDemo();
    QVERIFY(!setup.ask()->busy());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestSetupView)
#include "tst_setupview.moc"
