// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photodecoder.h"

#include "evidence/photofacts.h"
#include "samples.h"

#include <QBuffer>
#include <QColorSpace>
#include <QLoggingCategory>
#include <QRegularExpression>
#include <QScopeGuard>
#include <QTest>

#include <set>

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

QByteArray bytesOf(const QImage& image, const char* format)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format);
    return bytes;
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
            << samples::jpeg(samples::quadrants({4000, 3000})) << QSize(2560, 1920);
        QTest::newRow("JPEG 48 MP")
            << samples::jpeg(samples::quadrants({8000, 6000}), 50) << QSize(2560, 1920);
        QTest::newRow("JPEG upright")
            << samples::jpeg(samples::quadrants({3000, 4000})) << QSize(1920, 2560);
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

    void refused_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<EvidenceError>("error");
        const auto row = [](const char* name, const QByteArray& bytes, EvidenceError error) {
            QTest::newRow(name) << bytes << error;
        };
        using enum EvidenceError;
        const QByteArray jpeg = samples::jpeg(samples::panel({64, 48}));
        const QByteArray png = samples::png(samples::panel({64, 48}));
        const QByteArray pngEnd = samples::chunk("IEND", {});
        const QByteArray somePixels = samples::chunk("IDAT", QByteArray(30, '\x55'));

        row("nothing", {}, Empty);
        row("PNG without width", samples::pngHeader(0, 10) + somePixels + pngEnd, Empty);
        row("PNG without height", samples::pngHeader(10, 0) + somePixels + pngEnd, Empty);
        row("JPEG without height", samples::jpegShell(10, 0), Empty);
        row("JPEG without width", samples::jpegShell(0, 10), Empty);

        row("file too large", jpeg + QByteArray(40'000'001, '\0'), TooManyBytes);
        row("PNG bomb", samples::pngHeader(30'000, 30'000) + somePixels + pngEnd, TooManyPixels);
        row("PNG as wide as can be said",
            samples::pngHeader(0x7FFFFFFF, 0x7FFFFFFF) + somePixels + pngEnd, TooManyPixels);
        row("PNG over its own limit", samples::pngHeader(8000, 4001) + somePixels + pngEnd,
            TooManyPixels);
        row("JPEG bomb", samples::jpegShell(65'500, 65'500), TooManyPixels);
        row("JPEG of 100.01 MP", samples::jpegShell(10'000, 10'001), TooManyPixels);
        row("progressive JPEG of 50.01 MP", samples::jpegShell(10'000, 5001, 3, 8, 0xC2),
            TooManyPixels);

        row("words", "just some words", NotAPhoto);
        row("web page", "<!doctype html><html><body>svg</body></html>", NotAPhoto);
        row("BMP", bytesOf(samples::panel({8, 8}), "bmp"), NotAPhoto);
        row("portable pixmap", bytesOf(samples::panel({8, 8}), "ppm"), NotAPhoto);
        row("icon", QByteArray("\0\0\1\0\1\0\x10\x10", 8), NotAPhoto);
        row("WebP", QByteArray("RIFF\x24\0\0\0WEBPVP8 ", 16), NotAPhoto);
        row("TIFF", QByteArray("II*\0\x08\0\0\0", 8), NotAPhoto);
        row("PDF", "%PDF-1.7\n", NotAPhoto);
        row("film",
            QByteArray("\0\0\0\x20"
                       "ftypisom\0\0\2\0",
                       16),
            NotAPhoto);
        row("zeros", QByteArray(64, '\0'), NotAPhoto);
        row("PNG start, one bit wrong", QByteArray("\x89PNG\r\n\x1B\n", 8) + png.mid(8), NotAPhoto);

        row("SVG", "<svg xmlns='http://www.w3.org/2000/svg'/>", Drawing);
        row("SVG behind an XML line", "<?xml version='1.0'?>\n<svg/>", Drawing);
        row("SVG behind a comment", "  <!-- a car -->\n<SVG/>", Drawing);
        row("SVG behind a byte order mark", "\xEF\xBB\xBF<svg/>", Drawing);

        row("GIF", QByteArray("GIF89a\1\0\1\0\0\0\0;", 14), MovingPicture);
        row("older GIF", QByteArray("GIF87a\1\0\1\0\0\0\0;", 14), MovingPicture);
        row("animated PNG",
            samples::withChunk(png, samples::chunk("acTL", QByteArray("\0\0\0\2\0\0\0\0", 8))),
            MovingPicture);

        row("HEIC",
            QByteArray("\0\0\0\x18"
                       "ftypheic\0\0\0\0",
                       16),
            PhoneFormat);
        row("HEIF",
            QByteArray("\0\0\0\x18"
                       "ftypmif1\0\0\0\0",
                       16),
            PhoneFormat);
        row("AVIF",
            QByteArray("\0\0\0\x18"
                       "ftypavif\0\0\0\0",
                       16),
            PhoneFormat);

        row("JPEG start before a web page", QByteArray("\xFF\xD8\xFF", 3) + "<html>...</html>",
            Disguised);
        row("JPEG that ends at once", QByteArray("\xFF\xD8\xFF\xD9", 4) + QByteArray(20, 'x'),
            Disguised);
        row("PNG start before a program",
            png.left(8) + "\x7F"
                          "ELF and then much more of it",
            Disguised);
        row("PNG whose header has another length",
            png.left(8) + samples::chunk("IHDR", QByteArray(14, '\1')) + pngEnd, Disguised);

        row("JPEG start alone", jpeg.left(3), Truncated);
        row("JPEG without its end", jpeg.chopped(2), Truncated);
        row("JPEG half", jpeg.left(jpeg.size() / 2), Truncated);
        row("PNG start alone", png.left(8), Truncated);
        row("PNG less than its start", png.left(5), Truncated);
        row("PNG without its end", png.chopped(12), Truncated);
        row("PNG half", png.left(png.size() / 2), Truncated);
        row("PNG chunk longer than the file",
            samples::pngHeader(10, 10) + QByteArray("\xFF\xFF\xFF\xFF"
                                                    "IDATabc",
                                                    11),
            Truncated);

        row("JPEG of headers only", samples::jpegShell(16, 16), Damaged);
        row("JPEG without a frame", QByteArray("\xFF\xD8\xFF\xFE\0\4ab\xFF\xD9", 10), Damaged);
        row("JPEG without pixels", samples::jpegShell(16, 16, 3, 8, 0xC0, 0), Damaged);
        row("JPEG with two frames",
            samples::withSegment(jpeg, 0xC0, QByteArray("\x08\0\x10\0\x10\1\1\x11\0", 9)), Damaged);
        row("JPEG with a segment of no length", QByteArray("\xFF\xD8\xFF\xE0\0\0\xFF\xD9", 8),
            Damaged);
        row("JPEG with noise between segments",
            jpeg.left(2) + QByteArray("\xFF\xFE\0\2noise", 9) + jpeg.mid(2), Damaged);
        row("JPEG with two colours", samples::jpegShell(16, 16, 2), Damaged);
        row("JPEG with thousands of scans", samples::jpegShell(16, 16, 3, 8, 0xC2, 5000), Damaged);
        row("PNG without pixels", samples::pngHeader(16, 16) + pngEnd, Damaged);
        row("PNG with too few pixels",
            samples::pngHeader(16, 16) +
                samples::chunk("IDAT", qCompress(QByteArray(60, 'a')).mid(4)) + pngEnd,
            Damaged);
        row("PNG with noise for pixels", samples::pngHeader(16, 16) + somePixels + pngEnd, Damaged);
        row("PNG with a bent header", QByteArray(png).replace(28, 1, "\1"), Damaged);
        row("PNG wider than can be", samples::pngHeader(0x80000000U, 1) + somePixels + pngEnd,
            Damaged);

        row("JPEG in four inks", samples::jpegShell(16, 16, 4), PrintColours);
        row("JPEG of 12 bits", samples::jpegShell(16, 16, 3, 12, 0xC1), DeepColour);
        row("PNG of 16 bits",
            samples::png(samples::panel({8, 8}).convertToFormat(QImage::Format_RGBX64)),
            DeepColour);
    }

    void refused()
    {
        QFETCH(QByteArray, bytes);
        QFETCH(EvidenceError, error);
        const auto image = decodePhoto(bytes);
        QVERIFY(!image);
        QCOMPARE(image.error(), error);
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

    void everyBeginning_isRefused_data()
    {
        QTest::addColumn<QByteArray>("whole");
        QTest::newRow("JPEG") << samples::jpeg(samples::panel({24, 16}));
        QTest::newRow("progressive JPEG") << samples::jpeg(samples::panel({24, 16}), 90, true);
        QTest::newRow("PNG") << samples::png(samples::panel({24, 16}));
    }

    void everyBeginning_isRefused()
    {
        QFETCH(QByteArray, whole);
        QVERIFY(decodePhoto(whole));
        for (qsizetype size = 8; size < whole.size(); ++size) {
            const auto image = decodePhoto(whole.left(size));
            QVERIFY2(!image, qPrintable(QString::number(size)));
            QCOMPARE(image.error(), EvidenceError::Truncated);
        }
    }

    void anyBentByte_isRefusedOrWithinLimits_data()
    {
        QTest::addColumn<QByteArray>("whole");
        QTest::newRow("JPEG") << samples::jpeg(samples::panel({24, 16}));
        QTest::newRow("progressive JPEG") << samples::jpeg(samples::panel({24, 16}), 90, true);
        QTest::newRow("PNG") << samples::png(samples::quadrants({4, 4}));
    }

    void anyBentByte_isRefusedOrWithinLimits()
    {
        QFETCH(QByteArray, whole);
        const PhotoLimits limits{.mostPixels = 1'000'000,
                                 .mostPixelsProgressive = 1'000'000,
                                 .mostPixelsPng = 1'000'000,
                                 .longSide = 100};
        QLoggingCategory::setFilterRules(QStringLiteral("qt.gui.imageio*=false"));
        const auto loudAgain = qScopeGuard([] { QLoggingCategory::setFilterRules(QString()); });
        int refused = 0;
        for (qsizetype i = 0; i < whole.size(); ++i)
            for (const int bit : {0x01, 0x80}) {
                QByteArray bent = whole;
                bent[i] = static_cast<char>(bent[i] ^ bit);
                const auto image = decodePhoto(bent, limits);
                if (!image) {
                    ++refused;
                    continue;
                }
                QVERIFY(!image->isNull());
                QVERIFY(image->width() <= 100 && image->height() <= 100);
            }
        QVERIFY(refused > 20); // the headers at least
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

    void facts_countScans()
    {
        QVERIFY(photoFacts(samples::jpegShell(16, 16, 3, 8, 0xC2, 64)));
        QCOMPARE(photoFacts(samples::jpegShell(16, 16, 3, 8, 0xC2, 65)).error(),
                 EvidenceError::Damaged);
    }

    void everyErrorHasItsOwnWords()
    {
        std::set<QString> seen;
        for (int i = 0; i <= static_cast<int>(EvidenceError::CannotRead); ++i) {
            const QString text = words(static_cast<EvidenceError>(i));
            QVERIFY2(text.endsWith(u'.'), qPrintable(QString::number(i)));
            QVERIFY2(seen.insert(text).second, qPrintable(text));
        }
    }
};

QTEST_GUILESS_MAIN(TestPhotoDecoder)
#include "tst_photodecoder.moc"
