// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/videopixels.h"
#include "support/testmain.h"

#include <QTest>
#include <QVideoFrame>

#include <cstring>

using namespace ramplight;

/// Frames of cameras and recordings as pixels: every layout, no larger than asked, upright.
class tst_VideoPixels : public QObject
{
    Q_OBJECT

private slots:
    void frames_areReadInEveryLayout_data();
    void frames_areReadInEveryLayout();
    void frame_isNoLargerThanAsked_andUpright();
};

void tst_VideoPixels::frames_areReadInEveryLayout_data()
{
    QTest::addColumn<int>("format");
    QTest::addColumn<QByteArray>("luma");    // of each sample of a line, as bytes
    QTest::addColumn<QByteArray>("colours"); // of the second plane
    QTest::addColumn<QByteArray>("third");
    using F = QVideoFrameFormat;
    // One red, Y 65, Cb 100, Cr 212 in BT.601 at video range, laid out in every way.
    const auto of = [](std::initializer_list<int> values) {
        QByteArray bytes;
        for (const int value : values)
            bytes.append(static_cast<char>(value));
        return bytes;
    };
    QTest::newRow("YUV420P") << int(F::Format_YUV420P) << of({65}) << of({100}) << of({212});
    QTest::newRow("YV12") << int(F::Format_YV12) << of({65}) << of({212}) << of({100});
    QTest::newRow("NV12") << int(F::Format_NV12) << of({65}) << of({100, 212}) << QByteArray();
    QTest::newRow("NV21") << int(F::Format_NV21) << of({65}) << of({212, 100}) << QByteArray();
    QTest::newRow("YUYV") << int(F::Format_YUYV) << of({65, 100, 65, 212}) << QByteArray()
                          << QByteArray();
    QTest::newRow("UYVY") << int(F::Format_UYVY) << of({100, 65, 212, 65}) << QByteArray()
                          << QByteArray();
    // Qt 6.4 lays out no memory of its own for 4:2:2 or ten bits in three planes.
    QTest::newRow("ten bits, paired")
        << int(F::Format_P010) << of({0, 65}) << of({0, 100, 0, 212}) << QByteArray();
}

void tst_VideoPixels::frames_areReadInEveryLayout()
{
    QFETCH(const int, format);
    QFETCH(const QByteArray, luma);
    QFETCH(const QByteArray, colours);
    QFETCH(const QByteArray, third);
    QVideoFrameFormat layout(QSize(16, 16), static_cast<QVideoFrameFormat::PixelFormat>(format));
    layout.setColorSpace(QVideoFrameFormat::ColorSpace_BT601);
    QVideoFrame frame(layout);
    QVERIFY(frame.map(QVideoFrame::WriteOnly));
    int plane = 0;
    for (const QByteArray* pattern : {&luma, &colours, &third}) {
        if (pattern->isEmpty())
            continue;
        QVERIFY(plane < frame.planeCount());
        for (int i = 0; i < frame.mappedBytes(plane); ++i)
            frame.bits(plane)[i] = static_cast<uchar>(pattern->at(i % pattern->size()));
        ++plane;
    }
    frame.unmap();
    const QImage image = videoPixels(frame);
    QCOMPARE(image.size(), QSize(16, 16));
    for (const QPoint at : {QPoint(0, 0), QPoint(7, 8), QPoint(15, 15)}) {
        const QColor seen = image.pixelColor(at);
        // 1.164 (65 - 16) + 1.596 (212 - 128) = 191; the others by the same formula.
        QVERIFY2(std::abs(seen.red() - 191) <= 2 && std::abs(seen.green() - 0) <= 2 &&
                     std::abs(seen.blue() - 1) <= 2,
                 qPrintable(seen.name()));
    }
}

void tst_VideoPixels::frame_isNoLargerThanAsked_andUpright()
{
    QVideoFrame frame(QVideoFrameFormat(QSize(400, 200), QVideoFrameFormat::Format_YUV420P));
    QVERIFY(frame.map(QVideoFrame::WriteOnly));
    for (int plane = 0; plane < 3; ++plane)
        std::memset(frame.bits(plane), 128, static_cast<std::size_t>(frame.mappedBytes(plane)));
    for (int y = 0; y < 100; ++y) // the left half of the upper half is bright
        std::memset(frame.bits(0) + y * frame.bytesPerLine(0), 235, 200);
    frame.unmap();
    QCOMPARE(videoPixels(frame, {100, 100}).size(), QSize(100, 50));
    QCOMPARE(videoPixels(frame, {4000, 4000}).size(), QSize(400, 200));
    QCOMPARE(videoPixels(QVideoFrame(), {10, 10}), QImage());
    const QImage right = videoPixels(frame, {100, 100}, 1);
    QCOMPARE(right.size(), QSize(50, 100));
    QVERIFY(right.pixelColor(40, 10).lightness() > 240);
    QVERIFY(right.pixelColor(10, 10).lightness() < 200);
    const QImage over = videoPixels(frame, {}, 2);
    QVERIFY(over.pixelColor(390, 190).lightness() > 240);
    QVERIFY(over.pixelColor(10, 10).lightness() < 200);
}

RAMPLIGHT_TEST(QGuiApplication, tst_VideoPixels)
#include "tst_videopixels.moc"
