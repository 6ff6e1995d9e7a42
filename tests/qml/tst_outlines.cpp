// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "outlines/carpainter.h"
#include "outlines/carshape.h"
#include "outlines/qrcode.h"
#include "support/testmain.h"

#include <QImage>
#include <QLineF>
#include <QPainter>
#include <QSet>
#include <QTest>
#include <QTransform>

#include <algorithm>
#include <optional>

using namespace ramplight;

namespace {

/// Ids of body, wheel and tyre places that the whole project shares.
const QSet<QString>& knownPlaces()
{
    static const QSet<QString> places = [] {
        QSet<QString> all = {QStringLiteral("front-bumper"), QStringLiteral("grille"),
                             QStringLiteral("bonnet"),       QStringLiteral("windscreen"),
                             QStringLiteral("roof"),         QStringLiteral("sunroof"),
                             QStringLiteral("rear-screen"),  QStringLiteral("tailgate"),
                             QStringLiteral("rear-bumper"),  QStringLiteral("front-plate"),
                             QStringLiteral("rear-plate"),   QStringLiteral("fuel-flap"),
                             QStringLiteral("wipers"),       QStringLiteral("underside"),
                             QStringLiteral("exhaust"),      QStringLiteral("spare-wheel"),
                             QStringLiteral("spare-tyre"),   QStringLiteral("boot-interior")};
        for (const char* stem :
             {"wing", "front-door", "rear-door", "quarter", "sill", "mirror", "arch-front",
              "arch-rear", "front-glass", "rear-glass", "headlamp", "fog-lamp", "rear-lamp",
              "wheel-front", "wheel-rear", "tyre-front", "tyre-rear"}) {
            for (const char* side : {"left", "right"})
                all.insert(QStringLiteral("%1-%2").arg(QLatin1String(stem), QLatin1String(side)));
        }
        return all;
    }();
    return places;
}

/// What a shape does not have, or has instead.
QSet<QString> missingFrom(const QString& shape)
{
    const QSet<QString> bed = {QStringLiteral("boot-interior")};
    const QSet<QString> rearDoors = {QStringLiteral("rear-door-left"),
                                     QStringLiteral("rear-door-right")};
    const QSet<QString> rearGlass = {QStringLiteral("rear-glass-left"),
                                     QStringLiteral("rear-glass-right")};
    const QSet<QString> sunroof = {QStringLiteral("sunroof")};
    if (shape == QLatin1String("pickup"))
        return sunroof;
    if (shape == QLatin1String("van"))
        return bed + rearGlass + sunroof;
    if (shape == QLatin1String("coupe"))
        return bed + rearDoors;
    if (shape == QLatin1String("convertible"))
        return bed + rearDoors + rearGlass + sunroof;
    return bed;
}

/// The point nearest the middle of a place that is answered with it, if there is any.
std::optional<QPointF> pointOf(const CarShape& shape, const QString& place)
{
    const CarRegion* region = shape.find(place);
    if (!region)
        return std::nullopt;
    const QRectF box = region->path.boundingRect();
    std::optional<QPointF> nearest;
    for (int row = 1; row < 40; ++row) {
        for (int column = 1; column < 40; ++column) {
            const QPointF point(box.left() + box.width() * column / 40,
                                box.top() + box.height() * row / 40);
            if (placeAt(shape, point, 0, true) != place)
                continue;
            if (!nearest ||
                QLineF(point, box.center()).length() < QLineF(*nearest, box.center()).length())
                nearest = point;
        }
    }
    return nearest;
}

} // namespace

class OutlinesTest : public QObject
{
    Q_OBJECT

private slots:
    void holdsThePlacesOfItsShape_data() { shapes(); }
    void holdsThePlacesOfItsShape()
    {
        QFETCH(QString, name);
        const auto shape = carShape(name);
        QVERIFY(shape.has_value());
        const QStringList all = shape->places();
        const QSet<QString> places(all.begin(), all.end());
        QCOMPARE(places.size(), all.size());
        QCOMPARE(places, knownPlaces() - missingFrom(name));
    }

