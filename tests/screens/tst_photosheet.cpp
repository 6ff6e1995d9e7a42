// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "support/testmain.h"
#include "wheelwork.h"

#include "kiosk/camerafeed.h"

#include <QBuffer>
#include <QQuickItem>
#include <QQuickWindow>
#include <QRegularExpression>
#include <QTest>

#include <algorithm>

using namespace ramplight;
using namespace ramplight::test;

/// Photos of work, taken with the kiosk's camera or picked from files: every step is a touch, the
/// camera is a synthetic one, and what came of it is read from the ledger.
class tst_PhotoSheet : public QObject
{
    Q_OBJECT

private slots:
    void init() { failOnQmlWarnings(); }
    void signOffWithTwoPhotos_needsFewTouches_data();
    void signOffWithTwoPhotos_needsFewTouches();
    void pictureBefore_liesOverTheOneAfter_data();
    void pictureBefore_liesOverTheOneAfter();
    void takenAgain_onlyTheLastIsKept();
    void cameraThatIsNotThere_isSaid_andFilesAreOffered();
    void cameraThatShowsNothing_isSaid_andComesBack();
    void cameraPulledOut_isSaid_andWhatWasTakenStays();
    void lampAndExposure_areThereWhenTheCameraHasThem();
    void severalFiles_arePickedAtOnce_data();
    void severalFiles_arePickedAtOnce();
    void fileThatIsNoPhoto_isNamed_theOthersAreTaken();
    void oneMorePhoto_isOfTheMomentThatIsChosen();
};

namespace {

const QString shutter = QStringLiteral("Take the photo");
const QString keepIt = QStringLiteral("Keep the photo");

/// Bram at the wheel's work on a kiosk, with a camera if wanted.
struct Scene
{
    explicit Scene(QSize size = {1920, 1080}, bool hasCamera = true)
        : bench(BenchHouse::Start::House)
        , wheel(bench.house())
    {
        if (hasCamera)
            bench.putCamera();
        bench.show(size);
        bench.camera().show(panelPicture(QColor(60, 130, 90)));
        came = goTo(bench, QStringLiteral("Bram Holloway"), wheel.car, wheel.work);
    }

    [[nodiscard]] CameraFeed* feed()
    {
        const auto feeds = bench.ofType("ramplight::CameraFeed");
        return feeds.empty() ? nullptr : static_cast<CameraFeed*>(feeds.back());
    }
    /// All of them, seen or not.
    void setPatience(int milliseconds)
    {
        QList<QQuickItem*> items{bench.window()->contentItem()};
        while (!items.isEmpty()) {
            QQuickItem* item = items.takeLast();
            items.append(item->childItems());
            if (auto* each = qobject_cast<CameraFeed*>(item))
                each->setPatience(milliseconds);
        }
    }
    bool untilLive()
    {
        return bench.until([this] { return feed() != nullptr && feed()->live(); },
                           QStringLiteral("the camera's picture"));
    }
    bool take() { return untilLive() && bench.tap(shutter) && bench.tap(keepIt); }
    [[nodiscard]] std::vector<AttachedPhoto> photos()
    {
        std::vector<AttachedPhoto> all = bench.house().car(wheel.car).photos;
        std::erase_if(all, [this](const auto& photo) { return photo.operation != wheel.work; });
        return all;
    }
    bool untilPhotos(std::size_t count)
    {
        return bench.until([&] { return photos().size() == count; },
                           QStringLiteral("%1 photos in the ledger").arg(count));
    }
    /// The colour in the middle of the camera's picture as it is drawn.
    [[nodiscard]] QColor middle()
    {
        const QPointF at = feed()->mapToScene({feed()->width() / 2, feed()->height() / 2});
        return bench.window()->grabWindow().pixelColor(at.toPoint());
    }

    KioskBench bench;
    Wheel wheel;
    bool came = false;
};

bool alike(QColor one, QColor other)
{
    const auto near = [](int a, int b) { return std::abs(a - b) <= 12; };
    return near(one.red(), other.red()) && near(one.green(), other.green()) &&
           near(one.blue(), other.blue());
}

QColor mixed(QColor over, QColor under, double share)
{
    const auto mix = [share](int a, int b) { return qRound(share * a + (1 - share) * b); };
    return {mix(over.red(), under.red()), mix(over.green(), under.green()),
            mix(over.blue(), under.blue())};
}

QByteArray jpeg(QColor colour)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    panelPicture(colour, {1600, 1200}).save(&buffer, "JPG");
    return bytes;
}

} // namespace

