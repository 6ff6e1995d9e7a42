// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"

#include "evidence/photoalignment.h"
#include "evidence/scenes.h"

#include <QQuickItem>
#include <QQuickWindow>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;
using samples::Shot;
using samples::Thing;

/// Work before and after by touch: side by side, laid on each other with a line to move, chosen
/// among several. The photos are drawn, kept and decoded as any others.
class tst_BeforeAfter : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void photosOfOnePlace_areLaidOnEachOther_data();
    void photosOfOnePlace_areLaidOnEachOther();
    void photosFromSomewhereElse_stayBesideEachOther_untilOthersAreChosen_data();
    void photosFromSomewhereElse_stayBesideEachOther_untilOthersAreChosen();
    void carsPhotos_leadToTheWorkTheyAreOf_data();
    void carsPhotos_leadToTheWorkTheyAreOf();
};

namespace {

const auto fits =
    QStringLiteral("Taken from nearly the same place: they can be laid on each other");
const auto apart = QStringLiteral("Taken from somewhere else: shown side by side");
const auto sideBySide = QStringLiteral("Before and after");
constexpr QSize photoSize(1600, 1200);

/// As another person would take it again: nearer, not quite straight, in another light.
Shot again(int grain = 2)
{
    return {.scale = 1.08,
            .degrees = 5,
            .right = 0.05,
            .down = -0.03,
            .gain = 1.15,
            .lamp = 0.75,
            .repaired = true,
            .grain = grain,
            .size = photoSize};
}

PhotoId attach(BenchHouse& house, const CarId& car, OperationId work, PhotoMoment moment,
               const QImage& picture)
{
    const auto kept = house.photos().keep(picture);
    const PhotoId id = kept ? kept->id : PhotoId{};
    house.must(house.person(QStringLiteral("Bram")), car,
               {car::AttachPhoto{id, moment, house.car(car).operation(work)->place, work, {}}});
    return id;
}

bool picturesAreThere(KioskBench& bench)
{
    return bench.until([&] { return bench.ofType("Waiting").empty(); }, QStringLiteral("pictures"));
}

QQuickItem* only(const KioskBench& bench, const char* type)
{
    const auto items = bench.ofType(type);
    return items.empty() ? nullptr : items.back();
}

double lineOf(const KioskBench& bench)
{
    const QQuickItem* wipe = only(bench, "PhotoWipe");
    return wipe == nullptr ? -1 : wipe->property("line").toDouble();
}

/// The picture under the line, as somebody sees it.
QImage seen(KioskBench& bench)
{
    const QQuickItem* wipe = only(bench, "PhotoWipe");
    const qreal proportion = bench.shell().beforeAfter()->proportion();
    const QSizeF size(std::min(wipe->width(), wipe->height() * proportion),
                      std::min(wipe->height(), wipe->width() / proportion));
    const QPointF corner((wipe->width() - size.width()) / 2, wipe->height() - size.height());
    return bench.window()->grabWindow().copy(wipe->mapRectToScene(QRectF(corner, size)).toRect());
}

} // namespace

void tst_BeforeAfter::photosOfOnePlace_areLaidOnEachOther_data()
{
    sizes();
}

void tst_BeforeAfter::photosOfOnePlace_areLaidOnEachOther()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    attach(house, wheel.car, wheel.work, PhotoMoment::Before,
           photographed(Thing::Wheel, 3, {.size = photoSize}));
    QVERIFY(!bench.says(sideBySide)); // nothing to compare with
    attach(house, wheel.car, wheel.work, PhotoMoment::After,
           photographed(Thing::Wheel, 3, again()));
    QVERIFY(bench.tap(sideBySide));
    QVERIFY(bench.untilSays(fits));
    QVERIFY(picturesAreThere(bench));
    bench.shoot(QStringLiteral("before-after-beside"));

    QVERIFY(bench.tap(QStringLiteral("Wipe")));
    QVERIFY(picturesAreThere(bench));
    bench.shoot(QStringLiteral("before-after-wipe"));
    QCOMPARE(lineOf(bench), 0.5);
    // By its handle, a little beside its middle, and the line goes as far as the finger.
    const QQuickItem* wipe = only(bench, "PhotoWipe");
    const QPointF middle = wipe->mapToScene(QPointF(wipe->width() / 2, wipe->height() * 0.8));
    const QPointF handle(middle.x() + 12, middle.y());
    bench.drag(handle, handle - QPointF(size.width() / 8.0, 0));
    const double moved = lineOf(bench);
    QVERIFY2(moved > 0.2 && moved < 0.45, qPrintable(QString::number(moved)));
    bench.shoot(QStringLiteral("before-after-wiped"));
    // All of one, all of the other: what both show is at the same point of the screen.
    bench.drag(middle, QPointF(size.width() - 2, middle.y()));
    QCOMPARE(lineOf(bench), 1.0);
    const QImage before = seen(bench);
    bench.drag(middle, QPointF(2, middle.y()));
    QCOMPARE(lineOf(bench), 0.0);
    const QImage after = seen(bench);
    QVERIFY(before != after);
    const PhotoAlignment onScreen = alignPhotos(before, after);
    QVERIFY(onScreen.isClose());
    QVERIFY(std::abs(onScreen.toAfter.right) < 0.003 && std::abs(onScreen.toAfter.down) < 0.003);
    QVERIFY(std::abs(onScreen.toAfter.degrees()) < 0.5);
    QVERIFY(std::abs(onScreen.toAfter.scale() - 1) < 0.01);

    QVERIFY(bench.tap(QStringLiteral("Side by side")));
    QVERIFY(only(bench, "PhotoWipe") == nullptr);
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.untilGone(fits));
    QVERIFY(!bench.ofType("OperationScreen").empty());
}