    void isItsOwnMirrorImage_data() { shapes(); }
    void isItsOwnMirrorImage()
    {
        QFETCH(QString, name);
        const auto shape = carShape(name);
        QVERIFY(shape.has_value());
        for (const CarRegion& region : shape->regions) {
            if (!region.place.endsWith(QLatin1String("-left")))
                continue;
            const QString other = region.place.chopped(5) + QLatin1String("-right");
            const CarRegion* twin = shape->find(other);
            QVERIFY2(twin, qPrintable(other));
            const QRectF here = region.path.boundingRect();
            const QRectF there = twin->path.boundingRect();
            QVERIFY2(here.center().x() < 0, qPrintable(region.place));
            QVERIFY2(qAbs(here.left() + there.right()) < 0.2 &&
                         qAbs(here.right() + there.left()) < 0.2 &&
                         qAbs(here.top() - there.top()) < 0.2,
                     qPrintable(region.place));
        }
    }

    void everyPlaceCanBeTouched_data() { shapes(); }
    void everyPlaceCanBeTouched()
    {
        QFETCH(QString, name);
        const auto shape = carShape(name);
        QVERIFY(shape.has_value());
        for (const QString& place : shape->places()) {
            QVERIFY2(pointOf(*shape, place), qPrintable(place));
            const CarRegion* region = shape->find(place);
            const QRectF frame = region->extra ? shape->extraFrame : shape->frame;
            QVERIFY2(frame.contains(region->path.boundingRect()), qPrintable(place));
        }
    }

    void answersTheNearestPlaceWithinReach()
    {
        const auto shape = carShape(QStringLiteral("hatch"));
        QVERIFY(shape.has_value());
        const QRectF tyre = shape->find(u"tyre-front-left")->path.boundingRect();
        const QPointF beside(tyre.left() - 5, tyre.center().y());
        QCOMPARE(placeAt(*shape, beside, 6, false), QStringLiteral("tyre-front-left"));
        QCOMPARE(placeAt(*shape, beside, 4, false), QString());
        const QPointF spare = shape->find(u"spare-wheel")->path.boundingRect().center();
        QCOMPARE(placeAt(*shape, spare, 6, true), QStringLiteral("spare-wheel"));
        QCOMPARE(placeAt(*shape, spare, 6, false), QString());
    }

    void refusesWhatItCannotRead_data()
    {
        QTest::addColumn<QByteArray>("svg");
        QTest::addColumn<CarShapeError>("error");
        const QByteArray head = "<svg viewBox=\"0 0 10 10\">";
        QTest::newRow("nothing") << QByteArray() << CarShapeError::BadXml;
        QTest::newRow("not closed")
            << head + "<path class=\"panel\" d=\"M 0 0 L 1 1 Z\"/>" << CarShapeError::BadXml;
        QTest::newRow("no viewBox") << QByteArray("<svg></svg>") << CarShapeError::BadXml;
        QTest::newRow("empty viewBox")
            << QByteArray("<svg viewBox=\"0 0 0 10\"></svg>") << CarShapeError::BadXml;
        QTest::newRow("no class") << head + "<path d=\"M 0 0 L 1 1 Z\"/></svg>"
                                  << CarShapeError::BadClass;
        QTest::newRow("strange class") << head + "<path class=\"paint\" d=\"M 0 0 L 1 1 Z\"/></svg>"
                                       << CarShapeError::BadClass;
        QTest::newRow("strange command")
            << head + "<path class=\"panel\" d=\"M 0 0 A 1 1 Z\"/></svg>" << CarShapeError::BadPath;
        QTest::newRow("half a point")
            << head + "<path class=\"panel\" d=\"M 0 0 L 1 Z\"/></svg>" << CarShapeError::BadPath;
        QTest::newRow("no path") << head + "<path class=\"panel\" d=\"\"/></svg>"
                                 << CarShapeError::BadPath;
    }
    void refusesWhatItCannotRead()
    {
        QFETCH(QByteArray, svg);
        QFETCH(CarShapeError, error);
        const auto shape = readCarShape(svg, QStringLiteral("x"));
        QVERIFY(!shape.has_value());
        QCOMPARE(shape.error(), error);
    }

    void knowsNoOtherShape()
    {
        const auto shape = carShape(QStringLiteral("../fonts/hatch"));
        QVERIFY(!shape.has_value());
        QCOMPARE(shape.error(), CarShapeError::NotFound);
    }

