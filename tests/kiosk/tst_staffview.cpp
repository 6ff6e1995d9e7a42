// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "viewbench.h"

#include <QSignalSpy>
#include <QTest>

namespace ramplight::test {

namespace {

void choosePin(NewPin* newPin, const QString& digits, const QString& again = {})
{
    newPin->pad()->enter(digits);
    newPin->pad()->enter(again.isEmpty() ? digits : again);
}

} // namespace

class TestStaffView : public QObject
{
    Q_OBJECT

private slots:
    void newPin_isTypedTwiceAndChecked();
    void newPerson_isAddedWithAPin();
    void newPerson_withoutAPin_isRefused();
    void newPerson_pinNotWritten_isNotAddedTwice();
    void person_isChanged();
    void lastManager_cannotBeLockedOut();
    void notAManager_isRefused();
    void pin_isReset();
    void badge_isGivenAndTaken();
    void badge_ofSomebodyElse_saysWhoseItIs();
    void bay_isAddedAndChanged();
    void bay_withoutANumber_isRefused();
    void endOfShift_stopsAllWork();
    void endOfShift_isRefusedToWhoMayNotManage();
    void warnings_sayWhatNobodyCanFinish();
};

void TestStaffView::newPin_isTypedTwiceAndChecked()
{
    NewPin pin;
    const QString rule = pin.words();
    pin.pad()->enter(QStringLiteral("111111"));
    QVERIFY(!pin.again() && pin.words() != rule);
    pin.pad()->enter(QStringLiteral("274190"));
    QVERIFY(pin.again() && !pin.isReady());
    pin.pad()->enter(QStringLiteral("274191"));
    QVERIFY(!pin.again() && !pin.isReady());
    choosePin(&pin, QStringLiteral("274190"));
    QVERIFY(pin.isReady());
    QCOMPARE(pin.copy().bytes().toByteArray(), QByteArray("274190"));
    pin.reset();
    QVERIFY(!pin.isReady());
    QCOMPARE(pin.words(), rule);
}

void TestStaffView::newPerson_isAddedWithAPin()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(0);
    QCOMPARE(staff->rights()->chosen(), QStringList{QStringLiteral("work")});
    staff->setName(QStringLiteral(" Ludo "));
    staff->skills()->choose(QStringLiteral("trim"));
    choosePin(staff->newPin(), QStringLiteral("274190"));
    const QSignalSpy finished(staff->ask(), &Ask::done);
    staff->save();
    QVERIFY(kiosk.shell.session()->again());
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(finished.count(), 2); // the person, then the PIN
    QVERIFY(staff->personId() > 0);
    const SiteState site = kiosk.bench.ledger.site().value_or(SiteState{});
    const Person* added = site.person(PersonId{staff->personId()});
    QVERIFY(added != nullptr);
    QCOMPARE(added->name, QStringLiteral("Ludo"));
    QCOMPARE(added->skills, std::vector<Skill>{Skill::Trim});
    QCOMPARE(kiosk.desk.pins.at(added->id), QByteArray("274190"));
    QVERIFY(column(*kiosk.shell.people(), "name").contains(QStringLiteral("Ludo")));
    QVERIFY(!staff->newPin()->isReady());
}

void TestStaffView::newPerson_withoutAPin_isRefused()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    kiosk.shell.staff()->edit(0);
    kiosk.shell.staff()->setName(QStringLiteral("Ludo"));
    kiosk.shell.staff()->save();
    QCOMPARE(kiosk.shell.staff()->ask()->refusalId(), QStringLiteral("field-missing"));
    QVERIFY(kiosk.desk.askedOfSite.empty());
}

void TestStaffView::newPerson_pinNotWritten_isNotAddedTwice()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(0);
    staff->setName(QStringLiteral("Ludo"));
    choosePin(staff->newPin(), QStringLiteral("274190"));
    kiosk.desk.keepingFault = AccessError::StoreAway;
    staff->save();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_VERIFY(staff->ask()->canRetry());
    QVERIFY(staff->ask()->words().startsWith(QStringLiteral("The PIN was not set: ")));
    kiosk.desk.keepingFault.reset();
    staff->ask()->retry();
    QCOMPARE(kiosk.outcome(staff->ask()), done);
    QCOMPARE(kiosk.desk.pins.at(PersonId{staff->personId()}), QByteArray("274190"));
    QCOMPARE(kiosk.desk.askedOfSite.size(), std::size_t{1});
}

