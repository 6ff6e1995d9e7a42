// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photodecoder.h"
#include "evidence/photofacts.h"
#include "samples.h"
#include "support/testmain.h"

#include <QBuffer>
#include <QImageWriter>
#include <QLoggingCategory>
#include <QScopeGuard>
#include <QTest>

#include <sys/resource.h>

#include <set>

using namespace ramplight;

namespace {

QByteArray bytesOf(const QImage& image, const char* format)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    QImageWriter(&buffer, format).write(image);
    return bytes;
}

/// Of this process so far.
qint64 peakMegabytes()
{
    struct rusage used
    {
    };
    ::getrusage(RUSAGE_SELF, &used);
    return used.ru_maxrss / 1024;
}

/// What is packed so small and unpacks to so much.
QByteArray packedZeros(int megabytes)
{
    return qCompress(QByteArray(megabytes * 1'000'000, '\0'), 9).mid(4);
}

} // namespace

// Pictures that are none, or worse: each is refused in words, and within bounds.
class TestBadPhotos : public QObject
{
    Q_OBJECT

private slots:
    // First, while the process is small: its peak is what is looked at.
    void bomb_inMetadata_isNotUnpacked_data()
    {
        QTest::addColumn<QByteArray>("bomb");
        const QByteArray zeros = packedZeros(7);
        const QByteArray png = samples::png(samples::panel({16, 12}));
        const auto times = [&](const QByteArray& chunk) {
            return samples::withChunk(png, chunk.repeated(200));
        };
        QTest::newRow("compressed text")
            << times(samples::chunk("zTXt", QByteArray("Comment\0\0", 9) + zeros));
        QTest::newRow("compressed words in a language")
            << times(samples::chunk("iTXt", QByteArray("Comment\0\1\0\0\0", 12) + zeros));
        QTest::newRow("colour profile")
            << times(samples::chunk("iCCP", QByteArray("Profile\0\0", 9) + zeros));
    }

    void bomb_inMetadata_isNotUnpacked()
    {
        QFETCH(QByteArray, bomb);
        QVERIFY(bomb.size() < 4'000'000);
        const qint64 before = peakMegabytes();
        const auto image = decodePhoto(bomb);
        QVERIFY(image); // the picture itself is good
        QVERIFY2(peakMegabytes() - before < 200,
                 qPrintable(QString::number(peakMegabytes() - before)));
    }

    void hundredMegapixels_aJpegShrinksWhileItIsRead()
    {
        QImage large(10'000, 10'000, QImage::Format_Grayscale8);
        large.fill(QColor(90, 90, 90));
        const QByteArray bytes = samples::jpeg(large);
        large = {};
        const auto image = decodePhoto(bytes);
        QVERIFY(image);
        QCOMPARE(image->size(), QSize(2500, 2500));
        QCOMPARE(decodePhoto(bytes, {.mostPixels = 99'999'999}).error(),
                 EvidenceError::TooManyPixels);
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
        row("JPEG 2000", QByteArray("\0\0\0\x0CjP  \r\n\x87\n", 12), NotAPhoto);
        row("JPEG XL", QByteArray("\xFF\x0A\xFA\x1F", 4), NotAPhoto);
        row("packed drawing", QByteArray("\x1F\x8B\x08\0\0\0\0\0\0\3", 10), NotAPhoto);
        row("two bytes of a JPEG and a program",
            QByteArray("\xFF\xD8\x7F"
                       "ELF-and-more",
                       15),
            NotAPhoto);
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
        row("SVG behind a document type",
            "<!DOCTYPE svg [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;'>]><svg>&b;</svg>", Drawing);
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
        const QString said = words(error);
        QVERIFY2(said.size() > 20 && said.endsWith(u'.'), qPrintable(said));
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

    void facts_countScans()
    {
        QVERIFY(photoFacts(samples::jpegShell(16, 16, 3, 8, 0xC2, 64)));
        QCOMPARE(photoFacts(samples::jpegShell(16, 16, 3, 8, 0xC2, 65)).error(),
                 EvidenceError::Damaged);
    }

    void everyErrorHasItsOwnWords()
    {
        std::set<QString> seen;
        for (int i = 0; i <= static_cast<int>(EvidenceError::DatabaseAway); ++i) {
            const QString text = words(static_cast<EvidenceError>(i));
            QVERIFY2(text.endsWith(u'.'), qPrintable(QString::number(i)));
            QVERIFY2(seen.insert(text).second, qPrintable(text));
        }
    }
};

RAMPLIGHT_TEST(QCoreApplication, TestBadPhotos)
#include "tst_badphotos.moc"