void tst_PhotoSheet::signOffWithTwoPhotos_needsFewTouches_data()
{
    sizes();
}

void tst_PhotoSheet::signOffWithTwoPhotos_needsFewTouches()
{
    QFETCH(const QSize, size);
    Scene at(size);
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    int touches = 0;
    const auto touch = [&](const QString& words) {
        ++touches;
        return bench.tap(words);
    };
    const auto readingAt = [&] {
        const auto sheets = bench.ofType("ReadingSheet");
        return sheets.empty() ? -1 : sheets.back()->property("at").toInt();
    };
    // Each asks for the next by itself.
    const auto read = [&](const QString& digits, const QString& words) {
        const int before = readingAt();
        touches += static_cast<int>(digits.size());
        return (digits.isEmpty() || bench.type(digits)) && touch(words) &&
               bench.until([&] { return readingAt() != before; }, QStringLiteral("next"));
    };
    QVERIFY(touch(QStringLiteral("I have read this: start")));
    QVERIFY(touch(QStringLiteral("Next reading")));
    const QString done = QStringLiteral("Done");
    QVERIFY(read({}, QStringLiteral("no crack, no weld, nothing missing")));
    QVERIFY(read({}, QStringLiteral("out")));
    QVERIFY(read(QStringLiteral("170"), done));
    QVERIFY(read(QStringLiteral("15"), done));
    QVERIFY(read(QStringLiteral("2"), done));
    QVERIFY(read({}, QStringLiteral("bare and clean")));

    // The photos come by themselves, each with what it is to show.
    const int beforePhotos = touches;
    for (std::size_t photo = 1; photo <= 2; ++photo) {
        QVERIFY(at.untilLive());
        if (photo == 2) {
            // The work shows: the same picture once more would not count as done.
            const QColor was(60, 130, 90);
            const QColor is(130, 90, 60);
            bench.camera().show(panelPicture(is));
            QVERIFY(bench.until([&] { return alike(at.middle(), mixed(was, is, 0.35)); },
                                QStringLiteral("the wheel afterwards")));
        }
        bench.shoot(QStringLiteral("camera-%1").arg(photo));
        QVERIFY(touch(shutter));
        QVERIFY(bench.untilSays(keepIt));
        bench.shoot(QStringLiteral("camera-held-%1").arg(photo));
        QVERIFY(touch(keepIt));
        QVERIFY(at.untilPhotos(photo));
    }
    const int photoTouches = touches - beforePhotos;
    QVERIFY(bench.until([&] { return bench.ofType("PhotoSheet").empty(); },
                        QStringLiteral("the operation")));
    QVERIFY(!bench.camera().runs()); // nobody is looked at who does not know
    QVERIFY(touch(QStringLiteral("Finish and sign")));
    QVERIFY(bench.until([&] { return at.wheel.now(bench.house()).state == OperationState::Closed; },
                        QStringLiteral("the signature")));
    QCOMPARE(photoTouches, 4);
    QCOMPARE(touches - photoTouches, 15);
    const auto photos = at.photos();
    QCOMPARE(photos.front().moment, PhotoMoment::Before);
    QCOMPARE(photos.back().moment, PhotoMoment::After);
    for (const AttachedPhoto& photo : photos) {
        QCOMPARE(photo.place, PlaceId{QStringLiteral("wheel-front-left")});
        QCOMPARE(photo.by, bench.house().person(QStringLiteral("Bram")));
        QVERIFY(bench.house().photos().open(photo.photo).has_value());
    }
}

void tst_PhotoSheet::pictureBefore_liesOverTheOneAfter_data()
{
    sizes();
}