void TestStaffView::person_isChanged()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(kiosk.bench.wheels.value);
    QCOMPARE(staff->name(), QStringLiteral("Caspar"));
    QCOMPARE(staff->skills()->chosen(), QStringList{QStringLiteral("wheels")});
    staff->skills()->choose(QStringLiteral("glass"));
    staff->save();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(kiosk.bench.ledger.site()->person(kiosk.bench.wheels)->skills.size(),
                 std::size_t{2});
}

void TestStaffView::lastManager_cannotBeLockedOut()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(kiosk.bench.checker.value);
    staff->rights()->choose(QStringLiteral("manage"));
    staff->save();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_VERIFY(!kiosk.bench.ledger.site()->person(kiosk.bench.checker)->can(Right::Manage));
    QCOMPARE(kiosk.outcome(staff->ask()), done);
    staff->edit(kiosk.bench.manager.value);
    staff->setActive(false);
    staff->save();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(staff->ask()->refusalId(), no(RefusalId::LastManager));
}

void TestStaffView::notAManager_isRefused()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.wheels);
    kiosk.shell.staff()->edit(kiosk.bench.painter.value);
    kiosk.shell.staff()->setActive(false);
    kiosk.shell.staff()->save();
    kiosk.typePin(kiosk.bench.wheels);
    QTRY_COMPARE(kiosk.shell.staff()->ask()->refusalId(), no(RefusalId::NotAllowed));
}

void TestStaffView::pin_isReset()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(kiosk.bench.wheels.value);
    staff->resetPin();
    QCOMPARE(staff->ask()->refusalId(), QStringLiteral("field-missing"));
    choosePin(staff->newPin(), QStringLiteral("905172"));
    staff->resetPin();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(kiosk.desk.pins.at(kiosk.bench.wheels), QByteArray("905172"));
    const auto* said = std::get_if<site::ChangeAccess>(&kiosk.desk.askedOfSite.back().command);
    QVERIFY(said != nullptr);
    QCOMPARE(said->what, QStringLiteral("pin"));
    // Who may not manage changes nobody's PIN: the ledger refuses before it is written.
    kiosk.signIn(kiosk.bench.painter);
    staff->edit(kiosk.bench.manager.value);
    choosePin(staff->newPin(), QStringLiteral("620481"));
    staff->resetPin();
    kiosk.typePin(kiosk.bench.painter);
    QTRY_COMPARE(staff->ask()->refusalId(), no(RefusalId::NotAllowed));
    QCOMPARE(kiosk.desk.pins.at(kiosk.bench.manager), ViewBench::pinOf(kiosk.bench.manager));
}

void TestStaffView::badge_isGivenAndTaken()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->edit(kiosk.bench.wheels.value);
    staff->giveBadge();
    QCOMPARE(staff->ask()->refusalId(), QStringLiteral("field-missing"));
    // While the form is open a badge belongs to the form.
    kiosk.shell.setProperty("staffOpen", true);
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("77"));
    QTRY_COMPARE(staff->scannedBadge(), QStringLiteral("77"));
    QCOMPARE(staff->badgeWords(),
             QStringLiteral("A badge was read. Give it to %1?").arg(staff->name()));
    staff->giveBadge();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(kiosk.desk.badges[QStringLiteral("77")], kiosk.bench.wheels);
    QTRY_VERIFY(staff->scannedBadge().isEmpty());
    staff->takeBadge();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(kiosk.desk.badges[QString()], kiosk.bench.wheels);
}

void TestStaffView::badge_ofSomebodyElse_saysWhoseItIs()
{
    ViewBench kiosk;
    kiosk.desk.badges[QStringLiteral("77")] = kiosk.bench.painter;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    kiosk.shell.setProperty("staffOpen", true);
    const SiteState site = kiosk.bench.ledger.site().value();
    const QString painter = site.person(kiosk.bench.painter)->name;
    const QString wheels = site.person(kiosk.bench.wheels)->name;
    staff->edit(kiosk.bench.wheels.value);
    QCOMPARE(staff->badgeWords(), QString());
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("77"));
    QTRY_COMPARE(staff->scannedBadge(), QStringLiteral("77"));
    QCOMPARE(staff->badgeWords(),
             QStringLiteral("This is the badge of %1, who would be without one. Give it to %2 "
                            "instead?")
                 .arg(painter, wheels));
    QCOMPARE(staff->giveBadgeWords(), QStringLiteral("Take it from %1").arg(painter));
    staff->edit(kiosk.bench.painter.value);
    QCOMPARE(staff->badgeWords(), QString());
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("77"));
    QTRY_COMPARE(staff->badgeWords(), QStringLiteral("%1 has this badge already.").arg(painter));
    QCOMPARE(staff->giveBadgeWords(), QString());
    // Somebody who is not added yet has no place for one.
    staff->edit(0);
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("77"));
    QTRY_COMPARE(staff->badgeWords(), QStringLiteral("Add the person first; then hold the badge to "
                                                     "the reader again."));
    // Whose it is cannot be read: it is not offered as if it were nobody's.
    staff->edit(kiosk.bench.wheels.value);
    kiosk.desk.accessFault = AccessError::StoreAway;
    emit kiosk.shell.scans()->badgeScanned(QStringLiteral("77"));
    QTRY_VERIFY(staff->ask()->refused());
    QCOMPARE(staff->giveBadgeWords(), QString());
}

