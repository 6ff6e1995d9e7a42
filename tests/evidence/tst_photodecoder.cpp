// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photodecoder.h"

#include "evidence/photofacts.h"
#include "samples.h"
#include "support/testmain.h"

#include <QColorSpace>
#include <QRegularExpression>
#include <QTest>

using namespace ramplight;

namespace {

/// Same colour but for what JPEG does to it.
bool isNear(QColor a, QColor b, int most = 12)
{
    return std::abs(a.red() - b.red()) <= most && std::abs(a.green() - b.green()) <= most &&
           std::abs(a.blue() - b.blue()) <= most;
}

QColor colourIn(const QImage& image, int quarterX, int quarterY)
{
    return image.pixelColor(image.width() * quarterX / 4, image.height() * quarterY / 4);
}

} // namespace

class TestPhotoDecoder : public QObject
{
    Q_OBJECT

private slots:
    void accepted_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        const QImage picture = samples::quadrants({64, 48});
        QTest::newRow("JPEG") << samples::jpeg(picture);
        QTest::newRow("progressive JPEG") << samples::jpeg(picture, 90, true);
        QTest::newRow("JPEG with EXIF")
            << samples::withSegment(samples::jpeg(picture), 0xE1, samples::exifOrientation(1));
        QTest::newRow("JPEG with more behind its end")
            << samples::jpeg(picture) + QByteArray(5000, 'x');
        QTest::newRow("JPEG with a padded marker") << samples::jpeg(picture).insert(2, '\xFF');
        QTest::newRow("PNG") << samples::png(picture);
        QTest::newRow("PNG with alpha channel")
            << samples::png(picture.convertToFormat(QImage::Format_ARGB32));
        QTest::newRow("PNG with palette")
            << samples::png(picture.convertToFormat(QImage::Format_Indexed8));
        QTest::newRow("PNG with more behind its end") << samples::png(picture) + "trailer";
        QTest::newRow("PNG with a text chunk") << samples::withChunk(
            samples::png(picture), samples::chunk("tEXt", QByteArray("Comment\0hello", 13)));
    }

    void accepted()
    {
        QFETCH(QByteArray, bytes);
        QTest::failOnWarning(QRegularExpression(QStringLiteral(".")));
        const auto image = decodePhoto(bytes);
        QVERIFY(image);
        QCOMPARE(image->size(), QSize(64, 48));
        QCOMPARE(image->format(), QImage::Format_RGB32);
        QVERIFY(isNear(colourIn(*image, 1, 1), Qt::red));
        QVERIFY(isNear(colourIn(*image, 3, 1), Qt::green));
        QVERIFY(isNear(colourIn(*image, 1, 3), Qt::blue));
        QVERIFY(isNear(colourIn(*image, 3, 3), Qt::yellow));
    }

    void grey_isAccepted()
    {
        QImage grey(40, 30, QImage::Format_Grayscale8);
        grey.fill(QColor(90, 90, 90));
        for (const QByteArray& bytes : {samples::jpeg(grey), samples::png(grey)}) {
            const auto image = decodePhoto(bytes);
            QVERIFY(image);
            QVERIFY(isNear(image->pixelColor(20, 15), QColor(90, 90, 90), 2));
        }
    }

    void transparency_liesOnWhite()
    {
        QImage glass(20, 20, QImage::Format_ARGB32);
        glass.fill(QColor(0, 0, 0, 0));
        const auto image = decodePhoto(samples::png(glass));
        QVERIFY(image);
        QCOMPARE(image->pixelColor(10, 10), QColor(Qt::white));
    }

    void orientation_isApplied_data()
    {
        // EXIF 2.32, tag Orientation: which corner of the scene the first stored pixel shows.
        // Columns are the colours that stand top left and top right of the upright picture.
        QTest::addColumn<int>("orientation");
        QTest::addColumn<QColor>("topLeft");
        QTest::addColumn<QColor>("topRight");
        QTest::addColumn<bool>("turned");
        const auto row = [](int orientation, Qt::GlobalColor left, Qt::GlobalColor right,
                            bool turned) {
            QTest::addRow("%d", orientation)
                << orientation << QColor(left) << QColor(right) << turned;
        };
        row(1, Qt::red, Qt::green, false);
        row(2, Qt::green, Qt::red, false);
        row(3, Qt::yellow, Qt::blue, false);
        row(4, Qt::blue, Qt::yellow, false);
        row(5, Qt::red, Qt::blue, true);
        row(6, Qt::blue, Qt::red, true);
        row(7, Qt::yellow, Qt::green, true);
        row(8, Qt::green, Qt::yellow, true);
    }

    void orientation_isApplied()
    {
        QFETCH(int, orientation);
        QFETCH(QColor, topLeft);
        QFETCH(QColor, topRight);
        QFETCH(bool, turned);
        const QByteArray bytes = samples::withSegment(samples::jpeg(samples::quadrants({80, 60})),
                                                      0xE1, samples::exifOrientation(orientation));
        // With and without shrinking on the way.
        for (const auto& [longSide, size] : {std::pair(2560, QSize(80, 60)), {40, QSize(40, 30)}}) {
            const auto image = decodePhoto(bytes, {.longSide = longSide});
            QVERIFY(image);
            QCOMPARE(image->size(), turned ? size.transposed() : size);
            QVERIFY(isNear(colourIn(*image, 1, 1), topLeft));
            QVERIFY(isNear(colourIn(*image, 3, 1), topRight));
        }
    }

    void large_isShrunk_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QSize>("size");
        QTest::newRow("JPEG 12 MP")
            << samples::jpeg(samples::quadrants({4000, 3000})) << QSize(2500, 1875);
        QTest::newRow("JPEG whose eighths are too small")
            << samples::jpeg(samples::quadrants({4400, 3300})) << QSize(2560, 1920);
        QTest::newRow("JPEG 48 MP")
            << samples::jpeg(samples::quadrants({8000, 6000}), 50) << QSize(2560, 1920);
        QTest::newRow("JPEG upright")
            << samples::jpeg(samples::quadrants({3000, 4000})) << QSize(1875, 2500);
        QTest::newRow("PNG 12 MP")
            << samples::png(samples::quadrants({4000, 3000})) << QSize(2560, 1920);
        QTest::newRow("as large as may be")
            << samples::jpeg(samples::quadrants({2560, 20})) << QSize(2560, 20);
        QTest::newRow("a pixel more")
            << samples::jpeg(samples::quadrants({2561, 20})) << QSize(2560, 19);
        QTest::newRow("thin line stays a pixel wide")
            << samples::png(samples::quadrants({10'000, 2})) << QSize(2560, 1);
        QTest::newRow("small stays small")
            << samples::jpeg(samples::quadrants({8, 6})) << QSize(8, 6);
    }

    void large_isShrunk()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(QSize, size);
        const auto image = decodePhoto(bytes);
        QVERIFY(image);
        QCOMPARE(image->size(), size);
        if (size.height() > 10)
            QVERIFY(isNear(colourIn(*image, 3, 3), Qt::yellow));
    }

    void frame_isBroughtToWhatAFileGives()
    {
        QImage film(3840, 2160, QImage::Format_RGBA8888_Premultiplied);
        film.fill(Qt::darkCyan);
        const QImage fitted = fittedPhoto(film);
        QCOMPARE(fitted.size(), QSize(2560, 1440));
        QCOMPARE(fitted.format(), QImage::Format_RGB32);
        QCOMPARE(fitted.pixelColor(1000, 1000), QColor(Qt::darkCyan));
        QCOMPARE(fittedPhoto(film.copy(0, 0, 640, 480)).size(), QSize(640, 480));
        QVERIFY(fittedPhoto({}).isNull());
    }

    void position_goes_andTheTurnIsMade()
    {
        const auto image = decodePhoto(samples::withSegment(
            samples::jpeg(samples::quadrants({64, 48})), 0xE1, samples::exifWithPosition(6)));
        QVERIFY(image);
        QCOMPARE(image->size(), QSize(48, 64));
        const QByteArray kept = encodePhoto(*image).value();
        QVERIFY(!kept.contains("Exif") && !kept.contains("SECRET"));
        QCOMPARE(decodePhoto(kept)->size(), QSize(48, 64));
    }

    void wideColours_becomeSrgb()
    {
        QImage wide(20, 20, QImage::Format_RGB32);
        wide.fill(QColor(200, 100, 100));
        wide.setColorSpace(QColorSpace(QColorSpace::DisplayP3));
        const QImage expected = wide.convertedToColorSpace(QColorSpace(QColorSpace::SRgb));
        QVERIFY(expected.pixelColor(5, 5).red() > 205); // the conversion does something
        const auto image = decodePhoto(samples::png(wide));
        QVERIFY(image);
        QVERIFY(isNear(image->pixelColor(5, 5), expected.pixelColor(5, 5), 2));
        QVERIFY(!image->colorSpace().isValid());
    }

    void metadata_isDropped_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        const QImage picture = samples::panel({64, 48});
        QTest::newRow("EXIF") << samples::withSegment(samples::jpeg(picture), 0xE1,
                                                      samples::exifOrientation(1) + "SECRET PLACE");
        QTest::newRow("position") << samples::withSegment(samples::jpeg(picture), 0xE1,
                                                          samples::exifWithPosition(1));
        QTest::newRow("PNG position") << samples::withChunk(
            samples::png(picture), samples::chunk("eXIf", samples::exifWithPosition(1).mid(6)));
        QTest::newRow("XMP") << samples::withSegment(
            samples::jpeg(picture), 0xE1,
            QByteArray("http://ns.adobe.com/xap/1.0/\0<x>SECRET PLACE</x>", 49));
        QTest::newRow("comment") << samples::withSegment(samples::jpeg(picture), 0xFE,
                                                         "SECRET PLACE");
        QTest::newRow("behind the end") << samples::jpeg(picture) + "SECRET PLACE";
        QTest::newRow("PNG text") << samples::withChunk(
            samples::png(picture), samples::chunk("tEXt", QByteArray("Comment\0SECRET PLACE", 20)));
        QTest::newRow("PNG own chunk")
            << samples::withChunk(samples::png(picture), samples::chunk("seCr", "SECRET PLACE"));
    }

    void metadata_isDropped()
    {
        QFETCH(QByteArray, bytes);
        QVERIFY(bytes.contains("SECRET PLACE"));
        const auto image = decodePhoto(bytes);
        QVERIFY(image);
        QVERIFY(image->textKeys().isEmpty());
        const auto kept = encodePhoto(*image);
        QVERIFY(kept);
        QVERIFY(!kept->contains("SECRET"));
        QVERIFY(!kept->contains("Exif"));
        QVERIFY(!kept->contains("ICC_PROFILE"));
    }

    void encode_dropsWhatAPictureCarries()
    {
        QImage picture = samples::panel({64, 48});
        picture.setText(QStringLiteral("Comment"), QStringLiteral("SECRET PLACE"));
        picture.setColorSpace(QColorSpace(QColorSpace::SRgb));
        QVERIFY(samples::jpeg(picture).contains("SECRET")); // Qt alone would keep it
        const auto kept = encodePhoto(picture);
        QVERIFY(kept);
        QVERIFY(!kept->contains("SECRET"));
        QVERIFY(!kept->contains("ICC_PROFILE"));
        QCOMPARE(encodePhoto(picture).value(), *kept);
        QCOMPARE(encodePhoto(QImage()).error(), EvidenceError::Empty);
    }

    void limits_areSettings()
    {
        const QByteArray jpeg = samples::jpeg(samples::panel({40, 30}));
        const QByteArray progressive = samples::jpeg(samples::panel({40, 30}), 90, true);
        const QByteArray png = samples::png(samples::panel({40, 30}));
        QVERIFY(decodePhoto(jpeg, {.mostBytes = jpeg.size()}));
        QCOMPARE(decodePhoto(jpeg, {.mostBytes = jpeg.size() - 1}).error(),
                 EvidenceError::TooManyBytes);
        QVERIFY(decodePhoto(jpeg, {.mostPixels = 1200}));
        QCOMPARE(decodePhoto(jpeg, {.mostPixels = 1199}).error(), EvidenceError::TooManyPixels);
        QVERIFY(decodePhoto(jpeg, {.mostPixelsProgressive = 10, .mostPixelsPng = 10}));
        QCOMPARE(decodePhoto(progressive, {.mostPixelsProgressive = 1199}).error(),
                 EvidenceError::TooManyPixels);
        QCOMPARE(decodePhoto(png, {.mostPixelsPng = 1199}).error(), EvidenceError::TooManyPixels);
    }

    void facts_sayWhatTheReaderSays()
    {
        for (const QSize size : {QSize(1, 1), QSize(640, 480), QSize(33, 71)}) {
            const auto jpeg = photoFacts(samples::jpeg(samples::panel(size)));
            QCOMPARE(jpeg.value(), (PhotoFacts{PhotoFormat::Jpeg, size, false}));
            const auto progressive = photoFacts(samples::jpeg(samples::panel(size), 90, true));
            QCOMPARE(progressive.value(), (PhotoFacts{PhotoFormat::Jpeg, size, true}));
            const auto png = photoFacts(samples::png(samples::panel(size)));
            QCOMPARE(png.value(), (PhotoFacts{PhotoFormat::Png, size, false}));
        }
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestPhotoDecoder)
#include "tst_photodecoder.moc"