void tst_PhotoSheet::pictureBefore_liesOverTheOneAfter()
{
    QFETCH(const QSize, size);
    Scene at(size);
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    const QColor was(190, 60, 60);
    const QColor is(60, 130, 90);
    const auto kept = bench.house().photos().keep(panelPicture(was));
    QVERIFY(kept);
    bench.house().must(bench.house().person(QStringLiteral("Bram")), at.wheel.car,
                       {car::AttachPhoto{kept->id,
                                         PhotoMoment::Before,
                                         PlaceId{QStringLiteral("wheel-front-left")},
                                         at.wheel.work,
                                         {}}});
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(at.untilLive());
    QVERIFY(bench.until([&] { return alike(at.middle(), mixed(was, is, 0.35)); },
                        QStringLiteral("both pictures")));
    bench.shoot(QStringLiteral("camera-guide"));
    QVERIFY(bench.tap(QStringLiteral("Clearer")));
    QVERIFY(bench.until([&] { return alike(at.middle(), mixed(was, is, 0.65)); },
                        QStringLiteral("more of the one before")));
    QVERIFY(bench.tap(QStringLiteral("Before over it")));
    QVERIFY(bench.until([&] { return alike(at.middle(), is); }, QStringLiteral("what is now")));
    QVERIFY(bench.tap(QStringLiteral("Before over it")));
    QVERIFY(bench.until([&] { return alike(at.middle(), mixed(was, is, 0.65)); },
                        QStringLiteral("both again")));
    // What is kept is what the camera saw, without what lay over it.
    QVERIFY(bench.tap(shutter));
    QVERIFY(bench.until([&] { return alike(at.middle(), is); }, QStringLiteral("what was taken")));
    QVERIFY(bench.tap(keepIt));
    QVERIFY(at.untilPhotos(2));
    const auto bytes = bench.house().photos().open(at.photos().back().photo);
    QVERIFY(bytes);
    const QImage taken = QImage::fromData(*bytes);
    QCOMPARE(taken.size(), QSize(1280, 720));
    QVERIFY(alike(taken.pixelColor(640, 360), is));

    // A picture before is taken over none.
    QVERIFY(bench.tap(bench.ofType("PhotoNeed").front()));
    QVERIFY(at.untilLive());
    QVERIFY(!bench.says(QStringLiteral("Before over it")));
}

void tst_PhotoSheet::takenAgain_onlyTheLastIsKept()
{
    Scene at;
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    bench.camera().show(panelPicture(Qt::black));
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(at.untilLive());
    QVERIFY(bench.tap(shutter));
    // What may be wrong with it is said before it is kept, and does not keep anybody from it.
    QVERIFY(bench.until([&] { return !at.feed()->warnings().isEmpty(); }, QStringLiteral("words")));
    for (const QString& warning : at.feed()->warnings())
        QVERIFY(bench.untilSays(warning));
    QVERIFY(bench.says(keepIt));
    bench.shoot(QStringLiteral("camera-warned"));
    const QColor second(60, 130, 90);
    bench.camera().show(panelPicture(second));
    QVERIFY(bench.tap(QStringLiteral("Take it again")));
    QVERIFY(bench.until([&] { return alike(at.middle(), second); }, QStringLiteral("the picture")));
    QVERIFY(bench.tap(shutter) && bench.tap(keepIt));
    QVERIFY(at.untilPhotos(1));
    const auto bytes = bench.house().photos().open(at.photos().front().photo);
    QVERIFY(bytes && alike(QImage::fromData(*bytes).pixelColor(640, 360), second));
}

void tst_PhotoSheet::cameraThatIsNotThere_isSaid_andFilesAreOffered()
{
    Scene at({1920, 1080}, false);
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    bench.house().drop(QStringLiteral("wheel.jpg"));
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(bench.untilSays(QStringLiteral(
        "No camera is connected to this kiosk. Choose a photo here, or use a phone.")));
    QVERIFY(bench.says(QStringLiteral("Use a phone")));
    QVERIFY(!bench.says(shutter) && !bench.says(QStringLiteral("Camera")));
    QVERIFY(bench.until([&] { return bench.shell().dropped()->count() == 1; },
                        QStringLiteral("the dropped photo")));
    bench.shoot(QStringLiteral("camera-none"));
    // One is plugged in: it is offered, and nobody is torn from what they do.
    bench.camera().plug(true);
    QVERIFY(bench.untilSays(QStringLiteral("Camera")));
    QVERIFY(bench.tap(QStringLiteral("Camera")));
    QVERIFY(at.take());
    QVERIFY(at.untilPhotos(1));
}