void tst_BeforeAfter::photosFromSomewhereElse_stayBesideEachOther_untilOthersAreChosen_data()
{
    sizes();
}

void tst_BeforeAfter::photosFromSomewhereElse_stayBesideEachOther_untilOthersAreChosen()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    const Wheel wheel(house);
    attach(house, wheel.car, wheel.work, PhotoMoment::Before,
           photographed(Thing::Wheel, 3, {.size = photoSize}));
    attach(house, wheel.car, wheel.work, PhotoMoment::During,
           photographed(Thing::Paint, 3, {.size = photoSize}));
    const PhotoId fitting = attach(house, wheel.car, wheel.work, PhotoMoment::After,
                                   photographed(Thing::Wheel, 3, again()));
    attach(house, wheel.car, wheel.work, PhotoMoment::After,
           photographed(Thing::Door, 4, {.grain = 3, .size = photoSize}));
    bench.show(size);
    QVERIFY(goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work));
    QVERIFY(bench.tap(sideBySide));
    QVERIFY(bench.untilSays(apart));
    QVERIFY(picturesAreThere(bench));
    QVERIFY(!bench.says(QStringLiteral("Wipe")));
    bench.shoot(QStringLiteral("before-after-apart"));
    BeforeAfter& pair = *bench.shell().beforeAfter();
    QCOMPARE(pair.befores()->rowCount(), 1);
    QCOMPARE(pair.afters()->rowCount(), 2);
    const auto strips = bench.ofType("PhotoStrip");
    QCOMPARE(strips.size(), std::size_t{2});
    const auto tile = [&]() -> QQuickItem* {
        for (QQuickItem* item : bench.ofType("PhotoTile"))
            if (item->property("photoKey").toString().endsWith(fitting.text))
                return item;
        return nullptr;
    };
    QVERIFY(tile() != nullptr);
    QVERIFY(bench.tap(tile()));
    QVERIFY(bench.untilSays(fits));
    QVERIFY(bench.tap(QStringLiteral("Wipe")));
    QVERIFY(picturesAreThere(bench));
    bench.shoot(QStringLiteral("before-after-chosen"));
}

void tst_BeforeAfter::carsPhotos_leadToTheWorkTheyAreOf_data()
{
    sizes();
}

void tst_BeforeAfter::carsPhotos_leadToTheWorkTheyAreOf()
{
    QFETCH(const QSize, size);
    KioskBench bench(BenchHouse::Start::House);
    BenchHouse& house = bench.house();
    FindingData dented = finding("front-door-left", Condition::Dent);
    dented.severity = Severity::Light;
    const CarId car = house.bringIn(
        QStringLiteral("K-7"),
        {finding("wheel-front-left", Condition::Kerbed, {Remedy::Refurbish}), dented});
    const OperationId refurb = house.open(car, "wheel-refurb");
    const OperationId dent = house.open(car, "dent-push", "front-door-left");
    attach(house, car, refurb, PhotoMoment::Before,
           photographed(Thing::Wheel, 3, {.size = photoSize}));
    attach(house, car, refurb, PhotoMoment::After, photographed(Thing::Wheel, 3, again()));
    // Before it, the finding was photographed by the appraiser.
    const auto kept = house.photos().keep(photographed(Thing::Door, 4, {.size = photoSize}));
    QVERIFY(kept.has_value());
    house.must(house.person(QStringLiteral("Odo")), car,
               {car::AttachPhoto{kept->id,
                                 PhotoMoment::Before,
                                 {QStringLiteral("front-door-left")},
                                 {},
                                 house.car(car).operation(dent)->findings.front()}});
    attach(house, car, dent, PhotoMoment::After, photographed(Thing::Door, 4, again()));
    bench.show(size);
    QVERIFY(bench.openCar(QStringLiteral("K-7")));
    QVERIFY(bench.tap(QStringLiteral("Photos")));
    const std::size_t photos = house.car(car).photos.size();
    QVERIFY(bench.until([&] { return bench.ofType("PhotoTile").size() == photos; },
                        QStringLiteral("photos")));
    bench.shoot(QStringLiteral("before-after-list"));
    // From one photo: the newest is the door's.
    QVERIFY(bench.tap(bench.ofType("PhotoTile").front()));
    QVERIFY(bench.until([&] { return !bench.ofType("PhotoView").empty(); },
                        QStringLiteral("the photo")));
    QVERIFY(picturesAreThere(bench));
    bench.shoot(QStringLiteral("before-after-photo"));
    QVERIFY(bench.tap(sideBySide));
    QVERIFY(bench.untilSays(fits));
    BeforeAfter& pair = *bench.shell().beforeAfter();
    const auto titleOf = [&](OperationId id) {
        return KioskBench::titleOf(pair.works(), QString::number(id.value));
    };
    QCOMPARE(pair.title(), titleOf(dent));
    QVERIFY(picturesAreThere(bench));
    bench.shoot(QStringLiteral("before-after-works"));
    // To the other work.
    QVERIFY(bench.tap(bench.ofType("ChoiceChip", "text", titleOf(refurb))));
    QVERIFY(bench.until([&] { return pair.title() == titleOf(refurb); }, QStringLiteral("wheel")));
    QVERIFY(bench.untilSays(fits));
    QVERIFY(bench.tap(QStringLiteral("Back")));
    QVERIFY(bench.untilGone(fits));
    // From the list as a whole: the first work.
    QVERIFY(bench.tap(sideBySide));
    QVERIFY(bench.until([&] { return pair.fit() == BeforeAfter::Close; }, QStringLiteral("fit")));
    QCOMPARE(pair.title(), pair.works()->rows().front().title);
}

RAMPLIGHT_TEST(QGuiApplication, tst_BeforeAfter)
#include "tst_beforeafter.moc"