    void paintsMarksWhereTheyAre()
    {
        const auto shape = carShape(QStringLiteral("estate"));
        QVERIFY(shape.has_value());
        const CarLook look = {Qt::black, Qt::darkGray, Qt::white, Qt::white,
                              Qt::red,   Qt::green,    Qt::blue,  2.0};
        const QRectF target(0, 0, 600, 1200);
        const auto painted = [&](const QHash<QString, OutlineMark>& marks) {
            QImage image(600, 1200, QImage::Format_RGB32);
            image.fill(Qt::white);
            QPainter painter(&image);
            paintCar(painter, *shape, marks, look, target, false);
            painter.end();
            return image;
        };
        const auto count = [](const QImage& image, QRgb colour) {
            int pixels = 0;
            for (int y = 0; y < image.height(); ++y) {
                for (int x = 0; x < image.width(); ++x)
                    pixels += image.pixel(x, y) == colour ? 1 : 0;
            }
            return pixels;
        };
        const QImage plain = painted({});
        const QString door = QStringLiteral("rear-door-right");
        const QPointF point = *pointOf(*shape, door);
        const QPoint pixel = carTransform(*shape, target, false).map(point).toPoint();
        const QRgb filled = qRgb(255, 0, 0);
        QCOMPARE(painted({{door, OutlineMark::Filled}}).pixel(pixel), filled);
        QCOMPARE(plain.pixel(pixel), qRgb(255, 255, 255));
        QCOMPARE(count(plain, filled), 0);
        const QRgb hollow = qRgb(0, 255, 0);
        QVERIFY(count(painted({{door, OutlineMark::Hollow}}), hollow) > 200);
        QCOMPARE(painted({{door, OutlineMark::Hollow}}).pixel(pixel), qRgb(255, 255, 255));
        const QRgb stipple = qRgb(0, 0, 255);
        QVERIFY(count(painted({{door, OutlineMark::Stippled}}), stipple) > 50);
        // Wheel and tyre are marked apart.
        QVERIFY(
            count(painted({{QStringLiteral("tyre-front-left"), OutlineMark::Filled}}), filled) !=
            count(painted({{QStringLiteral("wheel-front-left"), OutlineMark::Filled}}), filled));
        // A place that the shape does not have changes nothing.
        QCOMPARE(painted({{QStringLiteral("boot-interior"), OutlineMark::Filled}}), plain);
    }

    void aMarkedDetailShowsOnASmallDrawing()
    {
        const auto shape = carShape(QStringLiteral("hatch"));
        QVERIFY(shape.has_value());
        const CarLook look = {Qt::black, Qt::black, Qt::white, Qt::white,
                              Qt::red,   Qt::green, Qt::blue,  1.0};
        const auto painted = [&](const QHash<QString, OutlineMark>& marks) {
            QImage image(100, 180, QImage::Format_RGB32);
            image.fill(Qt::white);
            QPainter painter(&image);
            paintCar(painter, *shape, marks, look, QRectF(0, 0, 100, 180), false);
            painter.end();
            return image;
        };
        QVERIFY(painted({{QStringLiteral("fuel-flap"), OutlineMark::Filled}}) != painted({}));
    }

    void laidOpen_everyTouchedPlaceHasRoomForAFinger_data() { shapes(); }
    void laidOpen_everyTouchedPlaceHasRoomForAFinger()
    {
        QFETCH(QString, name);
        const auto shape = carShape(name);
        QVERIFY(shape.has_value());
        const CarShape opened = laidOpen(*shape);
        QCOMPARE(opened.places(), shape->places());
        // On the lower kiosk the drawing has about 195 mm for the length of the car.
        const double mmPerUnit = 195.0 / opened.frame.height();
        // These have fields beside the drawing, or are touched in a view of their own.
        const QStringList beside = {
            "arch",     "mirror",      "sill",        "front-plate", "grille", "wipers",
            "fuel",     "rear-plate",  "exhaust",     "underside",   "spare",  "headlamp",
            "fog-lamp", "rear-lamp",   "front-glass", "rear-glass",  "tyre",   "wheel",
            "tailgate", "rear-screen", "boot"};
        for (const QString& place : opened.places()) {
            if (std::ranges::any_of(beside,
                                    [&](const QString& stem) { return place.startsWith(stem); }))
                continue;
            const double mm = spotFor(opened, place).width * mmPerUnit;
            QVERIFY2(mm > 7.5,
                     qPrintable(QStringLiteral("%1 of %2: %3 mm").arg(place, name).arg(mm)));
        }
        // Doors are what it is for.
        QVERIFY(spotFor(opened, u"front-door-left").width >
                1.5 * spotFor(*shape, u"front-door-left").width);
    }

