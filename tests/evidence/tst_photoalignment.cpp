// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photoalignment.h"

#include "evidence/samples.h"
#include "evidence/scenes.h"
#include "support/testmain.h"

#include <QPainter>
#include <QPolygonF>
#include <QTest>

#include <cmath>
#include <vector>

using namespace ramplight;
using samples::Shot;
using samples::Thing;

namespace {

/// Of the long side: a pixel of the finest copy that is compared.
constexpr double pixel = 1.0 / 320;

QPointF moved(const Similarity& s, QPointF p)
{
    return {s.a * p.x() - s.b * p.y() + s.right, s.b * p.x() + s.a * p.y() + s.down};
}

/// The furthest that a point of the earlier picture is laid from where it belongs, in pixels of
/// 320.
double furthest(const Similarity& found, const Shot& before, const Shot& after)
{
    double most = 0;
    for (const double x : {-0.45, 0.0, 0.45})
        for (const double y : {-0.33, 0.0, 0.33}) {
            const QPointF off =
                moved(found, {x, y}) - samples::carried(QPointF(x, y), before, after);
            most = std::max(most, std::hypot(off.x(), off.y()) / pixel);
        }
    return most;
}

QByteArray told(const PhotoAlignment& a)
{
    return QStringLiteral("correlation %1 overlap %2 scale %3 turn %4 right %5 down %6")
        .arg(a.correlation)
        .arg(a.overlap)
        .arg(a.toAfter.scale())
        .arg(a.toAfter.degrees())
        .arg(a.toAfter.right)
        .arg(a.toAfter.down)
        .toUtf8();
}

/// Seen more from the side: one end becomes higher, the other one lower.
QImage fromTheSide(const QImage& image, double share)
{
    const QRectF all(QPointF(0, 0), QSizeF(image.size()));
    const double d = share / 2 * all.height();
    QTransform side;
    QTransform::quadToQuad(
        QPolygonF({all.topLeft(), all.topRight(), all.bottomRight(), all.bottomLeft()}),
        QPolygonF({all.topLeft() + QPointF(0, -d), all.topRight() + QPointF(0, d),
                   all.bottomRight() + QPointF(0, -d), all.bottomLeft() + QPointF(0, d)}),
        side);
    QImage seen(image.size(), QImage::Format_RGB32);
    seen.fill(Qt::gray);
    QPainter painter(&seen);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setTransform(side);
    painter.drawImage(0, 0, image);
    return seen;
}

/// A part of it is something else now.
QImage changed(QImage image, double share)
{
    const double side = std::sqrt(share);
    QPainter painter(&image);
    painter.drawImage(QRectF(0.1 * image.width(), 0.15 * image.height(), side * image.width(),
                             side * image.height()),
                      samples::panel({640, 480}, 901));
    return image;
}

} // namespace

class TestPhotoAlignment : public QObject
{
    Q_OBJECT

private slots:
    void samePlace_isLaidWhereItBelongs_data();
    void samePlace_isLaidWhereItBelongs();
    void what_hasChanged_isNoObstacle_data();
    void what_hasChanged_isNoObstacle();
    void takenFromSomewhereElse_isRefused_data();
    void takenFromSomewhereElse_isRefused();
    void sizes_doNotMatter_data();
    void sizes_doNotMatter();
    void samePictures_giveTheSame();
    void transform_isInPixelsOfBoth();
    void commonPart_liesInBoth_data();
    void commonPart_liesInBoth();
};

