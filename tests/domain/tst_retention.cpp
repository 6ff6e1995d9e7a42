// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "workbench.h"

#include "domain/audit.h"
#include "domain/eventcodec.h"
#include "domain/retention.h"

#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

HouseRules keepingFor(int years)
{
    HouseRules rules;
    rules.photoYears = years;
    return rules;
}

constexpr int minutesOfAYear = 366 * 24 * 60;

/// Released with the photos that its work asked for.
CarId released(Workbench& bench)
{
    const CarId id = bench.appraised();
    const FindingId mark = bench.found(id, "wheel-front-left", Condition::Kerbed);
    bench.must(
        bench.appraiser, id,
        car::AttachPhoto{bench.photo(), PhotoMoment::Before, at("wheel-front-left"), {}, mark});
    bench.release(id);
    return id;
}

std::size_t kept(const CarState& car)
{
    return std::size_t(std::ranges::count_if(
        car.photoFates, [](const auto& entry) { return !entry.second.isRemoved(); }));
}

} // namespace

// How long photos are kept: never less than the house says, and never while a car is in prep.
class TestRetention : public QObject
{
    Q_OBJECT

private slots:
    void photos_afterTheYears_go()
    {
        Workbench bench(keepingFor(6));
        const CarId id = released(bench);
        const CarState before = bench.car(id);
        QVERIFY(kept(before) >= 1);
        bench.clock.pass(7 * minutesOfAYear);
        const auto events = bench.must(bench.manager, id, car::RemovePhotos{});
        QCOMPARE(events.size(), std::size_t{1});
        const auto& removed = std::get<PhotosRemoved>(events.front());
        QCOMPARE(removed.photos.size(), kept(before));
        QCOMPARE(removed.years, 6);
        const CarState car = bench.car(id);
        QCOMPARE(kept(car), std::size_t{0});
        // What was named stays named, and the release stands.
        QCOMPARE(car.photos, before.photos);
        QVERIFY(car.released);
        const PhotoFate* fate = car.removedPhoto(car.photos.front().photo);
        QVERIFY(fate != nullptr);
        QCOMPARE(removedWords(*fate), QStringLiteral("removed after 6 years"));
        QCOMPARE(bench.ask(bench.manager, id, car::RemovePhotos{}), no(RefusalId::PhotosKept));
    }

    void photos_dayByDay_data()
    {
        QTest::addColumn<int>("days"); // after the day on which the years are over
        QTest::addColumn<bool>("goes");
        QTest::newRow("the day before") << -1 << false;
        QTest::newRow("the very day") << 0 << false;
        QTest::newRow("the day after") << 1 << true;
    }

    void photos_dayByDay()
    {
        QFETCH(int, days);
        QFETCH(bool, goes);
        Workbench bench(keepingFor(3));
        const CarId id = released(bench);
        const CarState car = bench.car(id);
        const HouseRules rules = bench.ledger.site()->rules;
        const QDate last = dayOf(car.released->at, rules).addYears(3);
        QCOMPARE(photosKeptUntil(car, rules), last);
        const Moment noon = startOf(last.addDays(days), rules).plusMinutes(12 * 60);
        QCOMPARE(!photosDue(car, rules, noon).empty(), goes);
    }

    void photos_whereTheHouseKeepsThemForGood_stay()
    {
        Workbench bench; // as shipped
        QCOMPARE(HouseRules{}.photoYears, 0);
        const CarId id = released(bench);
        bench.clock.pass(90 * minutesOfAYear);
        QVERIFY(photosDue(bench.car(id), HouseRules{}, bench.clock.now()).empty());
        QCOMPARE(bench.ask(bench.manager, id, car::RemovePhotos{}), no(RefusalId::PhotosKept));
        QVERIFY2(bench.lastWords().contains("for good"), qPrintable(bench.lastWords()));
    }

    void photos_ofACarInPrep_stay_data()
    {
        QTest::addColumn<QString>("how");
        QTest::newRow("never released") << "in prep";
        QTest::newRow("held again") << "held";
        QTest::newRow("brought back") << "back";
    }

    void photos_ofACarInPrep_stay()
    {
        QFETCH(QString, how);
        Workbench bench(keepingFor(1));
        CarId id;
        if (how == "in prep") {
            id = bench.appraised();
            const FindingId mark = bench.found(id, "bonnet", Condition::Scratch);
            bench.must(
                bench.appraiser, id,
                car::AttachPhoto{bench.photo(), PhotoMoment::Before, at("bonnet"), {}, mark});
        } else {
            id = released(bench);
        }
        bench.clock.pass(20 * minutesOfAYear);
        if (how == "held") {
            bench.found(id, "tyre-front-left", Condition::Cut);
        } else if (how == "back") {
            bench.must(bench.manager, id, car::LeaveUnreleased{LeavingHow::Trade, "sold on"});
            bench.must(bench.manager, id, car::BringBack{"part exchange"});
        }
        QVERIFY(outOfPrepAt(bench.car(id)).isNull());
        bench.clock.pass(20 * minutesOfAYear);
        QCOMPARE(bench.ask(bench.manager, id, car::RemovePhotos{}), no(RefusalId::PhotosKept));
        QVERIFY2(bench.lastWords().contains("in prep"), qPrintable(bench.lastWords()));
    }