void TestStaffView::bay_isAddedAndChanged()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    StaffView* staff = kiosk.shell.staff();
    staff->editBay(0);
    staff->setBayNumber(QStringLiteral("3"));
    staff->setBayName(QStringLiteral("Valet"));
    staff->bayKinds()->choose(QStringLiteral("valet"));
    staff->saveBay();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(kiosk.shell.bays()->count(), 3);
    QCOMPARE(at(*kiosk.shell.bays(), 2, "name").toString(), QStringLiteral("Valet"));
    staff->editBay(kiosk.bench.lift.value);
    QCOMPARE(staff->bayNumber(), QStringLiteral("1"));
    staff->setBayNumber(QStringLiteral("3"));
    staff->saveBay();
    kiosk.typePin(kiosk.bench.manager);
    QTRY_COMPARE(staff->ask()->refusalId(), no(RefusalId::BayNumberTaken));
}

void TestStaffView::bay_withoutANumber_isRefused()
{
    ViewBench kiosk;
    kiosk.signIn(kiosk.bench.manager);
    kiosk.shell.staff()->editBay(0);
    kiosk.shell.staff()->setBayNumber(QStringLiteral("three"));
    kiosk.shell.staff()->saveBay();
    QCOMPARE(kiosk.shell.staff()->ask()->refusalId(), QStringLiteral("value-out-of-range"));
}

namespace {

/// Somebody works; who is signed in ends the shift, with the PIN again.
void askToStopAll(ViewBench& kiosk, PersonId who)
{
    const CarId car = kiosk.bench.appraised();
    kiosk.bench.start(car, kiosk.bench.open(car, "tyre-survey"), kiosk.bench.wheels);
    kiosk.signIn(who);
    kiosk.shell.staff()->stopAllWork();
    kiosk.typePin(who);
}

} // namespace

void TestStaffView::endOfShift_stopsAllWork()
{
    ViewBench kiosk;
    askToStopAll(kiosk, kiosk.bench.manager);
    QTRY_VERIFY(kiosk.bench.ledger.allRunningWork()->empty());
}

void TestStaffView::endOfShift_isRefusedToWhoMayNotManage()
{
    ViewBench kiosk;
    askToStopAll(kiosk, kiosk.bench.wheels);
    QTRY_COMPARE(kiosk.shell.staff()->ask()->refusalId(), QStringLiteral("not-allowed"));
    QVERIFY(!kiosk.bench.ledger.allRunningWork()->empty());
}

void TestStaffView::warnings_sayWhatNobodyCanFinish()
{
    ViewBench kiosk;
    const QStringList before = kiosk.shell.houseWarnings();
    const SiteState site = kiosk.bench.ledger.site().value_or(SiteState{});
    QCOMPARE(before, missingCombinations(site, kiosk.bench.catalogue, kiosk.bench.today()));
    const QSignalSpy changed(&kiosk.shell, &Shell::houseWarningsChanged);
    QCOMPARE(kiosk.bench.ask(
                 kiosk.bench.manager,
                 site::ChangePerson{kiosk.bench.wheels, {Skill::Wheels}, {Right::Work}, false},
                 QStringLiteral("Caspar")),
             done);
    kiosk.settle();
    QTRY_COMPARE(changed.count(), 1);
    QVERIFY(kiosk.shell.houseWarnings().size() > before.size());
}

} // namespace ramplight::test

RAMPLIGHT_TEST(QGuiApplication, ramplight::test::TestStaffView)
#include "tst_staffview.moc"