    void schemes_haveEveryPlaceWithRoomForAFinger()
    {
        // Drawn about 205 mm high.
        const double mmPerUnit = 205.0 / 242;
        QStringList all;
        for (const QString& name : carSchemeNames()) {
            const auto scheme = carShape(name);
            QVERIFY2(scheme.has_value(), qPrintable(name));
            for (const QString& place : scheme->places()) {
                all.append(place);
                // The ring of the spare tyre is the one that is not as wide.
                QVERIFY2(spotFor(*scheme, place).width * mmPerUnit >
                             (place == QLatin1String("spare-tyre") ? 15.0 : 18.0),
                         qPrintable(QStringLiteral("%1: %2").arg(place).arg(
                             spotFor(*scheme, place).width * mmPerUnit)));
            }
        }
        QCOMPARE(QSet<QString>(all.begin(), all.end()).size(), 12 + 16 + 17);
        const auto right = carShape(QStringLiteral("cabin-right"));
        const auto left = carShape(QStringLiteral("cabin-left"));
        QVERIFY(right->find(u"driver-seat")->path.boundingRect().left() > 0);
        QVERIFY(left->find(u"driver-seat")->path.boundingRect().right() < 0);
    }

    void qrCode_isPaintedModuleByModule()
    {
        const QrCode code =
            qrCode(QStringLiteral("http://192.168.1.20:8190/0123456789abcdef0123456789abcdef"));
        QCOMPARE(code.side, 33); // version 4, which holds 62 bytes at level M
        // ISO/IEC 18004: the finder patterns in three corners, and the lines of turns between them.
        for (const QPoint corner : {QPoint(0, 0), QPoint(26, 0), QPoint(0, 26)})
            for (int y = 0; y < 7; ++y)
                for (int x = 0; x < 7; ++x) {
                    const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
                    QCOMPARE(code.dark(corner.x() + x, corner.y() + y), ring != 2);
                }
        for (int at = 8; at < 25; ++at) {
            QCOMPARE(code.dark(at, 6), at % 2 == 0);
            QCOMPARE(code.dark(6, at), at % 2 == 0);
        }
        // In the middle of a place that it does not fill: 7 pixels a module, 4 modules around.
        QImage image(400, 300, QImage::Format_RGB32);
        image.fill(Qt::gray);
        QPainter painter(&image);
        paintQrCode(painter, code, QRectF(image.rect()));
        painter.end();
        const QPoint corner(200 - 41 * 7 / 2 - 1, 150 - 41 * 7 / 2 - 1);
        for (int y = 0; y < 41; ++y)
            for (int x = 0; x < 41; ++x) {
                const bool inside = x >= 4 && x < 37 && y >= 4 && y < 37;
                const QColor wanted = inside && code.dark(x - 4, y - 4) ? Qt::black : Qt::white;
                for (const QPoint edge : {QPoint(0, 0), QPoint(6, 6)})
                    QCOMPARE(image.pixelColor(corner + QPoint(x, y) * 7 + edge), wanted);
            }
        QCOMPARE(image.pixelColor(corner - QPoint(1, 1)), QColor(Qt::gray));
        QCOMPARE(qrCode(QString()).side, 0);
        QCOMPARE(qrCode(QString(4000, QLatin1Char('x'))).side, 0);
    }

private:
    static void shapes()
    {
        QTest::addColumn<QString>("name");
        for (const QString& name : carShapeNames())
            QTest::newRow(qPrintable(name)) << name;
    }
};

RAMPLIGHT_TEST(QCoreApplication, OutlinesTest)
#include "tst_outlines.moc"
