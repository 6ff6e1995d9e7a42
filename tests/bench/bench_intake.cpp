// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "bench/report.h"
#include "evidence/photoalignment.h"
#include "evidence/photodecoder.h"
#include "evidence/photoquality.h"
#include "evidence/photostore.h"
#include "evidence/samples.h"
#include "evidence/scenes.h"

#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QTest>
#include <QTextStream>

#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>

using namespace ramplight;
using namespace ramplight::test;

namespace {

constexpr QSize twelveMegapixels(4000, 3000);
constexpr int rounds = 15;

struct Pixels
{
    JDIMENSION width = 0;
    JDIMENSION height = 0;
    std::vector<JSAMPLE> rgb;
};

Pixels decoded(const QByteArray& bytes)
{
    jpeg_error_mgr errors;
    jpeg_decompress_struct jpeg;
    jpeg.err = jpeg_std_error(&errors);
    jpeg_create_decompress(&jpeg);
    jpeg_mem_src(&jpeg, reinterpret_cast<const unsigned char*>(bytes.constData()),
                 static_cast<unsigned long>(bytes.size()));
    jpeg_read_header(&jpeg, TRUE);
    jpeg_start_decompress(&jpeg);
    Pixels pixels{jpeg.output_width, jpeg.output_height, {}};
    pixels.rgb.resize(std::size_t{3} * pixels.width * pixels.height);
    while (jpeg.output_scanline < jpeg.output_height) {
        JSAMPROW row = &pixels.rgb[std::size_t{3} * pixels.width * jpeg.output_scanline];
        jpeg_read_scanlines(&jpeg, &row, 1);
    }
    jpeg_finish_decompress(&jpeg);
    jpeg_destroy_decompress(&jpeg);
    return pixels;
}

/// At the quality at which photos are kept; the size in bytes.
unsigned long encoded(Pixels& pixels)
{
    constexpr int quality = 90;
    jpeg_error_mgr errors;
    jpeg_compress_struct jpeg;
    jpeg.err = jpeg_std_error(&errors);
    jpeg_create_compress(&jpeg);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&jpeg, &bytes, &size);
    jpeg.image_width = pixels.width;
    jpeg.image_height = pixels.height;
    jpeg.input_components = 3;
    jpeg.in_color_space = JCS_RGB;
    jpeg_set_defaults(&jpeg);
    jpeg_set_quality(&jpeg, quality, TRUE);
    jpeg_start_compress(&jpeg, TRUE);
    while (jpeg.next_scanline < jpeg.image_height) {
        JSAMPROW row = &pixels.rgb[std::size_t{3} * pixels.width * jpeg.next_scanline];
        jpeg_write_scanlines(&jpeg, &row, 1);
    }
    jpeg_finish_compress(&jpeg);
    jpeg_destroy_compress(&jpeg);
    std::free(bytes);
    return size;
}

double since(const QElapsedTimer& timer)
{
    return double(timer.nsecsElapsed()) / 1e6;
}

} // namespace

// A telephone's photo taken in, from its bytes to the disk: checked, decoded, judged, made smaller,
// encoded, thumbnails, hash. Beside it the picture only decoded and encoded by libjpeg-turbo.
class BenchIntake : public QObject
{
    Q_OBJECT

private slots:
    void intake();
    void alignment();
};

void BenchIntake::intake()
{
    std::vector<double> ours;
    std::vector<double> bare;
    std::vector<double> decoding;
    std::vector<double> judging;
    std::vector<double> keeping;
    QTemporaryDir folder;
    PhotoStore store(folder.filePath(QStringLiteral("photos")));
    for (int i = 0; i < rounds; ++i) {
        // Another picture each time, because one that is kept is not written again.
        const QByteArray file = samples::jpeg(
            photographed(samples::Thing::Paint, i, {.grain = i, .size = twelveMegapixels}), 88);
        QElapsedTimer timer;
        timer.start();
        const auto image = decodePhoto(file);
        decoding.push_back(since(timer));
        QVERIFY(image.has_value());
        QElapsedTimer part;
        part.start();
        QVERIFY(judgePhoto(*image).warnings.empty());
        judging.push_back(since(part));
        part.start();
        QVERIFY(store.keep(*image).has_value());
        keeping.push_back(since(part));
        ours.push_back(since(timer));

        timer.start();
        Pixels pixels = decoded(file);
        QVERIFY(encoded(pixels) > 0);
        bare.push_back(since(timer));
    }
    tell(QStringLiteral("intake of 12 megapixels"), quantile(ours, 0.5), quantile(bare, 0.5),
         QStringLiteral("ms"), Aim::AtMost, 1.5);
    QTextStream(stdout) << "of that decoded " << quantile(decoding, 0.5) << " ms, judged "
                        << quantile(judging, 0.5) << " ms, kept " << quantile(keeping, 0.5) << " ms"
                        << Qt::endl;
}

void BenchIntake::alignment()
{
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        const QImage before = photographed(samples::Thing::Wheel, i, {});
        const QImage after =
            photographed(samples::Thing::Wheel, i, {.scale = 1.1, .degrees = 5, .repaired = true});
        QElapsedTimer timer;
        timer.start();
        QVERIFY(alignPhotos(before, after).isClose());
        times.push_back(since(timer));
    }
    QTextStream(stdout) << "two photos laid on each other: " << quantile(times, 0.5)
                        << " ms, the slowest " << quantile(times, 1) << " ms" << Qt::endl;
}

QTEST_GUILESS_MAIN(BenchIntake)
#include "bench_intake.moc"