void TestPhotoAlignment::samePlace_isLaidWhereItBelongs_data()
{
    QTest::addColumn<Thing>("thing");
    QTest::addColumn<Shot>("after");
    struct Row
    {
        const char* name;
        Shot shot;
    };
    const std::array rows{
        Row{"from the same stand", {}},
        Row{"shifted", {.right = 0.12, .down = -0.08}},
        Row{"shifted far", {.right = -0.22, .down = 0.15}},
        Row{"from nearer", {.scale = 1.3}},
        Row{"from further away", {.scale = 0.76}},
        Row{"turned", {.degrees = 12}},
        Row{"turned the other way", {.degrees = -15}},
        Row{"brighter", {.gain = 1.5}},
        Row{"darker, the lamp elsewhere", {.gain = 0.5, .lamp = 0.9}},
        Row{"all of it",
            {.scale = 0.85, .degrees = 7, .right = 0.1, .down = 0.06, .gain = 1.2, .lamp = 0.8}},
    };
    // Instrumented code takes its time: one thing runs through all of it.
    std::vector<std::pair<const char*, Thing>> things{{"wheel", Thing::Wheel}};
#ifndef RAMPLIGHT_INSTRUMENTED
    things.insert(things.end(), {{"door", Thing::Door}, {"paint", Thing::Paint}});
#endif
    for (const auto& [name, thing] : things)
        for (const Row& row : rows) {
            Shot shot = row.shot;
            shot.repaired = true;
            shot.grain = 2;
            QTest::addRow("%s, %s", name, row.name) << thing << shot;
        }
}

void TestPhotoAlignment::samePlace_isLaidWhereItBelongs()
{
    QFETCH(const Thing, thing);
    QFETCH(const Shot, after);
    const PhotoAlignment found =
        alignPhotos(photographed(thing, 3, {}), photographed(thing, 3, after));
    QVERIFY2(found.isClose(), told(found).constData());
    const double off = furthest(found.toAfter, {}, after);
    QVERIFY2(off < 1, (QByteArray::number(off) + " px; " + told(found)).constData());
}

void TestPhotoAlignment::what_hasChanged_isNoObstacle_data()
{
    QTest::addColumn<Thing>("thing");
    QTest::addColumn<double>("share");
    QTest::newRow("a tenth of a wheel") << Thing::Wheel << 0.1;
    QTest::newRow("a tenth of a door") << Thing::Door << 0.1;
    QTest::newRow("a fifth of a wheel") << Thing::Wheel << 0.2;
    QTest::newRow("a fifth of a door") << Thing::Door << 0.2;
    QTest::newRow("a third of paint") << Thing::Paint << 0.33;
}

void TestPhotoAlignment::what_hasChanged_isNoObstacle()
{
    QFETCH(const Thing, thing);
    QFETCH(const double, share);
    const Shot after{.scale = 1.1, .degrees = 5, .right = 0.05, .grain = 2};
    const PhotoAlignment found =
        alignPhotos(photographed(thing, 5, {}), changed(photographed(thing, 5, after), share));
    QVERIFY2(found.isClose(), told(found).constData());
    QVERIFY2(furthest(found.toAfter, {}, after) < 1, told(found).constData());
}

void TestPhotoAlignment::takenFromSomewhereElse_isRefused_data()
{
    QTest::addColumn<QImage>("before");
    QTest::addColumn<QImage>("after");
    const QImage wheel = photographed(Thing::Wheel, 3, {});
    const QImage door = photographed(Thing::Door, 3, {});
    const QImage paint = photographed(Thing::Paint, 3, {});
    const Shot later{.scale = 1.05, .right = 0.03, .lamp = 0.7, .repaired = true, .grain = 2};
    QImage flat(640, 480, QImage::Format_RGB32);
    flat.fill(QColor(120, 90, 60));
    QTest::newRow("wheel and door") << wheel << photographed(Thing::Door, 4, later);
    QTest::newRow("door and wheel") << door << photographed(Thing::Wheel, 4, later);
    QTest::newRow("door and paint") << door << photographed(Thing::Paint, 4, later);
    QTest::newRow("two paints") << paint << photographed(Thing::Paint, 4, later);
    QTest::newRow("the door upside down") << door << door.mirrored(true, true);
    QTest::newRow("the paint mirrored") << paint << paint.mirrored(true, false);
    QTest::newRow("the paint from much nearer")
        << paint << photographed(Thing::Paint, 3, {.scale = 2.5, .grain = 2});
    QTest::newRow("the door far from the side") << door << fromTheSide(door, 0.3);
    QTest::newRow("a wall") << flat << flat;
    QTest::newRow("door and wall") << door << flat;
    QTest::newRow("nothing before") << QImage() << door;
    QTest::newRow("nothing after") << door << QImage();
    QTest::newRow("a pixel") << door << flat.copy(0, 0, 1, 1);
    QTest::newRow("two pixels") << flat.copy(0, 0, 1, 1) << flat.copy(0, 0, 1, 1);
    QTest::newRow("a line") << door << flat.copy(0, 0, 640, 1);
}