void tst_PhotoSheet::cameraThatShowsNothing_isSaid_andComesBack()
{
    Scene at;
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    bench.camera().show({});
    at.setPatience(60);
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(bench.untilSays(QStringLiteral("The camera shows no picture. Look at its cable. Choose "
                                           "a photo here, or use a phone.")));
    QVERIFY(bench.says(QStringLiteral("Use a phone")));
    QVERIFY(bench.says(QStringLiteral("No photos wait in the drop folder or on a stick")));
    QVERIFY(!bench.camera().runs());
    bench.shoot(QStringLiteral("camera-silent"));
    at.setPatience(60'000);
    bench.camera().show(panelPicture(Qt::darkCyan));
    QVERIFY(bench.tap(QStringLiteral("Camera")));
    QVERIFY(at.take());
    QVERIFY(at.untilPhotos(1));
}

void tst_PhotoSheet::cameraPulledOut_isSaid_andWhatWasTakenStays()
{
    Scene at;
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(at.untilLive());
    bench.camera().plug(false);
    QVERIFY(bench.untilSays(QStringLiteral(
        "The camera is gone. Look at its cable. Choose a photo here, or use a phone.")));
    bench.camera().plug(true);
    QVERIFY(bench.tap(QStringLiteral("Camera")));
    QVERIFY(at.untilLive());
    // Pulled out while a picture is held: that is kept all the same.
    QVERIFY(bench.tap(shutter));
    QVERIFY(bench.untilSays(keepIt));
    bench.camera().plug(false);
    QVERIFY(bench.tap(keepIt));
    QVERIFY(at.untilPhotos(1));
    QVERIFY(bench.until([&] { return bench.ofType("PhotoSheet").empty(); },
                        QStringLiteral("the operation")));
}

void tst_PhotoSheet::lampAndExposure_areThereWhenTheCameraHasThem()
{
    Scene at;
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    QVERIFY(bench.tap(afterPlace));
    QVERIFY(at.untilLive());
    QVERIFY(!bench.says(QStringLiteral("Light")) && !bench.says(QStringLiteral("Brighter")));
    bench.camera().able = true;
    emit bench.camera().abilitiesChanged();
    QVERIFY(bench.tap(QStringLiteral("Light")));
    QVERIFY(bench.camera().lamp);
    bench.shoot(QStringLiteral("camera-tools"));
    QVERIFY(bench.tap(QStringLiteral("Brighter")));
    QCOMPARE(bench.camera().exposure, 0.5);
    QVERIFY(bench.tap(QStringLiteral("Brighter")));
    QCOMPARE(bench.camera().exposure, 1.0);
    QVERIFY(bench.tap(QStringLiteral("Darker")));
    QCOMPARE(bench.camera().exposure, 0.5);
    QVERIFY(bench.tap(QStringLiteral("Light")));
    QVERIFY(!bench.camera().lamp);
}

void tst_PhotoSheet::severalFiles_arePickedAtOnce_data()
{
    sizes();
}

void tst_PhotoSheet::severalFiles_arePickedAtOnce()
{
    QFETCH(const QSize, size);
    Scene at(size, false);
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    BenchHouse& house = bench.house();
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return at.wheel.now(house).isRunning(); }, QStringLiteral("timer")));
    house.clock.goOn(40);
    house.put(house.dropFolder() + QStringLiteral("/phone.jpg"), jpeg(Qt::darkCyan), 10);
    house.put(house.stickFolder() + QStringLiteral("/DCIM/100RLIGHT/shot.jpg"),
              jpeg(Qt::darkYellow), 65);
    house.put(house.stickFolder() + QStringLiteral("/old.jpg"), jpeg(Qt::darkMagenta),
              40 + 2 * 24 * 60);
    QVERIFY(bench.tap(afterPlace));
    const auto tile = [&](const QString& name) {
        return bench.ofType("PhotoTile", "spoken", name);
    };
    QVERIFY(bench.until([&] { return tile(QStringLiteral("old.jpg")) != nullptr; },
                        QStringLiteral("the files")));
    // The dates beside the work's times.
    QVERIFY(bench.untilSays(QStringLiteral("14:30, while the work ran")));
    QVERIFY(bench.untilSays(QStringLiteral("13:35, 25 min before the work began")));
    QVERIFY(bench.untilSays(QStringLiteral("6 May 14:00, 2 days before the work began")));
    QCOMPARE(tile(QStringLiteral("shot.jpg"))->property("caption").toString(),
             QStringLiteral("stick"));
    QVERIFY(bench.tap(tile(QStringLiteral("phone.jpg"))));
    QVERIFY(bench.tap(tile(QStringLiteral("old.jpg"))));
    QVERIFY(bench.tap(tile(QStringLiteral("shot.jpg"))));
    QVERIFY(bench.untilSays(QStringLiteral("Use 3 photos")));
    bench.shoot(QStringLiteral("photos-picked"));
    QVERIFY(bench.tap(tile(QStringLiteral("old.jpg")))); // not that one after all
    QVERIFY(bench.tap(QStringLiteral("Use 2 photos")));
    QVERIFY(at.untilPhotos(2));
    for (const AttachedPhoto& photo : at.photos())
        QCOMPARE(photo.moment, PhotoMoment::After);
    // One that answers what is asked for, and one more.
    OperationView* view = bench.shell().operation();
    QVERIFY(bench.until([&] { return view->morePhotos()->count() == 1; },
                        QStringLiteral("one more photo")));
    bench.shoot(QStringLiteral("photos-more"));
}