    void photos_ofACarThatLeft_goByTheDayItLeft()
    {
        Workbench bench(keepingFor(2));
        const CarId id = released(bench);
        bench.clock.pass(minutesOfAYear);
        bench.must(bench.manager, id, car::LeaveUnreleased{LeavingHow::Trade, "to the auction"});
        const Moment left = bench.car(id).lastAt;
        QCOMPARE(outOfPrepAt(bench.car(id)).ms, left.ms);
        bench.clock.pass(minutesOfAYear + minutesOfAYear / 2);
        QCOMPARE(bench.ask(bench.manager, id, car::RemovePhotos{}), no(RefusalId::PhotosKept));
        QVERIFY2(bench.lastWords().contains("until 20"), qPrintable(bench.lastWords()));
        bench.clock.pass(minutesOfAYear);
        bench.must(bench.manager, id, car::RemovePhotos{});
        QCOMPARE(kept(bench.car(id)), std::size_t{0});
        // Tidying is no reason to think that it left later.
        QCOMPARE(outOfPrepAt(bench.car(id)).ms, left.ms);
    }

    void photo_addedLater_hasYearsOfItsOwn()
    {
        Workbench bench(keepingFor(2));
        const CarId id = released(bench);
        bench.clock.pass(2 * minutesOfAYear - 60 * 24 * 30);
        const PhotoId late = bench.photo();
        bench.must(bench.appraiser, id,
                   car::AttachPhoto{late, PhotoMoment::After, wholeCar(), {}, {}});
        bench.clock.pass(60 * 24 * 90);
        bench.must(bench.manager, id, car::RemovePhotos{});
        QCOMPARE(bench.car(id).removedPhoto(late), nullptr);
        QCOMPARE(kept(bench.car(id)), std::size_t{1});
        // Attached again, a removed one is kept again.
        const PhotoId old = bench.car(id).photos.front().photo;
        QVERIFY(bench.car(id).removedPhoto(old) != nullptr);
        bench.must(bench.appraiser, id,
                   car::AttachPhoto{old, PhotoMoment::After, wholeCar(), {}, {}});
        QCOMPARE(bench.car(id).removedPhoto(old), nullptr);
    }

    void evidenceOfACorrection_isAPhotoLikeOthers()
    {
        Workbench bench(keepingFor(1));
        const CarId id = bench.appraised();
        const FindingId worn = bench.found(id, "brakes-front", Condition::Worn);
        const PhotoId evidence = bench.photo();
        car::CorrectFinding correct;
        correct.finding = worn;
        correct.data = finding("brakes-front", Condition::Corrosion);
        correct.reason = QStringLiteral("looked closer");
        correct.evidence = evidence;
        bench.must(bench.technician, id, correct);
        QVERIFY(bench.car(id).photoFates.contains(evidence));
    }

    void removing_needsTheRight()
    {
        Workbench bench(keepingFor(1));
        const CarId id = released(bench);
        bench.clock.pass(3 * minutesOfAYear);
        QCOMPARE(bench.ask(bench.mechanic, id, car::RemovePhotos{}), no(RefusalId::NotAllowed));
    }

    void audit_namesWhatWasRemovedTooSoon()
    {
        Workbench bench(keepingFor(6));
        const CarId id = released(bench);
        bench.clock.pass(7 * minutesOfAYear);
        const CarState car = bench.car(id);
        const SiteState site = bench.ledger.site().value();
        const PhotosRemoved all{photosDue(car, site.rules, bench.clock.now()), 6};
        CarEnvelope entry{car.seq + 1, bench.clock.now(), bench.manager, {}, all};
        QCOMPARE(rulesBroken(car, {entry}, site), QStringList());
        entry.at = car.lastAt;
        QVERIFY(rulesBroken(car, {entry}, site).join(' ').contains("that were to be kept"));
        entry.at = bench.clock.now();
        entry.by = bench.mechanic;
        QVERIFY(rulesBroken(car, {entry}, site).join(' ').contains("without the right"));
        SiteState forGood = site;
        forGood.rules.photoYears = 0;
        entry.by = bench.manager;
        QVERIFY(rulesBroken(car, {entry}, forGood).join(' ').contains("that were to be kept"));
    }

    void years_areBounded_data()
    {
        QTest::addColumn<int>("years");
        QTest::addColumn<bool>("taken");
        QTest::newRow("below") << -1 << false;
        QTest::newRow("one") << 1 << true;
        QTest::newRow("most") << 50 << true;
        QTest::newRow("more") << 51 << false;
    }

    void years_areBounded()
    {
        QFETCH(int, years);
        QFETCH(bool, taken);
        Workbench bench;
        QCOMPARE(bench.ask(bench.manager, site::SetHouseRules{keepingFor(years)}),
                 taken ? done : no(RefusalId::RuleOutOfRange));
    }

    void entry_readsBack()
    {
        const PhotosRemoved removed{{PhotoId{"aa"}, PhotoId{"bb"}}, 6};
        const auto back = decodeCarEvent(encode(CarEvent(removed)));
        QVERIFY(back);
        QCOMPARE(std::get<PhotosRemoved>(*back), removed);
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestRetention)
#include "tst_retention.moc"