void TestPhotoAlignment::takenFromSomewhereElse_isRefused()
{
    QFETCH(const QImage, before);
    QFETCH(const QImage, after);
    const PhotoAlignment found = alignPhotos(before, after);
    QVERIFY2(!found.isClose(), told(found).constData());
    QVERIFY(std::isfinite(found.correlation) && std::isfinite(found.overlap));
}

void TestPhotoAlignment::sizes_doNotMatter_data()
{
    QTest::addColumn<QSize>("before");
    QTest::addColumn<QSize>("after");
    QTest::newRow("large and small") << QSize(2560, 1920) << QSize(640, 480);
    QTest::newRow("odd sides") << QSize(639, 427) << QSize(641, 479);
    QTest::newRow("upright and lying") << QSize(480, 640) << QSize(640, 480);
    QTest::newRow("thumbnails") << QSize(160, 120) << QSize(100, 75);
}

void TestPhotoAlignment::sizes_doNotMatter()
{
    QFETCH(const QSize, before);
    QFETCH(const QSize, after);
    const Shot one{.size = before};
    const Shot two{.degrees = 4, .right = 0.05, .repaired = true, .grain = 2, .size = after};
    const PhotoAlignment found =
        alignPhotos(photographed(Thing::Wheel, 3, one), photographed(Thing::Wheel, 3, two));
    QVERIFY2(found.isClose(), told(found).constData());
    QVERIFY2(furthest(found.toAfter, one, two) < 1.5, told(found).constData());
}

void TestPhotoAlignment::samePictures_giveTheSame()
{
    const QImage before = photographed(Thing::Door, 6, {});
    const QImage after = photographed(Thing::Door, 6, {.scale = 1.1, .repaired = true, .grain = 2});
    QCOMPARE(alignPhotos(before, after), alignPhotos(before, after));
}

void TestPhotoAlignment::transform_isInPixelsOfBoth()
{
    const Similarity nearer{2, 0, 0.25, 0};
    const QTransform pixels = pixelTransform(nearer, {640, 480}, {1280, 960});
    QCOMPARE(pixels.map(QPointF(320, 240)), QPointF(640 + 0.25 * 1280, 480));
    QCOMPARE(pixels.map(QPointF(330, 240)), QPointF(640 + 0.25 * 1280 + 2 * 2 * 10, 480));
}

void TestPhotoAlignment::commonPart_liesInBoth_data()
{
    QTest::addColumn<Similarity>("similarity");
    QTest::addColumn<QRectF>("part");
    QTest::newRow("the same stand") << Similarity{} << QRectF(0, 0, 640, 480);
    QTest::newRow("further right") << Similarity{1, 0, 0.25, 0} << QRectF(0, 0, 480, 480);
    QTest::newRow("from further away") << Similarity{0.5, 0, 0, 0} << QRectF(0, 0, 640, 480);
    QTest::newRow("from nearer") << Similarity{2, 0, 0, 0} << QRectF(160, 120, 320, 240);
    QTest::newRow("turned") << Similarity{0.995, 0.0998, 0, 0} << QRectF();
    QTest::newRow("turned and shifted") << Similarity{1.1, -0.15, 0.1, -0.05} << QRectF();
}

void TestPhotoAlignment::commonPart_liesInBoth()
{
    QFETCH(const Similarity, similarity);
    QFETCH(const QRectF, part);
    const QSize size(640, 480);
    const QRectF all(QPointF(0, 0), QSizeF(size));
    const QRectF found = commonPart(similarity, size, size);
    if (!part.isNull())
        QCOMPARE(found, part);
    QVERIFY(all.contains(found));
    QVERIFY(found.width() > 300 && found.height() > 200);
    const QPolygonF corners = pixelTransform(similarity, size, size).map(QPolygonF(found));
    for (const QPointF& corner : corners)
        QVERIFY(all.adjusted(-0.01, -0.01, 0.01, 0.01).contains(corner));
    QVERIFY(commonPart({1, 0, 1.5, 0}, size, size).isNull());
}

RAMPLIGHT_TEST(QCoreApplication, TestPhotoAlignment)
#include "tst_photoalignment.moc"