void tst_PhotoSheet::fileThatIsNoPhoto_isNamed_theOthersAreTaken()
{
    Scene at({1920, 1080}, false);
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    BenchHouse& house = bench.house();
    const QByteArray whole = jpeg(Qt::darkCyan);
    house.put(house.dropFolder() + QStringLiteral("/whole.jpg"), whole, 10);
    house.put(house.dropFolder() + QStringLiteral("/half.jpg"), whole.first(whole.size() / 2), 12);
    // Qt Quick's own word about the tile, which says it, too.
    QTest::ignoreMessage(QtWarningMsg, QRegularExpression(QStringLiteral("QML Image: The end of")));
    QVERIFY(bench.tap(afterPlace));
    for (const QString& name : {QStringLiteral("whole.jpg"), QStringLiteral("half.jpg")}) {
        const auto tile = [&] { return bench.ofType("PhotoTile", "spoken", name); };
        QVERIFY(bench.until([&] { return tile() != nullptr; }, name));
        QVERIFY(bench.tap(tile()));
    }
    QVERIFY(bench.tap(QStringLiteral("Use 2 photos")));
    QVERIFY(at.untilPhotos(1));
    QVERIFY(bench.untilSays(
        QStringLiteral("Not taken: half.jpg: %1").arg(words(EvidenceError::Truncated))));
}

void tst_PhotoSheet::oneMorePhoto_isOfTheMomentThatIsChosen()
{
    Scene at;
    QVERIFY(at.came);
    KioskBench& bench = at.bench;
    QVERIFY(bench.tap(QStringLiteral("I have read this: start")));
    QVERIFY(bench.until([&] { return at.wheel.now(bench.house()).isRunning(); },
                        QStringLiteral("timer")));
    // Begun work is photographed while it is done, unless somebody says otherwise.
    QVERIFY(bench.tap(QStringLiteral("Another photo")));
    bench.shoot(QStringLiteral("camera-moment"));
    QVERIFY(at.take());
    QVERIFY(at.untilPhotos(1));
    QCOMPARE(at.photos().back().moment, PhotoMoment::During);
    QCOMPARE(at.photos().back().place, PlaceId{QStringLiteral("wheel-front-left")});
    QVERIFY(bench.until([&] { return bench.ofType("PhotoSheet").empty(); },
                        QStringLiteral("the operation")));
    QVERIFY(bench.tap(QStringLiteral("Another photo")));
    QVERIFY(bench.tap(QStringLiteral("before the work")));
    QVERIFY(at.take());
    QVERIFY(at.untilPhotos(2));
    QCOMPARE(at.photos().back().moment, PhotoMoment::Before);
}

RAMPLIGHT_TEST(QGuiApplication, tst_PhotoSheet)
#include "tst_photosheet.moc"
