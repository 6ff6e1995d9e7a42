// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photoquality.h"

#include "evidence/photodecoder.h"
#include "samples.h"

#include <QPainter>
#include <QTest>

#include <set>

using namespace ramplight;
using Warnings = std::vector<PhotoWarning>;

namespace {

QImage filled(QColor colour)
{
    QImage image(400, 300, QImage::Format_RGB32);
    image.fill(colour);
    return image;
}

/// As out of focus: made small and large again.
QImage blurred(const QImage& image)
{
    return image.scaled(image.size() / 24, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
        .scaled(image.size(), Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
}

/// Every pixel taken to a share of its light.
QImage dimmed(QImage image, int percent)
{
    QPainter painter(&image);
    painter.fillRect(image.rect(), QColor(0, 0, 0, 255 - 255 * percent / 100));
    return image;
}

QImage washed(QImage image, int percent)
{
    QPainter painter(&image);
    painter.fillRect(image.rect(), QColor(255, 255, 255, 255 * percent / 100));
    return image;
}

} // namespace

class TestPhotoQuality : public QObject
{
    Q_OBJECT

private slots:
    void warnings_data()
    {
        QTest::addColumn<QImage>("image");
        QTest::addColumn<Warnings>("warnings");
        using enum PhotoWarning;
        const QImage panel = samples::panel({1600, 1200});
        QTest::newRow("good") << panel << Warnings{};
        QTest::newRow("good and small") << samples::panel({320, 240}) << Warnings{};
        QTest::newRow("good, grey")
            << panel.convertToFormat(QImage::Format_Grayscale8) << Warnings{};
        QTest::newRow("a little dim") << dimmed(panel, 50) << Warnings{};
        QTest::newRow("black") << filled(Qt::black) << Warnings{TooDark};
        QTest::newRow("night") << dimmed(panel, 8) << Warnings{TooDark};
        QTest::newRow("white") << filled(Qt::white) << Warnings{TooBright};
        QTest::newRow("into the lamp") << washed(panel, 97) << Warnings{TooBright};
        QTest::newRow("out of focus") << blurred(panel) << Warnings{Blurred};
        QTest::newRow("flat panel") << filled(QColor(120, 90, 60)) << Warnings{Blurred};
        QTest::newRow("one pixel") << filled(Qt::gray).copy(0, 0, 1, 1) << Warnings{Blurred};
        QTest::newRow("empty") << QImage() << Warnings{};
    }

    void warnings()
    {
        QFETCH(QImage, image);
        QFETCH(Warnings, warnings);
        const PhotoQuality quality = judgePhoto(image);
        QVERIFY2(quality.warnings == warnings,
                 qPrintable(QStringLiteral("dark %1 bright %2 sharp %3")
                                .arg(quality.darkPercent)
                                .arg(quality.brightPercent)
                                .arg(quality.sharpness)));
    }

    void likeness_data()
    {
        QTest::addColumn<QImage>("other");
        QTest::addColumn<bool>("same");
        const QImage panel = samples::panel({1600, 1200});
        QTest::newRow("itself") << panel << true;
        QTest::newRow("smaller") << panel.scaled(640, 480, Qt::KeepAspectRatio,
                                                 Qt::SmoothTransformation)
                                 << true;
        QTest::newRow("saved as JPEG") << decodePhoto(samples::jpeg(panel, 40)).value() << true;
        QTest::newRow("a little dimmer") << dimmed(panel, 85) << true;
        QTest::newRow("another panel") << samples::panel({1600, 1200}, 2) << false;
        QTest::newRow("a third") << samples::panel({1600, 1200}, 3) << false;
        QTest::newRow("mirrored") << panel.mirrored(true, false) << false;
        QTest::newRow("upside down") << panel.mirrored(true, true) << false;
    }

    void likeness()
    {
        QFETCH(QImage, other);
        QFETCH(bool, same);
        const quint64 kept = judgePhoto(other).likeness;
        const PhotoQuality quality =
            judgePhoto(samples::panel({1600, 1200}), std::vector<quint64>{~kept, kept});
        QVERIFY2((quality.warnings == Warnings{PhotoWarning::AlmostSame}) == same,
                 qPrintable(QString::number(likenessDistance(kept, quality.likeness))));
    }

    void likenessDistance_countsBits()
    {
        QCOMPARE(likenessDistance(0, 0), 0);
        QCOMPARE(likenessDistance(0b1010, 0b0110), 2);
        QCOMPARE(likenessDistance(0, ~quint64{0}), 64);
    }

    void rules_areSettings()
    {
        const QImage panel = samples::panel({1600, 1200});
        QCOMPARE(judgePhoto(panel, {}, {.sharpness = 1e9}).warnings,
                 Warnings{PhotoWarning::Blurred});
        QCOMPARE(judgePhoto(filled(Qt::black), {}, {.darkLuma = 0, .sharpness = 0}).warnings,
                 Warnings{});
    }

    void words_areDifferent()
    {
        using enum PhotoWarning;
        std::set<QString> seen;
        for (const PhotoWarning warning : {TooDark, TooBright, Blurred, AlmostSame})
            seen.insert(words(warning));
        QCOMPARE(seen.size(), std::size_t{4});
        QVERIFY(!seen.contains(QString()));
    }
};

QTEST_GUILESS_MAIN(TestPhotoQuality)
#include "tst_photoquality.moc"
